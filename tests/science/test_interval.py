import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from webapp.science.interval import Interval, combine_relative

values = st.floats(0.01, 1e4)


@st.composite
def intervals(draw):
    return Interval(*sorted(draw(st.tuples(values, values, values))))


def test_order_and_finiteness_are_required():
    for parts in ((2, 1, 3), (1, 3, 2), (1, math.nan, 2), (0, 1, math.inf), (-math.inf, 0, 1)):
        with pytest.raises(ValueError, match="low, mid, high"):
            Interval(*parts)


def test_makers():
    assert Interval.exact(3) == Interval(3, 3, 3)
    assert Interval.plus_minus(3, 0.5) == Interval(2.5, 3, 3.5)
    assert Interval.times_over(10, 0.25) == Interval(8, 10, 12.5)
    assert Interval.times_over(10, 0, 1) == Interval(10, 10, 20)


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: Interval.plus_minus(1, -1), "half"),
        (lambda: Interval.plus_minus(1, math.nan), "half"),
        (lambda: Interval.times_over(0, 1), "x must"),
        (lambda: Interval.times_over(1, -1), "down"),
        (lambda: Interval.times_over(1, 1, -1), "up"),
        (lambda: Interval(0, 1, 2).widened(0.1), "low"),
        (lambda: Interval(0, 1, 2).scaled(-1), "f must"),
        (lambda: Interval(0, 1, 2).share_outside(3, 2), "lower"),
        (lambda: combine_relative(0.1, -0.1), "rels"),
    ],
)
def test_refusals_name_the_argument(call, name):
    with pytest.raises(ValueError, match=name):
        call()


@pytest.mark.parametrize(
    ("interval", "lower", "upper", "log", "share"),
    [
        (Interval(0, 5, 10), 2, 8, False, 0.4),
        (Interval(0, 5, 10), None, 8, False, 0.2),
        (Interval(0, 5, 10), 2, None, False, 0.2),
        (Interval(0, 5, 10), None, None, False, 0.0),
        (Interval(0, 5, 10), 11, 12, False, 1.0),
        (Interval(10, 50, 1000), 100, None, True, 0.5),
        (Interval(10, 50, 1000), 0, 100, True, 0.5),
        (Interval(0, 50, 1000), 1, 1000, True, 0.0),
        (Interval.exact(5), 5, 8, False, 0.0),
        (Interval.exact(5), 5.1, 8, True, 1.0),
        (Interval.exact(0), 1, None, True, 1.0),
        (Interval.exact(0), None, 1, True, 0.0),
    ],
)
def test_share_outside_by_hand(interval, lower, upper, log, share):
    assert interval.share_outside(lower, upper, log) == pytest.approx(share, abs=1e-12)


@given(intervals(), values, values, st.booleans())
def test_share_is_a_share_and_parts_add_up(interval, a, b, log):
    a, b = sorted((a, b))
    assume(interval.high > interval.low * 1.0001)
    below, above = interval.share_outside(a, None, log), interval.share_outside(None, b, log)
    assert 0 <= below <= 1
    assert interval.share_outside(a, b, log) == pytest.approx(min(1, below + above), abs=1e-9)


@given(intervals(), values, values, st.floats(0.01, 100), st.booleans())
def test_share_does_not_depend_on_the_unit(interval, a, b, factor, log):
    a, b = sorted((a, b))
    assume(interval.high > interval.low * 1.0001)
    scaled = interval.scaled(factor).share_outside(a * factor, b * factor, log)
    assert scaled == pytest.approx(interval.share_outside(a, b, log), abs=1e-6)


@given(st.lists(st.floats(0, 5), min_size=1, max_size=5))
def test_quadrature_lies_between_the_largest_and_the_product(rels):
    total = combine_relative(*rels)
    assert max(rels) <= total * (1 + 1e-12) + 1e-12
    assert 1 + total <= math.prod(1 + r for r in rels) * (1 + 1e-12)


@given(intervals(), st.floats(0, 3))
def test_widening_keeps_the_estimate_and_only_widens(interval, rel):
    wide = interval.widened(rel)
    assert wide.mid == interval.mid
    assert wide.low <= interval.low * (1 + 1e-12)
    assert wide.high >= interval.high * (1 - 1e-12)
