"""Plans: the amounts of published chemistry and worked balances, one schedule, and the cautions that go with them."""

import math

import periodictable
import pytest
from hypothesis import given, settings

from tests.fit.test_schedule import FUSSY, RANGES, STONY, kinds, outside_ideal, volumes, waters
from webapp.fit.doses import NewWater, net_volume_l
from webapp.fit.plan_codes import ACTIONS, ALL, CAUTIONS, NOTES
from webapp.fit.plans import plan_all

WELL = {"temp": 25.5, "salinity": 35.0, "alk": 8.5, "ca": 420.0, "mg": 1300.0, "no3": 5.0, "po4": 0.05}


def only(name, value, volume_l=200 / 0.85, of=STONY):
    plans = plan_all({**WELL, name: value}, of, {name}, volume_l)
    return plans.by_factor[name]


def mass(formula):
    return periodictable.formula(formula).mass


def test_sodium_bicarbonate_by_molar_mass():
    """200 L from 5 dKH to a quarter into 7..11: 3 dKH. 1 dKH is 10 mg CaO a litre (old DIN definition), CaO takes two
    equivalents; molar masses from periodictable."""
    plan = only("alk", 5.0)
    grams = 200 * 3.0 * 0.010 / mass("CaO") * 2 * mass("NaHCO3")
    assert (plan.action, plan.unit, plan.target, plan.days) == ("sodium_bicarbonate", "g", 8.0, 6)
    assert plan.total == pytest.approx(grams, rel=1e-3)
    (carbonate,) = [note.values["total_g"] for note in plan.cautions if note.code == "or_sodium_carbonate"]
    assert carbonate == pytest.approx(grams / mass("NaHCO3") * mass("Na2CO3") / 2, rel=1e-3)


def test_calcium_and_magnesium_by_molar_mass():
    plan = only("ca", 350.0)
    assert plan.action == "calcium_chloride_dihydrate"
    assert plan.total == pytest.approx(200 * 0.0575 / mass("Ca") * mass("CaCl2(H2O)2"), rel=1e-3)
    plan = only("mg", 1100.0)
    assert plan.action == "magnesium_chloride_hexahydrate"
    assert plan.total == pytest.approx(200 * 0.1775 / mass("Mg") * mass("MgCl2(H2O)6"), rel=1e-3)
    assert plan.days == 4


def test_nitrate_by_water_changes_worked_by_hand():
    """60 to 15.5 with new water of none: a fifth each time leaves 0.8; 0.8^6 = 0.262 is too much, so 7 of 17.6 %."""
    plan = only("no3", 60.0)
    share = 1 - (15.5 / 60) ** (1 / 7)
    assert plan.action == "water_change"
    assert len(plan.steps) == 7
    assert [step.amount for step in plan.steps] == pytest.approx([200 * share] * 7, rel=1e-6)
    assert [step.day for step in plan.steps] == [0, 3, 6, 9, 12, 15, 18]
    assert plan.steps[-1].expect["no3"] == pytest.approx(15.5)


def test_salinity_down_and_up_by_the_balance_of_salt():
    """By hand, with density left out: what stays after each swap is a share of the salt; the shares multiply."""
    down, up = only("salinity", 38.0), only("salinity", 31.0)
    assert (down.action, down.days, down.target) == ("fresh_water_swap", 3, 35.25)
    assert (up.action, up.days, up.target) == ("salt_water_swap", 3, 33.75)
    assert _stays(down) == pytest.approx(35.25 / 38, rel=0.005)
    strong = 38.75
    assert _stays(up) == pytest.approx((strong - 33.75) / (strong - 31.0), rel=0.005)


def _stays(plan):
    return math.prod(1 - step.amount / 200 for step in plan.steps)


def test_temperature_by_degrees_a_day():
    plan = only("temp", 29.0)
    assert (plan.action, plan.unit, plan.days) == ("set_temperature", "c", 3)
    assert plan.total == pytest.approx(-2.75)
    assert "cooling" in {note.code for note in plan.cautions}
    assert "cooling" not in {note.code for note in only("temp", 21.0).cautions}


def test_the_volume_is_net_of_rock_and_sand_and_says_so():
    assert net_volume_l(200) == pytest.approx(170)
    (note,) = [note for note in only("alk", 5.0, 100).cautions if note.code == "net_volume"]
    assert note.values == {"volume_l": 85.0, "displaced_share": 0.15}
    with pytest.raises(ValueError, match="displaced_share"):
        net_volume_l(200, 0.9)


def test_every_powder_comes_with_its_cautions():
    """Common practice, and for calcium chloride the heat of solution that its safety sheets warn of."""
    always = {"test_again", "add_slowly", "one_thing_at_a_time", "pure_and_labelled", "goggles_and_gloves"} | {
        "keep_from_children", "rate", "net_volume", "apart_from",
    }  # fmt: skip
    for name, value, more in (
        ("alk", 5.0, set()),
        ("ca", 350.0, {"heats_up", "keep_dry"}),
        ("mg", 1100.0, {"keep_dry"}),
    ):
        codes = {note.code for note in only(name, value).cautions}
        assert always | more <= codes
        assert ("heats_up" in codes) == (name == "ca")
    assert "given_back" in {note.code for note in only("po4", 0.6).cautions}
    for name, value in (("no3", 60.0), ("po4", 0.6), ("salinity", 38.0), ("salinity", 31.0)):
        assert "electricity_off" in {note.code for note in only(name, value).cautions}


def test_no_carbonate_where_ph_is_high():
    plans = plan_all({**WELL, "alk": 5.0, "ph": 8.4}, STONY, {"alk"}, 200)
    assert "or_sodium_carbonate" not in {note.code for note in plans.by_factor["alk"].cautions}


def test_ph_is_never_dosed_and_nutrients_are_never_powdered():
    plans = plan_all({**WELL, "ph": 7.6, "no3": 0.0}, STONY, {"ph", "no3"}, 200)
    assert plans.by_factor == {}
    assert {note.code for note in plans.notes} == {"never_dose_ph", "raise_by_feeding"}


def test_phosphate_is_bound_where_changes_would_strip_nitrate():
    plans = plan_all({**WELL, "no3": 1.1, "po4": 0.6}, FUSSY, {"po4"}, 200)
    (note,) = [note for note in plans.notes if note.code == "rest_by_media"]
    assert note.values["other"] == "no3"
    last = plans.schedule[-1].expect if plans.schedule else WELL
    assert last["no3"] >= FUSSY["no3"].ideal_low or not plans.schedule


def test_calcium_stays_where_new_water_holds_as_much():
    plans = plan_all({**WELL, "ca": 470.0}, STONY, {"ca"}, 200, new=NewWater(ca=465.0))
    assert plans.by_factor == {}
    assert [note.code for note in plans.notes] == ["new_water_no_help"]


def test_without_a_volume_only_the_thermostat_can_be_told():
    plans = plan_all({**WELL, "alk": 5.0, "temp": 22.0}, STONY, {"alk", "temp"}, None)
    assert set(plans.by_factor) == {"temp"}
    assert "no_volume" in {note.code for note in plans.notes}


def test_water_beyond_mending_is_sent_to_the_counter():
    plans = plan_all({**WELL, "salinity": 12.0, "alk": 5.0}, STONY, {"salinity", "alk"}, 200)
    assert plans.by_factor == {}
    assert ("cannot_be_planned", "salinity") in {(note.code, note.values.get("quantity")) for note in plans.notes}


@settings(max_examples=200, deadline=None)
@given(waters, kinds, volumes)
def test_every_factor_to_mend_has_a_plan_or_a_reason(water, of, volume_l):
    mend = outside_ideal(water, of)
    plans = plan_all(water, of, mend, volume_l)
    said = {note.values.get("quantity") for note in plans.notes}
    assert mend <= set(plans.by_factor) | said
    for name, plan in plans.by_factor.items():
        assert of[name].ideal_low <= plan.target <= of[name].ideal_high
        assert all(step in plans.schedule for step in plan.steps)
        assert all(step.day < plan.days for step in plan.steps)


@settings(max_examples=200, deadline=None)
@given(waters, kinds, volumes)
def test_every_code_is_listed_with_exactly_its_values(water, of, volume_l):
    plans = plan_all(water, of, outside_ideal(water, of), volume_l)
    for note in plans.notes:
        assert set(note.values) == set(NOTES[note.code].values)
    for step in plans.schedule:
        assert step.action in ACTIONS
    for plan in plans.by_factor.values():
        assert plan.action in ACTIONS
        for note in plan.cautions:
            assert set(note.values) == set(CAUTIONS[note.code].values), note.code


def test_the_list_of_codes_has_no_name_twice():
    assert len(ALL) == sum(len(part) for part in (ACTIONS, CAUTIONS, NOTES)) + len(
        set(ALL) - {*ACTIONS, *CAUTIONS, *NOTES}
    )
    assert set(RANGES) >= set(WELL)
