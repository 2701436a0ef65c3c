"""What to do with a bag that arrived, a step either side of each number (common practice), and an ODE solver."""

from dataclasses import replace

import pytest
from scipy.integrate import solve_ivp

from webapp.fit.bag import BagLimits, bag_plan, free_ammonia

LIMITS = BagLimits()


def plan(bag_c=25.0, bag_ppt=35.0, tank_c=25.0, tank_ppt=35.0, bag_l=0.5, transit_h=10.0, limits=LIMITS):
    return bag_plan(bag_c, bag_ppt, tank_c, tank_ppt, bag_l, transit_h, limits)


@pytest.mark.parametrize(("bag_ppt", "way"), [
    (34.0, "move"), (33.99, "drip"), (30.0, "drip"), (29.99, "tub"), (36.0, "move"), (36.01, "drip"), (40.01, "tub"),
])  # fmt: skip
def test_by_the_gap_of_salinity(bag_ppt, way):
    assert plan(bag_ppt=bag_ppt).way == way


@pytest.mark.parametrize(("hours", "bag_ppt", "way", "minutes"), [
    (24.0, 31.9, "drip", 60), (24.01, 31.9, "tub", None), (24.01, 32.0, "drip", 30), (24.0, 33.5, "drip", 40),
])  # fmt: skip
def test_after_a_long_journey_the_drip_is_short(hours, bag_ppt, way, minutes):
    made = plan(transit_h=hours, bag_ppt=bag_ppt)
    assert (made.way, made.drip and made.drip.minutes) == (way, minutes)
    assert ("long" in made.flags) is (hours > 24)


@pytest.mark.parametrize(
    ("bag_ppt", "doublings", "minutes"), [(33.0, 1, 40), (32.99, 2, 60), (31.0, 2, 60), (30.9, 3, 90)]
)
def test_doublings(bag_ppt, doublings, minutes):
    made = plan(bag_ppt=bag_ppt)
    assert (made.drip.doublings, made.drip.minutes) == (doublings, minutes)


def test_the_worked_example():
    # 1 L at 31 ppt, tank 35: a litre over 40 min ends at 33.0, a second doubling at 34.0 (mass balance by hand).
    made = plan(bag_ppt=31.0, bag_l=1.0)
    assert made.drip.end_ppt == pytest.approx(34.0)
    assert made.drip.add_l == 2.0


@pytest.mark.parametrize("bag_ppt", [33.2, 31.4, 30.3])
def test_the_drip_against_an_ode_solver(bag_ppt):
    """dS/dt = q (S_tank - S) / V with dV/dt = q, halved after each doubling; scipy solve_ivp."""
    made = plan(bag_ppt=bag_ppt, bag_l=0.5)
    salinity = bag_ppt
    for _ in range(made.drip.doublings):
        span = made.drip.minutes / made.drip.doublings
        solved = solve_ivp(
            lambda _t, y: [made.drip.rate_ml_min * (35.0 - y[0]) / y[1], made.drip.rate_ml_min],
            (0, span), [salinity, 500.0], rtol=1e-10, atol=1e-10,
        )  # fmt: skip
        salinity = solved.y[0, -1]
    assert made.drip.end_ppt == pytest.approx(salinity, abs=1e-6)


@pytest.mark.parametrize(("bag_c", "minutes"), [(24.0, 0), (23.99, 15), (26.0, 0), (26.01, 15), (23.0, 15)])
def test_floating_until_close(bag_c, minutes):
    assert plan(bag_c=bag_c).float_min == minutes


def test_floating_against_an_ode_solver():
    """dT/dt = (T_tank - T) / 8 min, scipy solve_ivp: close after the planned minutes, not five earlier."""
    quick = replace(LIMITS, match_rate_c=10.0)
    minutes = plan(bag_c=13.0, limits=quick).float_min
    for wait, close in ((minutes, True), (minutes - 5, False)):
        solved = solve_ivp(lambda _t, y: [(25.0 - y[0]) / 8], (0, wait), [13.0], rtol=1e-10, atol=1e-10)
        assert bool(25.0 - solved.y[0, -1] <= 1.0) is close


@pytest.mark.parametrize(("bag_c", "slow", "minutes"), [(22.0, False, 15), (18.0, True, 45)])
def test_no_faster_than_two_degrees_in_a_quarter_of_an_hour(bag_c, slow, minutes):
    made = plan(bag_c=bag_c)
    assert (("slowly" in made.flags), made.float_min) == (slow, minutes)


@pytest.mark.parametrize(("bag_c", "flag"), [(17.99, "cold"), (18.0, None), (31.0, None), (31.01, "hot")])
def test_a_bag_too_cold_or_too_hot_is_flagged(bag_c, flag):
    assert [one for one in plan(bag_c=bag_c).flags if one in ("cold", "hot")] == ([flag] if flag else [])


def test_a_tub_is_walked_back_in_equal_days_within_the_daily_limit():
    made = plan(bag_ppt=28.0)
    assert made.tub_ppt == pytest.approx((28 + 7 / 3, 28 + 14 / 3, 35.0))


def test_what_was_not_measured_is_not_guessed():
    assert plan(bag_ppt=None).way == "unknown"
    assert plan(bag_c=None).float_min is None


@pytest.mark.parametrize(("ph", "temp_c", "percent"), [(7.5, 20, 0.963), (8.1, 25, 5.32), (8.5, 25, 12.40)])
def test_free_ammonia_of_a_bag_against_the_printed_table(ph, temp_c, percent):
    """Bower and Bidwell 1978, table for 32 to 40 ppt, as reprinted."""
    assert 100 * free_ammonia(ph, temp_c, 34.0) == pytest.approx(percent, rel=0.016)


def test_free_ammonia_is_not_told_without_a_reading_and_below_ph_7_as_at_7():
    assert free_ammonia(None, 25.0, 35.0) is None
    assert free_ammonia(7.5, None, 35.0) is None
    assert free_ammonia(6.4, 25.0, 35.0) == free_ammonia(7.0, 25.0, 35.0)
