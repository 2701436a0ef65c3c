"""Light at a place against rays traced backwards (light_rays): 1,000 invented tanks, 480 true values each."""

import time

import numpy as np
import pytest

from tests.reference.deviations import record
from tests.reference.light_rays import draws
from webapp.science.fixture import KINDS, Fixture, Footprint
from webapp.science.light import PLACES, from_fixture, from_meter

RAYS = "ray tracing of 1,000 tanks"
KNOWN = [kind for kind in KINDS if kind != "unknown"]


def invented_tank(rng):
    length = rng.uniform(40, 150)
    box = Footprint(length, float(np.clip(rng.uniform(0.35, 0.7) * length, 25, 75)), rng.uniform(25, 65))
    lamp = Fixture(
        KNOWN[rng.integers(len(KNOWN))],
        int(rng.integers(1, 5)),
        rng.uniform(10, 150),
        height_cm=None if rng.random() < 0.3 else rng.uniform(5, 35),
        beam_deg=None if rng.random() < 0.7 else rng.uniform(60, 120),
        lid=(False, True, None)[rng.integers(3)],
    )
    return lamp, box, (None, "clear", "yellow")[rng.integers(3)]


@pytest.mark.long
def test_range_holds_nine_in_ten_and_is_no_wider_than_twice_the_spread(capsys):
    rng = np.random.default_rng(20260)
    inside, widths, log_widths, places = [], [], [], []
    started = time.perf_counter()
    for i in range(1000):
        lamp, box, water = invented_tank(rng)
        place, depth = PLACES[i % 2], rng.uniform(0.1, 1) * box.depth_cm
        ours = from_fixture(lamp, box, water=water).at(depth, place)
        true = draws(lamp, box, place, depth, water, rng, geometries=24, scales=20, rays_edge=28)
        low, high = np.quantile(true, [0.025, 0.975])
        inside.append(np.mean((true >= ours.low) & (true <= ours.high)))
        widths.append((ours.high - ours.low) / (high - low))
        log_widths.append(np.log(ours.high / ours.low) / np.log(high / max(low, 1e-9)))
        places.append(place)
    inside, widths, places = np.array(inside), np.array(widths), np.array(places)
    with capsys.disabled():
        print(
            f"\nlight: {inside.mean():.3f} of true values inside (middle {inside[places == 'middle'].mean():.3f}, edge "
            f"{inside[places == 'edge'].mean():.3f}); width over spread: median {np.median(widths):.2f}, log scale "
            f"{np.median(log_widths):.2f}; within 2 in {np.mean(widths <= 2):.3f} of tanks; "
            f"{time.perf_counter() - started:.1f} s"
        )
    for place in PLACES:
        here = places == place
        record(f"light, {place}: share of true values inside the range", RAYS, inside[here].mean(), 1.0, 0.10)
        record(f"light, {place}: width of range over spread, median", RAYS, np.median(widths[here]), 1.0, 1.0)
        assert np.mean(widths[here] <= 2) >= 0.98
        assert np.median(widths[here]) > 0.5  # a range that holds nine in ten cannot be much narrower than they are
    assert np.mean(inside >= 0.75) >= 0.98
    assert np.median(log_widths) <= 2


def test_a_reading_at_one_depth_foretells_another():
    """The same drawn tank seen at two depths: the range from a meter reading at the first holds the second."""
    rng = np.random.default_rng(5)
    hits = []
    for _ in range(400):
        lamp, box, water = invented_tank(rng)
        read_at, asked = rng.uniform(0.05, 1, 2) * box.depth_cm
        seed = int(rng.integers(2**31))
        read, true = (
            draws(lamp, box, "middle", z, water, np.random.default_rng(seed), geometries=1, scales=1, rays_edge=48)[
                0, 0
            ]
            for z in (read_at, asked)
        )
        field = from_meter(min(read, 3000), read_at, box.depth_cm, corrected_for_water=True, water=water)
        range_there = field.at(asked).scaled(read / min(read, 3000))
        hits.append(range_there.low <= true <= range_there.high)
    record(
        "light from one meter reading: share of true values inside", "ray tracing of 400 tanks", np.mean(hits), 1, 0.1
    )
