"""Flow: published jet laws, and 1,000 invented tanks against the marched jets and force balance of flow_jets."""

import math
import time

import numpy as np
import pytest

from tests.reference.deviations import record
from tests.reference.flow_jets import draw, jet_along
from webapp.science import flow_jet
from webapp.science.fixture import Footprint
from webapp.science.flow import SPOTS, WORDS, Pump, from_pumps

JETS = "marched jets and force balance, 1,000 tanks"
DRAWS = 120


def test_turnover_and_mean_speed():
    """Arithmetic of Q / V and Q / A, worked by hand: 4,000 L/h in 200 L; through 0.50 x 0.45 m."""
    record("turnover, per hour", "Q / V by hand", flow_jet.turnover_per_h(4000, 200), 20, 1e-9)
    ours = flow_jet.mean_speed_cm_s(4000, 0.225)
    record("mean speed, cm/s", "Q / A by hand", ours, 100 * 4 / 3600 / 0.225, 1e-9)
    ours = flow_jet.outlet_speed_m_s(2000, 0.04)
    record("speed at an outlet, m/s", "4 Q / (pi d^2) by hand", ours, 2 / 3600 / (math.pi * 0.02**2), 1e-9)


@pytest.mark.parametrize("distance_m", [0.3, 0.5, 1.0])
def test_jet_against_entrainment_and_published_constant(distance_m):
    """2,000 L/h from 40 mm. Decay constants 5.8, 5.9 and 6.06 were measured (Pope 2000, Turbulent Flows, table 5.1)."""
    flow = 2 / 3600
    speed = flow_jet.outlet_speed_m_s(2000, 0.04)
    ours = flow_jet.jet_centre_speed_m_s(speed, 0.04, distance_m)
    places = jet_along(flow, speed, 1.2, 0.0833, 1e9)
    theirs = np.interp(distance_m, [x for x, _, _ in places], [u for _, u, _ in places])
    record("speed on a jet's axis, m/s", "entrainment equations, marched", ours, theirs, 0.05, relative=True)
    record("decay constant of a round jet", "Pope 2000, table 5.1, mean of three", flow_jet.JET_DECAY, 5.92, 0.15)


def test_marched_jet_is_as_wide_as_measured():
    """Half-speed radius over distance 0.094, 0.096 and 0.102 were measured (Pope 2000, Turbulent Flows, table 5.1)."""
    x, _, half = jet_along(2 / 3600, 0.44, 2.0, 0.0833, 1e9)[-1]
    record("half-speed radius of a jet over distance", "Pope 2000, table 5.1", half / x, 0.096, 0.006)


def invented_tank(rng):
    length = rng.uniform(40, 160)
    box = Footprint(length, float(np.clip(rng.uniform(0.35, 0.7) * length, 25, 75)), rng.uniform(28, 65))
    pumps = [Pump(box.volume_l * rng.uniform(3, 10), "return")] if rng.random() < 0.7 else []
    for _ in range(int(rng.integers(0 if pumps else 1, 3))):
        kind = ("wave_narrow", "wave_wide")[rng.integers(2)]
        pumps.append(Pump(box.volume_l * rng.uniform(8, 40), kind, int(rng.integers(1, 3))))
    return pumps, box


@pytest.mark.long
def test_range_holds_nine_in_ten_and_is_no_wider_than_twice_the_spread(capsys):
    rng = np.random.default_rng(20261)
    inside = {spot: [] for spot in SPOTS}
    widths = {spot: [] for spot in SPOTS}
    started = time.perf_counter()
    for i in range(1000):
        pumps, box = invented_tank(rng)
        spot, depth = SPOTS[i % 3], rng.random()
        ours = from_pumps(pumps, footprint=box).at(depth, spot)
        true = np.array([draw(pumps, box, depth, spot, rng) for _ in range(DRAWS)])
        low, high = np.quantile(true, [0.025, 0.975])
        inside[spot].append(np.mean((true >= ours.low) & (true <= ours.high)))
        widths[spot].append((ours.high - ours.low) / (high - low))
    with capsys.disabled():
        for spot in SPOTS:
            share, width = np.mean(inside[spot]), np.array(widths[spot])
            print(
                f"\nflow, {spot}: {share:.3f} of true values inside; width over spread: median {np.median(width):.2f}, "
                f"within 2 in {np.mean(width <= 2):.3f} of tanks",
                end="",
            )
        print(f"; {time.perf_counter() - started:.1f} s")
    for spot in SPOTS:
        record(f"flow, {spot}: share of true values inside the range", JETS, np.mean(inside[spot]), 1.0, 0.10)
        record(f"flow, {spot}: width of range over spread, median", JETS, np.median(widths[spot]), 1.0, 1.0)
        assert np.mean(np.array(widths[spot]) <= 2) >= 0.95
        assert np.median(widths[spot]) > 0.5


def test_words_reach_the_speeds_of_published_experiments():
    """Nakamura & Yamasaki 2005: 20 cm/s good, below 3 poor. A student flume study: Acropora shut fully above 55."""
    assert WORDS["dirt_settles"][0][2] == 3
    assert WORDS["bent_over"][0][0] < 20 < WORDS["bent_over"][0][2]
    assert WORDS["sand_moves"][0][2] <= 55
