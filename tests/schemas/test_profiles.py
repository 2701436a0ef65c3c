"""The shipped profiles: complete, in order, cited, and the same after a journey through JSON."""

import json
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marshmallow import ValidationError

from webapp.fit.profile import BANDED
from webapp.schemas.datafiles import load_sources, read_data
from webapp.schemas.profiles import load_profiles, profile_from_json, profile_to_json

KEYS = sorted(load_profiles())


def test_there_are_81_kinds_each_with_every_band():
    assert len(KEYS) == 81
    assert {key for key, p in load_profiles().items() if set(p.bands) != set(BANDED)} == set()


@pytest.mark.parametrize("key", KEYS)
def test_the_json_form_gives_the_same_profile_back(key):
    profile = load_profiles()[key]
    assert profile_from_json(json.loads(json.dumps(profile_to_json(profile)))) == profile


def test_every_citation_key_named_anywhere_is_a_full_citation():
    named = set()
    for profile in load_profiles().values():
        named |= {band.basis.source for band in profile.bands.values() if band.basis.kind == "published"}
        for text in (profile.basis_note, *(band.basis.note for band in profile.bands.values())):
            named |= set(re.findall(r"\b[a-z_]+_(?:19|20)\d\d\b", text))
    assert named
    assert named <= set(load_sources())
    assert all(len(citation) > 50 for citation in load_sources().values())


@given(st.permutations([21.0, 23.0, 25.0, 27.0]))
def test_a_band_out_of_order_is_refused(numbers):
    form = profile_to_json(load_profiles()["discosoma"])
    form["bands"]["temp"] |= {"limits": [numbers[0], numbers[3]], "ideal": numbers[1:3]}
    if numbers == sorted(numbers):
        profile_from_json(form)
    else:
        with pytest.raises(ValidationError, match="rise in this order"):
            profile_from_json(form)


@pytest.mark.parametrize(
    ("path", "value", "word"),
    [
        (("bands", "temp", "unit"), "f", "Must be c"),
        (("bands", "temp", "basis"), {"kind": "published"}, "citation"),
        (("bands", "temp", "basis"), {"kind": "memory", "source": "millero_2008"}, "Only a published"),
        (("bands", "temp", "colour"), "blue", "Unknown field"),
        (("hardiness",), 6, "less than or equal to 5"),
        (("surprise",), 1, "Unknown field"),
        (("attach_days",), [9, 3], "must not exceed"),
        (("requires",), ["moonlight"], "Must be one of"),
    ],
)
def test_a_wrong_form_is_refused_with_the_reason(path, value, word):
    form = profile_to_json(load_profiles()["discosoma"])
    target = form
    for step in path[:-1]:
        target = target[step]
    target[path[-1]] = value
    with pytest.raises(ValidationError) as refused:
        profile_from_json(form)
    assert word in json.dumps(refused.value.messages)


def test_a_factor_that_is_not_ours_is_refused():
    form = profile_to_json(load_profiles()["discosoma"])
    form["bands"]["iodine"] = form["bands"]["temp"]
    with pytest.raises(ValidationError, match="iodine"):
        profile_from_json(form)


def test_what_each_group_requires():
    """Common practice: skeleton builders need the whole set; what needs no light needs feeding instead."""
    for profile in load_profiles().values():
        needs_light = profile.bands["par"].ideal_low > 0
        assert ("light" in profile.requires) == needs_light, profile.key
        assert needs_light or "feeding" in profile.requires, profile.key
        assert {"temp", "salinity", "age"} <= profile.requires, profile.key
        if profile.skeleton:
            assert {"alk", "no3", "po4"} <= profile.requires, profile.key
            assert ({"ca", "mg"} <= profile.requires) == (profile.group in ("sps", "clam")), profile.key
        else:
            assert {"nutrient", "flow"} <= profile.requires, profile.key
            assert "alk" not in profile.requires, profile.key


def test_only_zoanthids_carry_the_poison_flag_and_all_of_them_do():
    """deeds_2011; hamade_2015: palytoxin in traded zoanthids, which cannot be told by eye."""
    assert {k for k, p in load_profiles().items() if p.toxic} == {"zoanthus", "palythoa", "parazoanthus"}


def test_listing_follows_the_skeleton():
    """CITES Appendix II: stony corals, blue coral, organ-pipe coral and giant clams; no other kind sold here."""
    assert all((p.cites == "II") == p.skeleton for p in load_profiles().values())


def test_a_file_with_a_key_twice_is_refused(tmp_path, monkeypatch):
    monkeypatch.setattr("webapp.schemas.datafiles.files", lambda _: tmp_path)
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "double.json").write_text('{"a": 1, "a": 2}')
    with pytest.raises(ValueError, match="given twice: a"):
        read_data("double.json")


#: Sea water of salinity 35 at 25 C (millero_2008: composition; alkalinity 2304.4 umol/kg), in our units; pH and
#: temperature of a tropical sea surface, nutrients at the top of what reefs bear (guan_2015).
NATURAL = {
    "temp": 26.0,
    "salinity": 35.0,
    "alk": 6.612,
    "ca": 421.70,
    "mg": 1313.69,
    "ph": 8.2,
    "no3": 0.28,
    "po4": 0.0598,
}


@pytest.mark.parametrize("key", KEYS)
def test_natural_sea_water_is_beyond_no_limit(key):
    """Every kind comes from the sea: its water may miss the trade's ideal, never an outer limit."""
    profile = load_profiles()[key]
    for factor, value in NATURAL.items():
        band = profile.bands[factor]
        assert band.limit_low <= value <= band.limit_high, (key, factor)


def test_no_easy_kind_is_held_tighter_than_the_most_delicate():
    """Common practice: what is called easy bears whatever staghorn bears, salinity apart (a habit of the trade)."""
    delicate = load_profiles()["acropora"]
    for key, profile in load_profiles().items():
        if profile.hardiness > 1:
            continue
        for factor in ("temp", "alk", "ca", "mg", "ph", "no3", "po4"):
            ours, theirs = profile.bands[factor], delicate.bands[factor]
            assert ours.limit_low <= theirs.limit_low, (key, factor)
            assert ours.limit_high >= theirs.limit_high, (key, factor)


def test_published_ranges_are_those_of_the_publication():
    """khalesi_2009: Sinularia flexibilis did well from 100 to 400 umol m-2 s-1, best at about 100."""
    band = load_profiles()["sinularia"].bands["par"]
    assert (band.ideal_low, band.ideal_high, band.basis.source) == (100, 400, "khalesi_2009")
    published = {(k, f) for k, p in load_profiles().items() for f, b in p.bands.items() if b.basis.kind == "published"}
    assert published == {("sinularia", "par")}, "whatever else is called published must be checked here"
