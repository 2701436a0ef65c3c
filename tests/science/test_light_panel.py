"""Laws of the light under a lamp. Deeper is darker below the lamp; at the sides light first arrives: no law there."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.fixture import KINDS, Fixture, Footprint
from webapp.science.light import PLACES, from_fixture
from webapp.science.light_layout import points

boxes = st.builds(Footprint, st.floats(25, 180), st.floats(20, 80), st.floats(20, 70))
fixtures = st.builds(
    Fixture,
    kind=st.sampled_from(list(KINDS)),
    count=st.integers(1, 6),
    watts_each=st.floats(3, 300),
    height_cm=st.none() | st.floats(0, 60),
    beam_deg=st.none() | st.floats(40, 130),
    length_cm=st.none() | st.floats(5, 120),
    lid=st.sampled_from([True, False, None]),
)
shares = st.floats(0, 1)
places = st.sampled_from(PLACES)


@given(fixtures, boxes, shares, places, st.floats(1, 3))
def test_watts_scale_the_whole_range(lamp, box, share, place, factor):
    depth = share * box.depth_cm
    one = from_fixture(lamp, box).at(depth, place)
    more = from_fixture(replace(lamp, watts_each=lamp.watts_each * factor), box).at(depth, place)
    assert 0 < one.low < one.mid < one.high
    assert (more.low, more.mid, more.high) == pytest.approx((one.low * factor, one.mid * factor, one.high * factor))


@given(fixtures, boxes, shares, shares, st.floats(0, 60), st.floats(0.6, 5))
def test_deeper_is_never_lighter_below_the_lamp_but_for_what_the_sides_send_back(lamp, box, a, b, height, m):
    panel = from_fixture(lamp, box).profile
    xs, ys, pairs = points(lamp, box, "middle")
    upper, lower = sorted((a * box.depth_cm, b * box.depth_cm))
    above, below = (sum(panel.logs(xs, ys, pairs, depth, height, m, 0.0)) for depth in (upper, lower))
    assert below <= above + 1e-3


@given(fixtures, boxes, shares, shares)
def test_what_the_sides_send_back_never_outshines_the_lamp(lamp, box, a, b):
    """Deeper, the middle of a narrow tank may gain what both sides return (a ray tracing shows it), and no more."""
    field = from_fixture(lamp, box)
    upper, lower = sorted((a * box.depth_cm, b * box.depth_cm))
    above, below = field.at(upper), field.at(lower)
    assert below.mid <= above.mid * 1.4
    assert field.at(box.depth_cm).mid <= field.at(0).mid


@given(fixtures, boxes, shares, places)
def test_tint_never_brightens_and_not_knowing_the_water_is_wider_than_clear(lamp, box, share, place):
    depth = share * box.depth_cm
    clear, yellow, unknown = (from_fixture(lamp, box, water=w).at(depth, place) for w in ("clear", "yellow", None))
    assert yellow.mid <= clear.mid
    assert unknown.high / unknown.low >= clear.high / clear.low * (1 - 1e-9)


@given(fixtures, boxes, shares, places)
def test_a_lid_never_brightens(lamp, box, share, place):
    depth = share * box.depth_cm
    open_top, covered = (from_fixture(replace(lamp, lid=lid), box).at(depth, place).mid for lid in (False, True))
    assert covered < open_top


def test_a_small_lamp_over_a_long_tank_leaves_the_sides_darker():
    """In a tank hardly larger than its lamp the walls can make the sides the brighter place, as a ray tracing shows."""
    field = from_fixture(Fixture("led_reef_blue", 1, 100, height_cm=20), Footprint(150, 60, 50))
    for depth in (0, 10, 25, 50):
        assert field.at(depth, "edge").mid < 0.6 * field.at(depth, "middle").mid


def test_raising_the_lamp_takes_light_from_the_middle():
    box = Footprint(90, 45, 45)
    mids = [from_fixture(Fixture("led_reef_blue", 1, 100, height_cm=h), box).at(20).mid for h in (5, 15, 30, 60, 120)]
    assert mids == sorted(mids, reverse=True)


def test_knowing_height_and_beam_narrows_the_range():
    box = Footprint(90, 45, 45)
    vague = from_fixture(Fixture("led_reef_blue", 1, 100), box).at(20)
    exact = from_fixture(Fixture("led_reef_blue", 1, 100, height_cm=20, beam_deg=90), box).at(20)
    assert exact.high / exact.low < vague.high / vague.low


def test_a_cheap_strip_is_enough_for_a_low_light_animal_and_not_for_a_bright_one():
    """18 W of strip over 60 x 30 x 30 cm: near 90 at half depth, so within 20-150 and below 200 with all its range."""
    field = from_fixture(Fixture("led_strip", 1, 18, hours=9, height_cm=6), Footprint(60, 30, 30))
    half_way = field.at(15)
    assert half_way.share_outside(20, 150, log=True) <= 0.25
    assert half_way.high < 200
    bottom_of_small = from_fixture(Fixture("led_strip", 1, 7, height_cm=8), Footprint(60, 30, 30)).at(30)
    assert bottom_of_small.share_outside(20, 50, log=True) < 0.5
