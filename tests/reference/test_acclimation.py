"""Drip and float against integration by scipy."""

import gsw
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tests.reference.deviations import record
from webapp.science import acclimation

ODE = "scipy solve_ivp"
DRIPS = [(30, 35, 10, 500, 30), (30, 35, 10, 500, 60), (38, 34, 20, 500, 30), (33, 35, 15, 1000, 60)]


def solve(rate, start, minutes):
    return solve_ivp(rate, (0, minutes), start, rtol=1e-11, atol=1e-12).y[:, -1]


@pytest.mark.parametrize(("start", "tank", "ml_min", "bag_ml", "minutes"), DRIPS)
def test_drip(start, tank, ml_min, bag_ml, minutes):
    (theirs,) = solve(lambda t, c: ml_min / bag_ml * (tank - c), [float(start)], minutes)
    ours = acclimation.drip_constant(start, tank, ml_min, bag_ml, minutes)
    record("Salinity in an overflowing drip", ODE, ours, theirs, 1e-7)
    volume, salt = solve(lambda t, y: [ml_min, ml_min * tank], [bag_ml, bag_ml * start], minutes)
    ours = acclimation.drip_growing(start, tank, ml_min, bag_ml, minutes)
    record("Salinity in a drip that fills up", ODE, ours, salt / volume, 1e-7)


@pytest.mark.parametrize(("bag_c", "tank_c", "minutes"), [(20, 25.5, 10), (20, 25.5, 30), (29, 25, 15)])
def test_floating_bag(bag_c, tank_c, minutes):
    (theirs,) = solve(lambda t, temp: (tank_c - temp) / 8, [float(bag_c)], minutes)
    record("Temperature of a floating bag, °C", ODE, acclimation.temp_after_floating(bag_c, tank_c, minutes, 8),
           theirs, 1e-7)  # fmt: skip


@pytest.mark.parametrize(("bag_c", "tank_c"), [(20, 25.5), (30, 25)])
def test_time_to_float(bag_c, tank_c):
    def gap(minutes):
        (temp,) = solve(lambda t, temp: (tank_c - temp) / 8, [float(bag_c)], minutes)
        return abs(temp - tank_c) - 0.5

    ours = acclimation.float_minutes(bag_c, tank_c, 0.5, 8)
    record("Time to float a bag, min", "scipy solve_ivp and brentq", ours, brentq(gap, 1, 60, xtol=1e-9), 1e-5)


def test_time_constant_of_a_bag():
    heat = gsw.cp_t_exact(gsw.SR_from_SP(35), 25, 0) * gsw.rho_t_exact(gsw.SR_from_SP(35), 25, 0) / 1000
    theirs = 0.5 * heat / (100 * 0.05) / 60
    ours = acclimation.bag_time_constant_min(0.5, 0.05, 100)
    record("Time constant of a bag, min", "heat capacity of gsw", ours, theirs, 1e-3, relative=True)
