"""The sheet in words: the clock of its first hours, the dates of its weeks, and what several animals share."""

import re
from dataclasses import replace
from datetime import datetime
from itertools import pairwise

import pytest

from tests.words.making import KINDS, MATE_NAMES, bracketed, outside_brackets, speaker
from webapp.fit.acclimate import acclimate
from webapp.fit.beside import safety_of
from webapp.fit.check import check
from webapp.fit.findings import Finding, Note, Spot
from webapp.fit.profile import Band
from webapp.fit.specimen import Specimen, UsedTo
from webapp.fit.tank import BuyerTank, Measured
from webapp.fit.together import Together, common_bands, plan_together
from webapp.science.interval import Interval
from webapp.words.report import tell
from webapp.words.take_home import TITLES, Section, Told, sections
from webapp.words.take_home_normal import NORMAL, NOT_NORMAL
from webapp.words.take_home_several import Gap, Piece, own_sections, shared_sections
from webapp.words.take_home_short import mate_names
from webapp.words.take_home_times import put_on_the_clock
from webapp.words.take_home_verdict import verdict_sentences
from webapp.words.terms import latin_name

START = datetime(2026, 2, 26, 23, 10)
HERE = {
    "temp": UsedTo(25.5, 25.0, 26.0, 40, 40.0), "salinity": UsedTo(35.0, 34.5, 35.5, 40, 40.0),
    "par": UsedTo(100.0, 90.0, 110.0, 8, 40.0),
}  # fmt: skip


def told_of(key: str, temp: float | None = None, ppt: float | None = None, start: datetime = START) -> Told:
    profile = KINDS[key]
    notes = acclimate(Specimen(profile, 3.0, HERE), temp, ppt, None)
    return Told(profile, None, None, notes, safety_of(profile, doses=False, work=False), ["Origin: x."], "", "", start)


def shared_of(pieces: list[Piece], *gaps: Gap, together: Together | None = None) -> tuple[Section, ...]:
    common = together.common if together else common_bands([piece.told.profile.bands for piece in pieces])
    return shared_sections(pieces, gaps, common, together, speaker())


def hours_of(key: str, **tank) -> list[tuple[str, str]]:
    told = told_of(key, **tank)
    return put_on_the_clock(told.acclimation, speaker(), told.start).hours


def test_each_step_begins_when_the_one_before_it_ends():
    """By hand: 25.5 to 22 degrees floats 15 minutes or longer; 35 to 31.5 ppt drips in two doublings of an hour in all.

    Half is poured away after the first doubling, so half way through. The clock runs over midnight.
    """
    hours = {text.split()[0]: when for when, text in hours_of("zoanthus", temp=22.0, ppt=31.5)}
    assert hours["Lamp"] == "23:10"
    begins, ends = hours["Float"].split("–")
    assert begins == "23:10"
    drip_begins, drip_ends = hours["Drip"].split("–")
    assert drip_begins == ends
    minutes = [int(one[:2]) % 12 * 60 + int(one[3:]) for one in (drip_begins, hours["Each"], drip_ends)]
    assert (minutes[2] - minutes[0]) % 720 == 60
    assert (minutes[1] - minutes[0]) % 720 == 30
    assert hours["Lift"] == drip_ends


def test_days_are_told_by_date_over_the_end_of_a_month():
    """26 Feb 2026 is a Thursday (ISO 8601); that year has no 29 Feb, so a week later is 5 Mar."""
    told = told_of("zoanthus")
    weeks = put_on_the_clock(told.acclimation, speaker(), START).weeks
    assert "Until Sat 28 Feb" in dict(weeks)
    assert dict(weeks)["Thu 5 Mar"].startswith("Not open by day")
    assert dict(weeks)["Thu 26 Mar"].startswith("Compare")


def test_in_brief_regular_steps_of_the_light_are_told_by_their_rhythm_and_none_is_left_out():
    """By hand: the first and the last day of the full form, the days between two of them, and every strength of it."""
    there = Spot("upper", 10.0, (5.0, 15.0), Interval(300.0, 320.0, 340.0), None)
    notes = acclimate(Specimen(KINDS["acropora"], 3.0, HERE), 25.5, 35.0, there)
    full, brief = (dict(put_on_the_clock(notes, speaker(), START, brief=one).light) for one in (False, True))
    pairs = re.findall(r"(\d+ [A-Z][a-z]{2}) (\d+%)", full["With a dimmer"])
    days, strengths = zip(*pairs, strict=True)
    dates = [datetime.strptime(f"{day} {START.year}", "%d %b %Y") for day in days]
    (gap,) = {(later - earlier).days for earlier, later in pairwise(dates)}
    told_so = f"Lamp, every {gap} days, {days[0]} to {days[-1]}: {', '.join(strengths)}."
    assert brief["With a dimmer"].endswith(told_so)


def test_in_brief_every_section_and_every_caution_is_there():
    told = told_of("catalaphyllia", temp=24.0, ppt=33.0)
    full, brief = (sections(told, speaker(), brief=one) for one in (False, True))
    assert [one.key for one in brief] == [one.key for one in full]
    same = {"caution", "changes", "not_normal", "mates", "papers", "terms", "food"}
    assert [one for one in brief if one.key in same] == [one for one in full if one.key in same]
    assert [text for one in brief if one.key == "weeks" for _, text in one.steps] == [
        text for one in full if one.key == "weeks" for _, text in one.steps
    ]


def test_a_wide_gap_is_told_by_days():
    """35 to 27 ppt at 2.5 ppt a day at most: four days."""
    when = [when for when, _ in hours_of("zoanthus", temp=25.5, ppt=27.0)]
    assert [one for one in when if "Mar" in one or "Feb" in one] == [
        "Thu 26 Feb", "Fri 27 Feb", "Sat 28 Feb", "Sun 1 Mar", "Mon 2 Mar",
    ]  # fmt: skip


@pytest.mark.parametrize("key", KINDS)
def test_every_kind_has_its_sections_in_order_and_all_words_can_be_translated(key):
    told = told_of(key, temp=24.0, ppt=33.0)
    found = [section.key for section in sections(told, speaker())]
    assert found == [one for one in TITLES if one in found]
    assert set(found) >= {"targets", "where", "hours", "light", "weeks", "food", "normal", "not_normal", "terms"}
    short = {mate: name.split(" (")[0] for mate, name in MATE_NAMES.items()}  # as a sheet names them
    for section in sections(told, bracketed(tankmates=short)):
        for text in (section.title, *section.lines, *(text for _, text in section.steps)):
            if text != "Origin: x.":
                assert not [word for word in outside_brackets(text).split() if word.isalpha()], text


def test_who_can_hurt_says_whom_to_call_and_leaves_room_for_the_number():
    lines = sections(told_of("palythoa"), speaker())[0].lines
    assert any("palytoxin" in line for line in lines)
    assert any("poisons line: ____" in line for line in lines)


def test_every_group_has_what_is_normal_and_what_is_not():
    assert set(NORMAL) == set(NOT_NORMAL) == {kind.group for kind in KINDS.values()}


def test_several_share_what_is_the_same_and_name_what_is_not():
    named = (("zoanthus", "A"), ("acropora", "B"))
    pieces = [Piece(key.title(), code, told_of(key, temp=24.0, ppt=33.0)) for key, code in named]
    shared = {one.key: one for one in shared_of(pieces, Gap("Zoanthus", "Acropora", 17.2))}
    assert shared["gaps"].lines == ("Zoanthus: at least 18 cm from Acropora.",)
    assert not any(text.startswith(("Zoanthus", "Acropora")) for _, text in shared["hours"].steps)
    assert "normal" not in shared, "nothing is normal for both"
    assert [text.split(":")[0] for _, text in shared["order"].steps] == ["Zoanthus", "Acropora"]
    own = {one.key: one for one in own_sections(pieces[0], pieces, speaker())}
    assert own["normal"].lines == NORMAL["zoanthid"]
    assert not set(own["weeks"].steps) & set(shared["weeks"].steps), "nothing is told twice"
    said = {*shared["weeks"].steps, *own["weeks"].steps}
    assert said == set(next(one for one in sections(pieces[0].told, speaker()) if one.key == "weeks").steps)


def test_cautions_of_several_name_whose_they_are_and_end_with_whom_to_call():
    pieces = [Piece(key.title(), key, told_of(key)) for key in ("acropora", "zoanthus", "discosoma")]
    *said, call = shared_of(pieces)[0].lines
    assert "poisons line" in call
    assert [line.split(":")[0] for line in said[:3]] == ["Acropora", "Zoanthus", "Discosoma"]
    assert sum("Wash your hands after work" in line for line in said) == 1


def test_water_for_all_lies_in_the_ideal_of_each():
    pieces = [Piece(key, key, told_of(key)) for key in ("zoanthus", "acropora", "discosoma")]
    rows = dict(next(one for one in shared_of(pieces) if one.key == "water").rows)
    bands = [KINDS[key].bands["temp"] for key in ("zoanthus", "acropora", "discosoma")]
    low, high = max(band.ideal_low for band in bands), min(band.ideal_high for band in bands)
    assert rows["Temperature"] == f"{low:g}–{high:g} °C"


def test_what_no_plan_mends_is_told_with_what_to_do():
    """By the tables: Acropora wants a tank of nine months; three months more for one of six. The water is ideal."""
    kind = KINDS["acropora"]
    units = {"temp": "c", "salinity": "ppt", "alk": "dkh", "ca": "mg_l", "mg": "mg_l"}
    middle = {name: (kind.bands[name].ideal_low + kind.bands[name].ideal_high) / 2 for name in units}
    water = {name: (Measured(value, units[name]),) for name, value in middle.items()}
    tank = BuyerTank(readings=water, age_months=kind.min_tank_age_months - 3.0)
    report = check(tank, Specimen(kind, 3.0, HERE))
    told = Told(kind, report, tell(report, speaker()), (), (), [], "", "", START)
    changes = next(one for one in sections(told, speaker()) if one.key == "changes")
    assert dict(changes.steps)["Age of the tank"] == "Wait 3 months more."


def test_several_are_told_once_how_much_heat_goes_and_whom_to_ask():
    """By the tables of two kinds in one tank at 29.5 degrees: the one that bears less decides for both."""
    keys = ("palythoa", "discosoma")
    pieces, together = several_of(keys, summer=Measured(29.5, "c"), temp=Measured(25.0, "c"))
    shared = {one.key: one for one in shared_of(pieces, together=together)}
    heat = [text for what, text in shared["changes"].steps if what == "Summer heat"]
    most = 29.5 - min(KINDS[key].bands["temp"].ideal_high for key in keys)
    assert heat == [f"Shade, a fan or a chiller: {most:.1f} °C less."]
    assert "not_normal" not in shared, "nothing but whom to ask holds for both"
    assert shared["terms"].lines[-1] == "In doubt? Show us a photo."


def several_of(
    keys: tuple[str, ...], summer: Measured | None = None, **readings: Measured
) -> tuple[list[Piece], Together]:
    """Pieces and their common plan for 200 litres with these readings."""
    kinds = [KINDS[key] for key in keys]
    water = {name: (value,) for name, value in readings.items()}
    tank = BuyerTank(readings=water, volume=Measured(200, "l"), summer_high=summer)
    reports = [check(tank, Specimen(kind, 3.0, HERE)) for kind in kinds]
    together = plan_together(reports, [kind.bands for kind in kinds], 200.0)
    told = [
        Told(kind, report, tell(report, speaker()), report.acclimation, (), [], "", "", START)
        for kind, report in zip(kinds, reports, strict=True)
    ]
    return [Piece(one.profile.key, one.profile.key, one) for one in told], together


def test_what_to_change_for_all_names_who_asks_and_only_where_not_all_do():
    """By the tables: 24 mg/L of nitrate is too much for Acropora (1 to 10) and suits a mushroom (2 to 30)."""
    keys, nitrate = ("discosoma", "acropora"), Measured(24, "mg_l", "colorimeter")
    assert KINDS["discosoma"].bands["no3"].ideal_high > 24 > KINDS["acropora"].bands["no3"].limit_high
    pieces, together = several_of(keys, no3=nitrate)
    changes = {one.key: one for one in shared_of(pieces, together=together)}["changes"]
    assert changes.lines[0].startswith("Do this, test again, then fetch them")
    assert dict(changes.steps)["Change water"].endswith("For acropora.")
    pieces, together = several_of(("acropora", "acropora"), no3=nitrate)
    changes = {one.key: one for one in shared_of(pieces, together=together)}["changes"]
    assert "For acropora" not in dict(changes.steps)["Change water"]


def test_what_no_water_meets_for_two_is_said_with_both_their_ranges():
    pieces = [Piece(key.title(), key, told_of(key)) for key in ("zoanthus", "acropora")]
    own = Band(10, 12, 16, 18, KINDS["zoanthus"].bands["temp"].basis)
    cold = replace(pieces[0].told.profile, bands={**KINDS["zoanthus"].bands, "temp": own})
    pieces[0] = replace(pieces[0], told=replace(pieces[0].told, profile=cold))
    told = {one.key: one for one in shared_of(pieces)}
    low, high = KINDS["acropora"].bands["temp"].limit_low, KINDS["acropora"].bands["temp"].limit_high
    assert told["apart"].lines == (
        f"Temperature: Zoanthus bears 10–18 °C, Acropora {low:g}–{high:g} °C. No water suits both: keep one of them "
        "elsewhere.",
    )
    assert dict(told["water"].rows)["Temperature"] == "no range suits them all"


def test_a_verdict_names_each_thing_once():
    """By hand: nitrate must change; alkalinity is too coarse, so neither it nor nitrate is told again as 'close'."""
    notes = (
        Note("whole_worst", {"verdict": "change_first", "factors": ("no3",)}),
        Note("whole_three_close", {"n": 3, "factors": ("alk", "ph", "space"), "hardiness": 3}),
        Note("whole_unsettled", {"factors": ("alk",)}),
    )
    findings = [Finding(one, "close", ()) for one in ("no3", "alk", "ph", "space")]
    report = replace(check(BuyerTank(), Specimen(KINDS["acropora"], 3.0, {})), findings=findings, whole_reasons=notes)
    said = verdict_sentences(report, KINDS["acropora"], speaker())
    assert said == ["Nitrate.", "Also not ideal: pH and room to grow.", "Too coarse to settle: alkalinity."]
    alone = replace(report, whole_reasons=notes[1:2])
    assert verdict_sentences(alone, KINDS["acropora"], speaker())[0].startswith("3 things not ideal at once: alk")


def test_groups_of_tankmates_are_called_by_one_name_where_all_of_them_are_meant():
    shrimps = ["shrimp_cleaner", "goby", "shrimp_peppermint"]
    assert mate_names([*shrimps, "shrimp_other"], speaker()) == ["all shrimps", "gobies"]
    assert "all shrimps" not in mate_names(shrimps, speaker())
    assert len(mate_names(shrimps, speaker())) == 3


def test_a_scientific_name_stands_without_what_its_brackets_explain():
    assert latin_name("Capnella / Litophyton (formerly Nephthea) spp.", str) == "Capnella / Litophyton spp."
    assert latin_name("Porites spp.", lambda text: "never asked") == "Porites spp."
