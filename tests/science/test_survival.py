import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.survival import kaplan_meier, share_alive
from webapp.science.trend import linear_trend

LIVES = st.lists(st.tuples(st.integers(0, 400).map(float), st.booleans()), min_size=1, max_size=60)


@given(LIVES)
def test_a_curve_only_falls_and_lies_within_its_interval(lives):
    curve = kaplan_meier([days for days, _ in lives], [dead for _, dead in lives])
    assert list(curve.shares) == sorted(curve.shares, reverse=True)
    for low, share, high in zip(curve.low, curve.shares, curve.high, strict=True):
        assert 0 <= low <= share + 1e-12 and share <= high + 1e-12 <= 1 + 1e-9


@given(st.lists(st.integers(1, 400).map(float), min_size=1, max_size=40))
def test_without_censoring_it_is_the_plain_share(days):
    curve = kaplan_meier(days, [True] * len(days))
    for when, share in zip(curve.times, curve.shares, strict=True):
        assert share == pytest.approx(sum(one > when for one in days) / len(days))


def test_the_product_limit_estimate_of_a_textbook():
    """Kaplan & Meier 1958, section 2: eight lives, deaths at 0.8, 3.1, 5.4, 9.2, losses at 1.0, 2.7, 7.0, 12.1 months;
    they give 7/8, then 7/8 x 4/5, x 3/4, x 1/2."""
    lives = [
        (0.8, True),
        (1.0, False),
        (2.7, False),
        (3.1, True),
        (5.4, True),
        (7.0, False),
        (9.2, True),
        (12.1, False),
    ]
    for moment, share in ((1.0, 7 / 8), (4.0, 7 / 10), (6.0, 21 / 40), (10.0, 21 / 80)):
        assert share_alive(lives, moment) == pytest.approx(share)


def test_nobody_and_everybody():
    assert share_alive([], 30) is None
    assert share_alive([(40.0, False)] * 3, 30) == 1.0
    assert share_alive([(10.0, True)] * 3, 30) == 0.0


def test_nobody_died():
    curve = kaplan_meier([3.0, 9.0], [False, False])
    assert (curve.at(100), curve.median, curve.count, curve.died) == ((1, 1, 1), None, 2, 0)


@given(LIVES, st.integers(0, 400))
def test_a_share_is_that_of_the_curve(lives, day):
    curve = kaplan_meier([days for days, _ in lives], [dead for _, dead in lives])
    assert share_alive(lives, day) == pytest.approx(curve.at(day)[0])


@pytest.mark.parametrize(("days", "died"), [([], []), ([1.0], []), ([-1.0], [True])])
def test_lifetimes_that_make_no_sense_are_refused(days, died):
    with pytest.raises(ValueError):
        kaplan_meier(days, died)


def test_a_line_needs_three_points_and_two_places():
    assert linear_trend([1, 2], [1, 2]) is None
    assert linear_trend([1, 1, 1], [1, 2, 3]) is None
    assert linear_trend([0, 1, 2, 3], [0, 1.1, 1.9, 3]).is_certain
    assert not linear_trend([0, 1, 2, 3], [1, 0, 1, 0]).is_certain
