import pytest

from webapp.science.fixture import Fixture, Footprint
from webapp.science.light_layout import lit_spans, points

BOX = Footprint(120, 60, 50)


def test_one_lamp_hangs_in_the_middle():
    assert lit_spans(Fixture("led_white", 1, 50, length_cm=30, width_cm=10), BOX) == (((45, 75),), ((25, 35),))


def test_lamps_that_fit_hang_end_to_end():
    along, across = lit_spans(Fixture("led_white", 2, 50, length_cm=20, width_cm=10), BOX)
    assert along == ((20, 40), (80, 100))
    assert across == ((25, 35),)


def test_long_lamps_lie_side_by_side():
    along, across = lit_spans(Fixture("t5", 4, 54, width_cm=5), BOX)
    assert along == (pytest.approx((6, 114)),)
    assert across == ((20, 40),)


def test_many_become_one_even_stretch_with_the_same_ends():
    along, _ = lit_spans(Fixture("led_white", 6, 50, length_cm=10, width_cm=10), BOX)
    assert along == ((5, 115),)


def test_no_lamp_is_larger_than_the_tank():
    along, across = lit_spans(Fixture("led_white", 24, 50, length_cm=300, width_cm=150), BOX)
    assert along == ((0, 120),)
    assert across == ((0, 60),)


def test_middle_is_below_a_lamp_and_edge_is_outside_the_inner_three_quarters():
    lamp = Fixture("led_white", 2, 50, length_cm=20, width_cm=10)
    xs, ys, pairs = points(lamp, BOX, "middle")
    assert all(80 < x < 100 for x in xs)
    assert all(30 < y < 35 for y in ys)
    xs, ys, pairs = points(lamp, BOX, "edge")
    assert all(xs[i] > 105 or ys[j] > 52.5 for i, j in pairs)
    assert all(60 < xs[i] < 120 and 30 < ys[j] < 60 for i, j in pairs)
