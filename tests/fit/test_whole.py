"""The whole, the rule of three, 'leave it', and which reading would settle most."""

import pytest

from tests.fit.making import GOOD, codes, finding, kind, reading, report, tank, with_band
from webapp.fit.findings import Finding, Note
from webapp.fit.requires import requirements
from webapp.fit.specimen import UsedTo
from webapp.fit.tank import LightSaid, Measured
from webapp.fit.whole import whole


def found(factor: str, verdict: str, code: str = "in_ideal", **more) -> Finding:
    return Finding(factor, verdict, (Note(code),), **more)


def test_the_worst_factor_decides():
    order = ("suits", "close", "change_first", "not_here")
    for i, worst in enumerate(order):
        findings = [found(f"f{n}", verdict) for n, verdict in enumerate(order[: i + 1])]
        assert whole(findings, hardiness=1)[0] == worst


def test_a_blank_counts_only_where_required():
    blank = found("ca", "not_known", "no_reading")
    assert whole([blank], 1)[0] == "suits"
    required = found("ca", "not_known", "no_reading", required=True)
    verdict, reasons = whole([required], 1)
    assert verdict == "not_known"
    assert reasons[0] == Note("whole_required_missing", {"factors": ("ca",)})


def test_a_reading_that_cannot_settle_counts_without_being_required():
    assert whole([found("ca", "not_known", "straddles_limit")], 1)[0] == "not_known"


@pytest.mark.parametrize(
    ("hardiness", "close", "expected"),
    [(3, 2, "close"), (3, 3, "change_first"), (5, 4, "change_first"), (2, 3, "close"), (1, 6, "close")],
)
def test_three_close_are_one_to_change_first_from_hardiness_three(hardiness, close, expected):
    verdict, reasons = whole([found(f"f{n}", "close") for n in range(close)], hardiness)
    assert verdict == expected
    assert ("whole_three_close" in {note.code for note in reasons}) == (expected == "change_first")


def test_three_close_never_soften_a_refusal():
    findings = [*(found(f"f{n}", "close") for n in range(3)), found("tankmates", "not_here")]
    assert whole(findings, 4)[0] == "not_here"


MUSHROOM_PPT = (24.6, 26.6, 33.2, 36.5)


def mushroom(**changes):
    """An easy kind whose usual range ends under natural sea water (35), as trade ranges for disc anemones do."""
    return with_band("salinity", *MUSHROOM_PPT, skeleton=False, calcium_demand=0, hardiness=1, **changes)


@pytest.mark.parametrize("method", ["refractometer", "hydrometer_glass", "conductivity_meter", "hydrometer_swing", ""])
def test_a_mushroom_in_natural_sea_water_is_close_and_left_alone(method):
    answer = report(reading("salinity", Measured(35.0, "ppt", method)), mushroom(), plans=True)
    salinity = finding(answer, "salinity")
    assert salinity.verdict == "close" and answer.whole == "close"
    assert "leave_it" in codes(answer, "salinity")
    assert salinity.plan is None and answer.schedule == ()
    assert Note("whole_leave_it", {"factors": ("salinity",)}) in answer.whole_reasons
    young = report(reading("salinity", Measured(35.0, "ppt", method), age_months=1), mushroom())
    assert young.whole == "change_first"
    assert "whole_leave_it" not in {note.code for note in young.whole_reasons}


def test_a_demanding_animal_gets_a_plan_instead():
    profile = with_band("salinity", *MUSHROOM_PPT, hardiness=4)
    answer = report(reading("salinity", Measured(35.0, "ppt")), profile, plans=True)
    assert "leave_it" not in codes(answer, "salinity")
    assert finding(answer, "salinity").plan is not None and answer.schedule


def test_an_unsteady_tank_is_not_left_alone():
    buyer = reading("salinity", Measured(35.0, "ppt"), swings={"salinity": 2.0})
    assert "leave_it" not in codes(report(buyer, mushroom()), "salinity")


def test_calcium_matters_little_without_a_skeleton():
    far_off = Measured(330, "mg_l", "drop_kit")
    assert finding(report(reading("ca", far_off), mushroom()), "ca").verdict == "close"
    assert finding(report(reading("ca", far_off), kind()), "ca").verdict == "change_first"
    assert finding(report(reading("ca", far_off), mushroom()), "ca").reasons[0].code == "matters_little"
    assert "ca" not in {f.factor for f in report(reading("ca"), mushroom()).findings}
    clam = kind(group="clam", skeleton=False, calcium_demand=3)
    assert finding(report(reading("ca", far_off), clam), "ca").verdict == "change_first"


SOFT = {"temp", "salinity", "nutrient", "age", "light", "flow"}
STONY = {"temp", "salinity", "alk", "no3", "po4", "age", "light"}


@pytest.mark.parametrize(
    ("profile", "expected"),
    [
        (kind(), STONY),
        (kind(group="sps", calcium_demand=3), STONY | {"ca", "mg"}),
        (kind(group="clam", skeleton=False, calcium_demand=3), STONY | {"ca", "mg"}),
        (kind(group="soft", skeleton=False, calcium_demand=0), SOFT),
        (kind(group="soft", skeleton=True, calcium_demand=1), STONY),
        (with_band("par", 0, 0, 60, 120, feeding_days_per_week=5), (STONY - {"light"}) | {"feeding"}),
        (kind(requires=frozenset({"temp"})), {"temp"}),
        (kind(requires=frozenset({"temp"}), catches={"goby": "never", "mandarin": "never"}), {"temp", "tankmates"}),
    ],
)
def test_what_is_required(profile, expected):
    assert requirements(profile) == expected


def test_either_nutrient_will_do_for_a_soft_coral():
    soft = kind(group="soft", skeleton=False, calcium_demand=0)
    for missing in ("no3", "po4"):
        assert report(reading(missing), soft).whole == "suits"
    both = {name: (value,) for name, value in GOOD.items() if name not in ("no3", "po4")}
    answer = report(tank(readings=both), soft)
    assert answer.whole == "not_known" and answer.settle_next == ("no3",)


def test_settle_next_names_what_is_open_and_counts():
    readings = {name: (value,) for name, value in GOOD.items() if name in ("temp", "ca")}
    answer = report(tank(readings=readings, age_months=None))
    assert set(answer.settle_next) == {"salinity", "alk", "no3", "po4", "age"}


def test_settle_next_is_computed_from_the_bands():
    """Nearly every tank is inside a wide band, so reading it settles little; a narrow one splits tanks in halves."""
    both_blank = {name: (value,) for name, value in GOOD.items() if name not in ("alk", "no3")}
    wide = (0, 0, 45, 49.9)
    narrow_alk = with_band("no3", *wide)
    assert report(tank(readings=both_blank), narrow_alk).settle_next[0] == "alk"
    wide_alk = with_band("alk", 4.9, 5.1, 12.9, 13.1)
    assert report(tank(readings=both_blank), wide_alk).settle_next[0] == "no3"


def test_nothing_to_settle_where_it_cannot_live():
    profile = kind(nipped_by={"butterflyfish": "never"})
    answer = report(reading("alk", tankmates=("butterflyfish",)), profile)
    assert answer.whole == "not_here" and answer.settle_next == ()


def zero_in(quantity, method, profile=None):
    return finding(report(reading(quantity, Measured(0, "mg_l", method)), profile or kind()), quantity)


@pytest.mark.parametrize("quantity", ["no3", "po4"])
def test_a_nutrient_of_zero(quantity):
    hungry = kind(feeding_days_per_week=3)
    assert zero_in(quantity, "laboratory").verdict == "close"
    assert zero_in(quantity, "laboratory", hungry).verdict == "change_first"
    assert zero_in(quantity, "colour_card").verdict == "not_known"
    assert zero_in(quantity, "colour_card").advice[0].code == "test_again"
    assert "feed_more_or_export_less" in {note.code for note in zero_in(quantity, "laboratory", hungry).advice}


def ph_codes(ph, alk):
    readings = {**{name: (value,) for name, value in GOOD.items()}, "ph": (Measured(ph, "nbs", "electrode"),)}
    readings["alk"] = (Measured(alk, "dkh", "laboratory"),) if alk else ()
    buyer = tank(readings={name: values for name, values in readings.items() if values})
    return codes(report(buyer, kind(hardiness=3), plans=True), "ph")


def test_low_ph_is_explained_and_never_dosed():
    """9 dKH at pH 7.75 (NBS) holds over 1000 uatm of CO2: the room's air (carbonate system, Dickson et al. 2007)."""
    room = ph_codes(7.75, 9.0)
    assert {"ph_low_room_air", "do_not_dose_ph", "fresh_air"} <= room and "ph_low_alkalinity" not in room
    low = ph_codes(7.85, 4.9)
    assert {"ph_low_alkalinity", "raise_alkalinity"} <= low
    assert "ph_low_cause_unknown" in ph_codes(7.75, None)
    assert "raise_slowly" not in room | low


def test_used_to_is_told():
    used = {"salinity": UsedTo(31.0, 30.8, 31.2, 40, 60)}
    answer = report(used_to=used)
    assert finding(answer, "salinity").used_to == 31.0
    assert "used_to_differs" in codes(answer, "salinity")


def test_a_better_kit_is_named_for_a_reading_that_cannot_settle():
    answer = report(reading("alk", Measured(6.4, "dkh", "drop_kit")))
    (advice,) = finding(answer, "alk").advice
    assert advice.code == "test_again" and advice.values["half_range"] <= 0.2


def test_light_estimates_say_so():
    answer = report(tank(light=LightSaid("fixture", kind="led_strip", count=1, watts=18, height_cm=8)))
    assert "light_estimated" in codes(answer, "light")
