"""The first hours and weeks: drip, float and light, checked against worked examples and simple laws."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.fit.acclimate import acclimate
from webapp.fit.findings import Note, Spot
from webapp.fit.plan_codes import ACCLIMATION
from webapp.fit.profile import Band, Basis, Profile
from webapp.fit.specimen import Specimen, UsedTo
from webapp.science.interval import Interval


def profile(group="sps", par=(80, 150, 300, 450), feeding_days=0.0):
    basis = Basis("common_practice")
    bands = {"par": Band(*par, basis), "flow": Band(6, 8, 20, 25, basis)}
    return Profile(
        "kind", 1, "Kind sp.", "kind", group, bands, "middle", 30, 2, 1, 1, True, 2, "light", feeding_days, 3, "low",
        "II", "cut", (14, 42), 6,
    )  # fmt: skip


def at(value):
    return UsedTo(value, value, value, 10, 60.0)


def specimen(temp=25.0, salinity=35.0, par=120.0, hours=10.0, **kind):
    used = {"temp": temp, "salinity": salinity, "par": par, "light_hours": hours}
    return Specimen(profile(**kind), 3.0, {name: at(value) for name, value in used.items() if value is not None})


def spot(par):
    return Spot("middle", 20.0, None, Interval(par * 0.7, par, par * 1.4), None)


def of(notes: tuple[Note, ...], code: str) -> list[dict]:
    return [note.values for note in notes if note.code == code]


def test_a_bag_at_31_into_a_tank_at_35_worked_by_hand():
    """Mass balance by hand: each doubling halves the gap, 31 -> 33 -> 34; 1 L twice over 60 min is 33.3 mL/min."""
    notes = acclimate(specimen(salinity=31.0), 25.0, 35.0, spot(120), bag_ml=1000)
    (drip,) = of(notes, "drip")
    assert drip["doublings"] == 2
    assert drip["end_ppt"] == pytest.approx(34.0)
    assert drip["rate_ml_min"] == pytest.approx(2000 / 60)
    assert drip["drops_per_s"] == pytest.approx(2000 / 60 * 20 / 60)  # 20 drops a millilitre
    assert of(notes, "pour_half_away") == [{"every_minutes": 30, "times": 1}]


def test_one_doubling_in_40_minutes_is_eight_drops_a_second_for_a_litre():
    """A trade example: 1.0 L added over 40 min = 25 mL/min, about 8 drops a second."""
    (drip,) = of(acclimate(specimen(salinity=33.5), 25.0, 35.0, spot(120), bag_ml=1000), "drip")
    assert (drip["minutes"], drip["rate_ml_min"], round(drip["drops_per_s"])) == (40, 25.0, 8)
    assert drip["end_ppt"] == pytest.approx(34.25)


@given(st.floats(26, 40), st.floats(26, 40), st.sampled_from([None, 5.0, 24.0, 30.0]))
def test_salinity_is_always_met_one_way_and_never_left_far(bag, tank, journey_h):
    notes = acclimate(specimen(salinity=bag), 25.0, tank, spot(120), journey_h=journey_h)
    gap, long = abs(bag - tank), journey_h is not None and journey_h > 24
    ways = [code for code in ("rinse_and_move", "drip", "tub") if of(notes, code)]
    assert len(ways) == 1
    if ways == ["rinse_and_move"]:
        assert gap <= 1
    if ways == ["drip"]:
        (drip,) = of(notes, "drip")
        assert 1 < gap <= (3 if long else 5)
        assert abs(drip["end_ppt"] - tank) <= 1 + 1e-9
        assert abs(drip["end_ppt"] - bag) < gap
        assert drip["minutes"] <= (30 if long else 90)
        assert drip["add_ml"] == pytest.approx(drip["rate_ml_min"] * drip["minutes"])
    if ways == ["tub"]:
        days = [values["salinity_ppt"] for values in of(notes, "tub_day")]
        assert days[-1] == pytest.approx(tank)
        steps = [b - a for a, b in zip([bag, *days], days, strict=False)]
        assert max(abs(step) for step in steps) <= 2.5 + 1e-9
    assert bool(of(notes, "long_journey")) == long
    assert of(notes, "no_bag_water")


def test_light_from_120_to_300_in_seven_steps():
    """Worked by hand: ln(300/120) / ln 1.15 = 6.56, so 7 rises every 3 days, 21 days in all; by
    moving ln 2.5 / ln 1.39 = 2.78, so 3 moves a week apart, the last on day 21. On day 0 the lamp is dim anyhow, so
    the dimmer's steps begin on day 1."""
    notes = acclimate(specimen(par=120.0, hours=10.0), 25.0, 35.0, spot(300), light_hours=10.0)
    (dimmer,), (moving,) = of(notes, "light_by_dimmer"), of(notes, "light_by_moving")
    assert (dimmer["steps"], dimmer["days"]) == (7, 21)
    assert (moving["moves"], moving["days"]) == (3, 21)
    assert moving["par_start"] == pytest.approx(120)
    assert moving["par_goal"] == pytest.approx(300)
    assert of(notes, "final_spot_on_day") == [{"day": 22, "way": "dimmer"}, {"day": 21, "way": "move"}]


@given(st.floats(20, 500), st.floats(80, 450), st.floats(4, 14), st.floats(4, 14))
def test_light_steps_never_rise_faster_than_said_and_end_at_the_spot(par, goal_par, hours, tank_hours):
    notes = acclimate(specimen(par=par, hours=hours), 25.0, 35.0, spot(goal_par), light_hours=tank_hours)
    now, goal = par * hours * 3600 / 1e6, goal_par * tank_hours * 3600 / 1e6  # definition of the daily light integral
    steps = of(notes, "light_step")
    if goal <= now * (1.15 + 1e-9):
        assert not steps
        (once,) = of(notes, "light_at_once")
        assert once["goal_mol"] == pytest.approx(goal)
        return
    for way, most, days, begins in (("dimmer", 1.15, 3, 1), ("move", 1.39, 7, 0)):
        mols = [step["mol"] for step in steps if step["way"] == way]
        assert mols[0] == pytest.approx(now)
        assert all(b / a <= most + 1e-9 for a, b in zip(mols, mols[1:], strict=False))
        assert mols[-1] == pytest.approx(goal)
        assert [step["day"] for step in steps if step["way"] == way] == [begins + days * i for i in range(len(mols))]


@pytest.mark.parametrize(
    ("bag_c", "tank_c", "minutes"),
    [
        (20.0, 25.5, 20),  # Newton's law, 8 min: within half a degree after 8 ln 11 = 19.2 min
        (24.0, 25.0, 15),
        (10.0, 28.0, 30),  # 8 ln 36 = 28.7
    ],
)
def test_float_minutes(bag_c, tank_c, minutes):
    assert of(acclimate(specimen(temp=bag_c), tank_c, 35.0, spot(120)), "float")[0]["minutes"] == minutes
    assert math.isclose(8 * math.log(11), 19.18, abs_tol=0.01)


def test_what_is_not_known_is_said_and_not_guessed():
    notes = acclimate(Specimen(profile()), None, None, None)
    assert of(notes, "float_unmeasured")
    assert of(notes, "salinity_unknown") == [{}]
    assert of(notes, "light_unknown") == [{}]
    assert not of(notes, "drip") and not of(notes, "light_step")


def test_what_lives_by_food_is_fed_early_and_needs_no_light_steps():
    notes = acclimate(specimen(par=20.0), 25.0, 35.0, spot(300))
    assert of(notes, "no_feeding_yet")
    assert {"day": 21, "what": "spot"} in of(notes, "look_on_day")
    fed = Specimen(profile(par=(0, 0, 80, 150), feeding_days=7.0), None, {"par": at(20.0)})
    notes = acclimate(fed, 25.0, 35.0, spot(300))
    assert of(notes, "light_not_needed") and of(notes, "feed_from_day") == [{"day": 1}]
    assert not of(notes, "light_step") and not of(notes, "dim_first")
    assert [look["what"] for look in of(notes, "look_on_day")] == ["open", "water", "compare"]


def test_a_mushroom_is_held_still_until_its_foot_grips():
    assert of(acclimate(specimen(group="corallimorph"), 25.0, 35.0, spot(80)), "hold_still") == [
        {"days_low": 14, "days_high": 42}
    ]


@given(st.floats(15, 32), st.floats(26, 40), st.floats(15, 32), st.floats(26, 40), st.sampled_from([None, 30.0]))
def test_every_note_has_a_listed_code_with_exactly_its_values(temp, salinity, tank_c, tank_ppt, journey_h):
    for note in acclimate(specimen(temp, salinity), tank_c, tank_ppt, spot(300), journey_h=journey_h):
        assert set(note.values) == set(ACCLIMATION[note.code].values), note.code


def test_a_light_that_no_sun_gives_is_taken_as_unknown():
    """1300 µmol/m²/s round the clock are 112 mol a day; the brightest day on Earth has about 65."""
    used = {"par": UsedTo(1300, 1300, 1300, 9, 30.0), "light_hours": UsedTo(24, 24, 24, 9, 30.0)}
    spot = Spot("middle", 20, (15, 25), Interval(90, 100, 110), None)
    notes = acclimate(Specimen(profile(), None, used), 25.0, 35.0, spot, light_hours=9)
    assert "light_unknown" in {note.code for note in notes}


@pytest.mark.parametrize("par", [45.0, 700.0])
def test_nobody_is_led_to_a_light_that_it_does_not_bear(par):
    """The band of `profile` bears 80 to 450."""
    notes = acclimate(specimen(par=120.0, hours=10.0), 25.0, 35.0, spot(par), light_hours=10.0)
    assert of(notes, "light_not_right") and not of(notes, "light_step") and not of(notes, "light_at_once")
