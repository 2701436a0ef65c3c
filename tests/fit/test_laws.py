"""What holds for every tank and every kind: the promises of the check, as laws."""

import random
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fit.making import BANDS, GOOD, finding, kind, reading, report, tank
from webapp.fit.findings import Note
from webapp.fit.judge import RANK, judge
from webapp.fit.neighbours import needed_gap_cm
from webapp.fit.profile import Band, Basis
from webapp.fit.tank import LightSaid, Measured, Neighbour
from webapp.fit.whole import whole
from webapp.science.interval import Interval
from webapp.science.units import from_canonical

CANONICAL = {"temp": "c", "salinity": "ppt", "alk": "dkh", "ph": "nbs"}
METHODS = {
    "temp": ("digital_probe", "thermometer", "strip_thermometer"),
    "salinity": ("conductivity_meter", "refractometer", "hydrometer_swing"),
    "alk": ("laboratory", "fine_titration", "drop_kit"),
    "ca": ("laboratory", "drop_kit"),
    "mg": ("laboratory", "drop_kit", "colorimeter"),
    "ph": ("electrode", "colour_card"),
    "no3": ("laboratory", "colorimeter", "colour_card", "strip"),
    "po4": ("laboratory", "low_range_colorimeter", "colour_card"),
}
SPREAD = {
    "temp": (18.0, 33.0), "salinity": (24.0, 40.5), "alk": (4.7, 12.9), "ca": (250.0, 650.0), "mg": (800.0, 1900.0),
    "ph": (7.1, 8.9), "no3": (0.0, 80.0), "po4": (0.0, 0.9),
}  # fmt: skip
FACTORS = tuple(SPREAD)


@st.composite
def bands(draw):
    edges = sorted(draw(st.lists(st.floats(0.5, 400), min_size=4, max_size=4)))
    return Band(*edges, Basis("common_practice"))


@st.composite
def waters(draw):
    readings = {}
    for factor in FACTORS:
        low, high = SPREAD[factor]
        method = draw(st.sampled_from(METHODS[factor]))
        readings[factor] = (Measured(draw(st.floats(low, high)), CANONICAL.get(factor, "mg_l"), method),)
    return readings


@given(bands(), st.floats(0.5, 400), st.floats(0.01, 200), st.floats(0.01, 200), st.floats(0.05, 1), st.booleans())
@settings(max_examples=300, deadline=None)
def test_a_narrower_error_never_reverses_a_verdict(band, c, down, up, narrower, log):
    """On the linear scale with half-ranges down and up; on the logarithmic one with c/(1+down), c(1+up)."""
    if log:
        down, up = min(down, 20), min(up, 20)  # beyond three decades share_outside cuts the range's lower end off
        wide = Interval.times_over(c, down, up)
        narrow = Interval.times_over(c, (1 + down) ** narrower - 1, (1 + up) ** narrower - 1)
    else:
        wide = Interval(c - down, c, c + up)
        narrow = Interval(c - down * narrower, c, c + up * narrower)
    first, second = judge(wide, band, log=log).verdict, judge(narrow, band, log=log).verdict
    if first in ("suits", "close"):
        assert second == first
    elif first == "change_first":
        # A range wider than the band on both sides can lose its certainty before it is narrow enough to regain it.
        assert second in ("change_first", "not_known")


@given(st.sampled_from(FACTORS), st.floats(0, 1), st.floats(0, 1), st.data())
@settings(max_examples=150, deadline=None)
def test_towards_the_ideal_never_worsens_it_or_the_whole(factor, share, step, data):
    readings = data.draw(waters())
    low, high = SPREAD[factor]
    away = low + (high - low) * share
    band = BANDS[factor]
    ideal = min(max(away, band.ideal_low), band.ideal_high)
    nearer = away + (ideal - away) * step
    method = data.draw(st.sampled_from(METHODS[factor]))
    unit = CANONICAL.get(factor, "mg_l")
    profile = kind(
        hardiness=data.draw(st.sampled_from((1, 3, 5))), skeleton=data.draw(st.booleans()),
        calcium_demand=data.draw(st.sampled_from((0, 3))), feeding_days_per_week=data.draw(st.sampled_from((0, 3))),
    )  # fmt: skip
    before, after = (
        report(tank(readings={**readings, factor: (Measured(value, unit, method),)}), profile)
        for value in (away, nearer)
    )
    assert RANK[finding(after, factor).verdict] <= RANK[finding(before, factor).verdict]
    assert RANK[after.whole] <= RANK[before.whole]


@given(st.sampled_from(FACTORS), st.floats(0, 1), st.floats(0, 1), st.floats(0, 1), st.data())
@settings(max_examples=120, deadline=None)
def test_the_same_with_two_readings_of_which_one_moves(factor, share, other, step, data):
    readings = data.draw(waters())
    low, high = SPREAD[factor]
    away, still = (low + (high - low) * at for at in (share, other))
    ideal = min(max(away, BANDS[factor].ideal_low), BANDS[factor].ideal_high)
    method, unit = data.draw(st.sampled_from(METHODS[factor])), CANONICAL.get(factor, "mg_l")
    profile = kind(hardiness=data.draw(st.sampled_from((1, 3, 5))), skeleton=data.draw(st.booleans()))
    before, after = (
        report(
            tank(readings={**readings, factor: (Measured(at, unit, method), Measured(still, unit, method))}), profile
        )
        for at in (away, away + (ideal - away) * step)
    )
    assert RANK[finding(after, factor).verdict] <= RANK[finding(before, factor).verdict]
    assert RANK[after.whole] <= RANK[before.whole]


UNITS = [
    ("temp", "f"), ("salinity", "sg_25"), ("salinity", "sg_20"), ("salinity", "sg_60f"), ("salinity", "ms_cm_25"),
    ("alk", "meq_l"), ("alk", "ppm_caco3"), ("alk", "umol_kg"), ("ca", "mg_l_caco3"), ("mg", "mg_l_caco3"),
    ("no3", "mg_l_n"), ("no3", "umol_l"), ("po4", "mg_l_p"), ("po4", "umol_l"), ("po4", "ppb_po4"), ("ph", "total"),
]  # fmt: skip


@given(st.sampled_from(UNITS), st.floats(0.02, 0.98), st.data())
@settings(max_examples=120, deadline=None)
def test_the_verdict_does_not_depend_on_the_unit(which, share, data):
    factor, unit = which
    low, high = SPREAD[factor]
    value = low + (high - low) * share
    method = data.draw(st.sampled_from(METHODS[factor]))
    at = {"temp_c": GOOD["temp"].value, "salinity_ppt": GOOD["salinity"].value} if factor in ("alk", "ph") else {}
    if method == "hydrometer_swing" and unit.startswith("sg_"):
        at = {"temp_c": GOOD["temp"].value}  # it floats in the tank
    typed = from_canonical(factor, value, unit, **at)
    here = report(reading(factor, Measured(value, CANONICAL.get(factor, "mg_l"), method)))
    there = report(reading(factor, Measured(typed, unit, method)))
    if here.questions or there.questions:  # a trap of one unit is not a verdict
        return
    a, b = finding(here, factor), finding(there, factor)
    assert abs(a.estimate.mid - b.estimate.mid) < 1e-6 * max(1, value)
    assert (a.verdict, here.whole) == (b.verdict, there.whole)


REQUIRED = ("temp", "salinity", "alk", "no3", "po4")


@given(st.sampled_from((*REQUIRED, "age", "light")), st.sampled_from((1, 2, 3, 5)))
@settings(max_examples=40, deadline=None)
def test_a_required_blank_is_never_a_pass(missing, hardiness):
    blank = {"age": tank(age_months=None), "light": tank(light=None)}.get(missing) or reading(missing)
    answer = report(blank, kind(hardiness=hardiness))
    assert RANK[answer.whole] >= RANK["not_known"]
    assert missing in answer.settle_next


@given(waters(), st.randoms(use_true_random=False))
@settings(max_examples=40, deadline=None)
def test_the_order_of_what_was_typed_does_not_matter(readings, chance):
    mates = ["tang", "goby", "butterflyfish"]
    near = [Neighbour("longarm", 12.0), Neighbour("testacora", 3.0), Neighbour("longarm", None)]
    profile = kind(nipped_by={"tang": "risk", "butterflyfish": "risk"}, catches={"goby": "risk"})
    kinds = {"longarm": kind(key="longarm", scientific="Longarmia ficta", sting_reach_cm=20), "testacora": kind()}
    readings = {**readings, "alk": (*readings["alk"], Measured(9.0, "dkh", "drop_kit"))}
    names = list(readings)
    answers = []
    for _ in range(2):
        turned = {name: tuple(chance.sample(readings[name], len(readings[name]))) for name in names}
        buyer = tank(readings=turned, tankmates=tuple(mates), neighbours=tuple(near))
        answers.append(report(buyer, profile, kinds))
        for items in (names, mates, near):
            chance.shuffle(items)
    first, second = answers
    assert first.whole == second.whole and first.settle_next == second.settle_next
    assert first.whole_reasons == second.whole_reasons
    assert [(f.factor, f.verdict, f.advice) for f in first.findings] == [
        (f.factor, f.verdict, f.advice) for f in second.findings
    ]


@given(waters(), st.integers(0, 10**6), st.sampled_from((1, 3)))
@settings(max_examples=40, deadline=None)
def test_the_whole_does_not_depend_on_the_order_of_findings(readings, seed, hardiness):
    findings = list(report(tank(readings=readings), kind(hardiness=hardiness)).findings)
    before = whole(findings, hardiness)
    random.Random(seed).shuffle(findings)
    assert whole(findings, hardiness) == before


@given(st.floats(1, 600), st.floats(1, 600))
@settings(max_examples=40, deadline=None)
def test_light_at_a_fixed_spot_towards_the_ideal_never_worsens(a, b):
    """On the sand, where the spot cannot move up; too bright is mended by shade, so the dim side is what can worsen."""
    dim, bright = sorted((min(a, 130), min(b, 130)))
    bottom = kind(placement="bottom")

    def at(par):
        said = LightSaid("meter", par=par, depth_cm=45, corrected_for_water=True)
        return finding(report(tank(light=said), bottom), "light").verdict

    assert RANK[at(bright)] <= RANK[at(dim)]


@given(waters())
@settings(max_examples=40, deadline=None)
def test_a_better_instrument_never_reverses_the_whole(readings):
    """The whole by the coarsest instruments, if it is settled, is the whole by the finest."""

    def whole_with(place):
        taken = {name: (replace(values[0], method=METHODS[name][place]),) for name, values in readings.items()}
        return report(tank(readings=taken), kind(hardiness=1)).whole

    coarse, fine = whole_with(-1), whole_with(0)
    if coarse in ("suits", "close", "change_first"):
        assert fine == coarse


def test_notes_are_codes_and_values_only():
    assert all(isinstance(note, Note) for found in report().findings for note in (*found.reasons, *found.advice))


MORE = {"age_months": (0, 40), "free_space_cm": (0, 60), "feeding_days_per_week": (0, 7)}


SHARE = st.floats(0, 1)


@given(st.sampled_from(sorted(MORE)), SHARE, SHARE, st.sampled_from((1, 3)), st.sampled_from((1, 7)))
@settings(max_examples=80, deadline=None)
def test_more_age_room_or_food_never_worsens_the_whole(what, a, b, hardiness, days):
    low, high = MORE[what]
    less, more = sorted((low + (high - low) * a, low + (high - low) * b))
    profile = kind(hardiness=hardiness, feeding_days_per_week=days, min_tank_age_months=6)
    worse, better = (report(tank(**{what: value}), profile) for value in (less, more))
    assert RANK[better.whole] <= RANK[worse.whole]


@given(st.floats(0, 80), st.floats(0, 80))
@settings(max_examples=40, deadline=None)
def test_a_wider_gap_never_worsens_and_both_sides_need_the_same(a, b):
    torch = kind(key="longarm", scientific="Longarmia ficta", sting_reach_cm=20, adult_cm=40)
    kinds = {"longarm": torch, "testacora": kind()}
    near, far = sorted((a, b))
    for profile, other in ((kind(), "longarm"), (torch, "testacora")):
        verdicts = [
            finding(report(tank(neighbours=(Neighbour(other, gap),)), profile, kinds), "neighbours").verdict
            for gap in (near, far)
        ]
        assert RANK[verdicts[1]] <= RANK[verdicts[0]]
    assert needed_gap_cm(torch, kind()) == needed_gap_cm(kind(), torch)
