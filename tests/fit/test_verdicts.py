"""Each factor reaches each verdict it can have."""

import pytest

from tests.fit.making import BANDS, codes, finding, kind, reading, report, tank, verdict, with_band
from webapp.fit.tank import FlowSaid, LightSaid, Measured, Neighbour, PumpSaid


def test_the_good_tank_suits():
    answer = report()
    assert answer.whole == "suits"
    assert {found.verdict for found in answer.findings} == {"suits"}
    assert answer.settle_next == () and answer.questions == ()


WATER = [
    # factor, method, suits, close, not known, change first (canonical units)
    ("temp", "digital_probe", 25, 27.2, 28.1, 29.0),
    ("salinity", "refractometer", 34.5, 32.2, 30.8, 29.0),
    ("alk", "drop_kit", 8.6, 7.1, 6.4, 5.2),
    ("ca", "drop_kit", 425, 390, 365, 330),
    ("mg", "drop_kit", 1325, 1220, 1145, 1050),
    ("ph", "electrode", 8.15, 7.75, 7.58, 7.4),
    ("no3", "colorimeter", 8, 18, 26, 40),
    ("po4", "low_range_colorimeter", 0.06, 0.12, 0.153, 0.3),
]


@pytest.mark.parametrize(("factor", "method", "good", "near", "unsettled", "bad"), WATER, ids=lambda v: str(v))
def test_water_reaches_every_verdict(factor, method, good, near, unsettled, bad):
    unit = {"temp": "c", "salinity": "ppt", "alk": "dkh", "ph": "nbs"}.get(factor, "mg_l")
    for value, expected in ((good, "suits"), (near, "close"), (unsettled, "not_known"), (bad, "change_first")):
        answer = report(reading(factor, Measured(value, unit, method)))
        assert finding(answer, factor).verdict == expected, value
    blank = report(reading(factor))
    assert finding(blank, factor).verdict == "not_known"
    assert codes(blank, factor) == {"no_reading"} | ({"give_reading"} if factor not in ("ca", "mg", "ph") else set())


def test_near_the_edge_is_said():
    found = finding(report(reading("alk", Measured(7.7, "dkh", "drop_kit"))), "alk")
    assert found.verdict == "suits" and found.near_edge


def test_ammonia_and_nitrite():
    for factor, unit in (("ammonia", "mg_l_n"), ("nitrite", "mg_l")):
        cases = ((0, "suits"), (0.12, "close"), (2.0, "change_first"))
        for value, expected in cases:
            buyer = reading(factor, Measured(value, unit, "colorimeter"))
            assert verdict(factor, buyer) == expected, (factor, value)
    assert verdict("ammonia", reading("ammonia", Measured(0.25, "mg_l_n", "colour_card"))) == "not_known"
    assert "free_ammonia" in codes(report(reading("ammonia", Measured(1.0, "mg_l_n", "colorimeter"))), "ammonia")
    young = reading("ammonia", Measured(1.0, "mg_l_n", "colorimeter"), age_months=1)
    assert "wait_for_cycle" in codes(report(young), "ammonia")
    assert "find_cause" in codes(report(reading("ammonia", Measured(1.0, "mg_l_n", "colorimeter"))), "ammonia")


def test_stability():
    sps = kind(group="sps")
    assert verdict("stability", tank(), sps) == "not_known"
    assert verdict("stability", tank(swings={"temp": 1.0}), sps) == "suits"
    assert verdict("stability", tank(swings={"temp": 2.0}), sps) == "change_first"
    assert verdict("stability", tank(swings={"temp": 2.0})) == "close"
    # Two drop tests cannot show half a degree of alkalinity a day: an arithmetic fact of +-0.4 dKH a test.
    assert verdict("stability", tank(swings={"alk": 0.6}), sps) == "not_known"
    assert "stability" not in {found.factor for found in report().findings}


def test_summer():
    for high, expected in ((26, "suits"), (27.3, "close"), (28.1, "not_known"), (31, "change_first")):
        assert verdict("summer", tank(summer_high=Measured(high, "c", "thermometer"))) == expected
    asked = report(tank(summer_high=Measured(88, "c")))
    assert finding(asked, "summer").verdict == "not_known"
    assert [question.quantity for question in asked.questions] == ["summer"]


def test_light_reaches_every_verdict():
    bottom = kind(placement="bottom")

    def at(par, **said):
        return tank(light=LightSaid("meter", par=par, depth_cm=45, corrected_for_water=True, **said))

    assert verdict("light", at(120), bottom) == "suits"
    assert verdict("light", at(65), bottom) == "close"
    assert verdict("light", at(51), bottom) == "not_known"
    assert verdict("light", at(15), bottom) == "change_first"
    assert verdict("light", tank(light=None), bottom) == "not_known"
    assert "more_light" in codes(report(at(15), bottom), "light")
    assert "measure_light" in codes(report(at(51), bottom), "light")
    shy = with_band("par", 1, 2, 4, 8, placement="bottom")
    assert "dim_light" in codes(report(at(900), shy), "light")


def test_too_bright_is_mended_by_the_spot():
    """The answer to strong light is a lower or shaded place, not a refusal."""
    answer = report(tank(light=LightSaid("meter", par=500, depth_cm=10, corrected_for_water=True)))
    assert finding(answer, "light").verdict == "suits"
    assert 80 <= answer.spot.light.mid <= 200


def test_a_described_light_is_not_enough_for_strong_light_kinds():
    buyer = tank(light=LightSaid("words", word="strong"))
    assert verdict("light", buyer, kind(group="sps")) == "not_known"
    assert verdict("light", buyer, kind()) == "suits"


def test_flow_reaches_every_verdict():
    def speed(cm_s):
        return tank(flow=FlowSaid("meter", speed_cm_s=cm_s))

    strong = with_band("flow", 20, 25, 40, 60)
    assert verdict("flow", speed(30), strong) == "suits"
    assert verdict("flow", speed(1), strong) == "change_first"
    assert verdict("flow", tank(flow=None), strong) == "not_known"
    narrow = with_band("flow", 4.5, 4.8, 5.3, 5.6)
    assert verdict("flow", speed(6.2), with_band("flow", 2, 6.21, 20, 40)) == "suits"
    assert verdict("flow", tank(flow=FlowSaid("words", word="gentle_sway")), narrow) == "not_known"
    assert codes(report(tank(flow=FlowSaid("words", word="gentle_sway")), narrow), "flow") == {
        "straddles_limit", "look_at_flow",
    }  # fmt: skip
    assert "more_flow" in codes(report(speed(1), strong), "flow")
    weak = with_band("flow", 0.1, 0.2, 0.3, 0.5)
    assert "less_flow" in codes(report(speed(60), weak), "flow")
    # No spot in the ideal, every spot of this still water within the limits.
    assert verdict("flow", speed(1), with_band("flow", 0.1, 9, 20, 40)) == "close"


def test_pumps_need_the_tank_size():
    buyer = tank(flow=FlowSaid("pumps", (PumpSaid(3000),)), volume=None, length=None, width=None, height=None)
    assert "tank_size_not_said" in codes(report(buyer), "flow")


def test_tankmates_both_ways():
    profile = kind(nipped_by={"tang": "risk", "butterflyfish": "never"}, catches={"goby": "risk", "mandarin": "never"})
    assert verdict("tankmates", tank(tankmates=None), profile) == "not_known"
    assert verdict("tankmates", tank(tankmates=("chromis",)), profile) == "suits"
    assert verdict("tankmates", tank(tankmates=("tang",)), profile) == "close"
    assert verdict("tankmates", tank(tankmates=("goby",)), profile) == "close"
    assert verdict("tankmates", tank(tankmates=("butterflyfish",)), profile) == "not_here"
    assert verdict("tankmates", tank(tankmates=("tang", "mandarin")), profile) == "not_here"


def test_neighbours():
    torch = kind(key="longarm", scientific="Longarmia ficta", sting_reach_cm=20, adult_cm=40)
    kinds = {"longarm": torch, "testacora": kind()}

    def near(gap, key="longarm", **changes):
        return tank(neighbours=(Neighbour(key, gap),), **changes)

    assert verdict("neighbours", tank(neighbours=None)) == "not_known"
    assert verdict("neighbours", tank(neighbours=())) == "suits"
    # needed: max(5, 20) + 0.25 x 40 = 30 cm
    assert verdict("neighbours", near(30), kinds=kinds) == "suits"
    assert verdict("neighbours", near(25), kinds=kinds) == "close"
    assert verdict("neighbours", near(10), kinds=kinds) == "close"
    assert verdict("neighbours", near(None), kinds=kinds) == "not_known"
    small = near(10, volume=None, length=Measured(28, "cm"), width=Measured(28, "cm"), height=Measured(28, "cm"))
    assert verdict("neighbours", small, kinds=kinds) == "not_here"
    assert verdict("neighbours", near(0, "testacora"), kinds=kinds) == "suits"
    assert verdict("neighbours", near(5, "unheard_of"), kinds=kinds) == "not_known"
    alike = tank(neighbours=(Neighbour("longarm", 3),) * 2)
    two = finding(report(alike, kinds=kinds), "neighbours")
    one = finding(report(near(3), kinds=kinds), "neighbours")
    assert [note.code for note in two.reasons] == [note.code for note in one.reasons] and two.advice == one.advice
    assert {note.values["count"] for note in two.reasons} == {2}
    notes = codes(report(near(3), kinds=kinds), "neighbours")
    assert {"would_sting", "would_be_stung", "keep_gap"} <= notes


def test_an_anemone_near_is_said():
    anemone = kind(key="walker", scientific="Ambulata ficta", group="anemone")
    twice = (Neighbour("walker", 60), Neighbour("walker", 50), Neighbour("walker", 60))
    found = finding(report(tank(neighbours=twice), kinds={"walker": anemone}), "neighbours")
    told = [(note.code, note.values["count"]) for note in found.reasons]
    assert sorted(told) == [("neighbour_gap_fine", 1), ("neighbour_gap_fine", 2), ("walking_anemone_near", 3)]
    answer = report(tank(neighbours=(Neighbour("walker", 60),)), kinds={"walker": anemone})
    assert {"walking_anemone_near", "secure_anemone_first"} <= codes(answer, "neighbours")
    assert finding(answer, "neighbours").verdict == "close"


def test_leathers_and_small_polyped_stony_corals():
    leather = kind(key="leather", scientific="Coriacea ficta", group="soft", toxicity_note="gives off terpenes")
    kinds = {"leather": leather}
    sps = kind(group="sps")
    buyer = tank(neighbours=(Neighbour("leather", 90),), volume=Measured(190, "l"))
    assert verdict("chemistry", buyer, sps, kinds) == "close"
    with_carbon = tank(neighbours=(Neighbour("leather", 90),), volume=Measured(190, "l"), carbon=True)
    assert verdict("chemistry", with_carbon, sps, kinds) == "suits"
    assert verdict("chemistry", tank(neighbours=(Neighbour("leather", 90),)), sps, kinds) == "suits"  # 200 litres
    assert "chemistry" not in {found.factor for found in report(buyer, kind(), kinds).findings}


def test_pumps_for_anemones():
    anemone = kind(group="anemone")
    assert verdict("pumps", tank(open_pumps=True), anemone) == "change_first"
    assert verdict("pumps", tank(open_pumps=False), anemone) == "suits"
    assert verdict("pumps", tank(open_pumps=None), anemone) == "not_known"


def test_space():
    assert verdict("space", tank(free_space_cm=None)) == "not_known"
    assert verdict("space", tank(free_space_cm=2)) == "change_first"
    assert verdict("space", tank(free_space_cm=8)) == "close"
    assert verdict("space", tank(free_space_cm=12)) == "suits"
    clam = kind(group="clam", adult_cm=120)
    assert verdict("space", tank(), clam) == "not_here"
    assert verdict("space", tank(free_space_cm=70), kind(adult_cm=120)) == "close"
    lies_free = kind(placement="bottom")
    assert verdict("space", tank(free_space_cm=12), lies_free) == "close"
    assert "plan_to_move" in codes(report(tank(free_space_cm=12), lies_free), "space")
    assert "plan_to_trim" in codes(report(tank(free_space_cm=12)), "space")


def test_age():
    assert verdict("age", tank(age_months=None)) == "not_known"
    assert verdict("age", tank(age_months=3.9)) == "change_first"
    assert verdict("age", tank(age_months=4)) == "suits"


def test_feeding():
    eater = kind(feeding_days_per_week=3)
    assert verdict("feeding", tank(feeding_days_per_week=None), eater) == "not_known"
    assert verdict("feeding", tank(feeding_days_per_week=3), eater) == "suits"
    assert verdict("feeding", tank(feeding_days_per_week=2), eater) == "close"
    assert verdict("feeding", tank(feeding_days_per_week=0), eater) == "change_first"
    no_light = with_band("par", 0, 0, 80, 150, feeding_days_per_week=7)
    assert verdict("feeding", tank(feeding_days_per_week=3), no_light) == "not_here"
    must = kind(feeding_days_per_week=2, requires=frozenset({"feeding"}))
    never_to_twice = [verdict("feeding", tank(feeding_days_per_week=days), must) for days in (0, 1, 2)]
    assert never_to_twice == ["not_here", "close", "suits"]
    assert "feeding" not in {found.factor for found in report().findings}


def test_a_factor_without_a_band_is_not_judged():
    bands = {name: found for name, found in BANDS.items() if name not in ("mg", "flow")}
    factors = {found.factor for found in report(profile=kind(bands=bands)).findings}
    assert not factors & {"mg", "flow"}


GRAZED = kind(key="grazed", scientific="Grazedia ficta", sting_reach_cm=0, stung_easily=3)
STINGER = kind(key="stinger", scientific="Stingeria ficta", sting_reach_cm=25, stung_easily=0)


def _beside(other, gap_cm, profile, **changes):
    return report(tank(neighbours=(Neighbour(other.key, gap_cm),), **changes), profile, {other.key: other})


def test_a_gap_that_moving_the_piece_need_not_give_is_changed_first():
    """Needed is 25 + 20/4 = 30 cm: a tank of 60 cm has it to one side of any neighbour, one of 59 cm need not."""
    for length, expected in ((60, "close"), (59, "change_first")):
        answer = _beside(STINGER, 10, GRAZED, length=Measured(length, "cm"), volume=None)
        assert finding(answer, "neighbours").verdict == expected, length


def test_what_nothing_stings_bears_being_reached():
    hurt, unhurt = _beside(STINGER, 10, GRAZED), _beside(GRAZED, 10, STINGER)
    assert "would_be_stung" in codes(hurt, "neighbours")
    assert "would_sting" in codes(unhurt, "neighbours")
    both = kind(key="armoured", scientific="Armouria ficta", sting_reach_cm=20, stung_easily=0)
    assert "reach_borne" in codes(_beside(STINGER, 10, both), "neighbours")
    short = _beside(STINGER, 10, both, length=Measured(45, "cm"), volume=None)
    assert finding(short, "neighbours").verdict == "close"


def test_what_the_light_figure_lacks_is_said():
    meter = report(tank(light=LightSaid("meter", par=130, depth_cm=22)))
    lux = report(tank(light=LightSaid("lux", lux=6000, depth_cm=0)))
    assert "meter_correction_not_said" in codes(meter, "light")
    assert "lux_colour_not_said" in codes(lux, "light")
    assert "lux_colour_not_said" not in codes(report(tank(light=LightSaid("lux", lux=6000, colour="white"))), "light")
