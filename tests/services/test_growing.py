"""Growth from the sizes of a specimen, against scipy's regression; typing errors one step either side."""

from math import exp, pi, sqrt

import pytest
from scipy.stats import linregress

from tests.services.making_rows import LIMITS, NOW, ago, kind, row
from webapp.services.cutting import most_to_take, worth_asking
from webapp.services.growing import USUAL_PER_DAY, growth_of, odd_size

DAYS, ACROSS = [120, 90, 60, 30, 0], [36.0, 39.4, 41.9, 46.3, 49.6]



def measured():
    seen = zip(DAYS, ACROSS, strict=True)
    return row("favites", sizes=[[ago(day).isoformat(), size, None, None] for day, size in seen])


def test_the_rate_and_its_error_are_those_of_a_regression_of_the_logarithm():
    from numpy import log

    theirs = linregress([-day for day in DAYS], log([pi / 4 * size**2 for size in ACROSS]))
    ours = growth_of(measured(), LIMITS | {"growth_error_mm": 0.1})
    assert ours.rate.per_day == pytest.approx(theirs.slope, rel=1e-9)
    assert ours.rate.se_per_day == pytest.approx(theirs.stderr, rel=1e-9)
    assert ours.rate.doubling_days == pytest.approx(0.6931471805599453 / theirs.slope)


def test_the_error_in_percent_is_that_of_the_rate_at_both_ends():
    growth = growth_of(measured(), LIMITS)
    ends = [100 * (exp(30 * (growth.rate.per_day + side * 1.96 * growth.rate.se_per_day)) - 1) for side in (-1, 1)]
    assert growth.percent_error == pytest.approx((ends[1] - ends[0]) / 2, rel=0.02)


@pytest.mark.parametrize(("days", "known"), [(13.99, False), (14, True)])
def test_no_rate_from_fewer_than_fourteen_days(days, known):
    one = row("favites", sizes=[[ago(days).isoformat(), 30, None, None], [ago(0).isoformat(), 45, None, None]])
    assert (growth_of(one, LIMITS).rate is not None) is known


def test_no_rate_where_the_change_is_within_the_error_of_measuring():
    one = row("favites", sizes=[[ago(30).isoformat(), 30, None, None], [ago(0).isoformat(), 30.5, None, None]])
    assert growth_of(one, LIMITS).rate is None


def test_only_what_was_measured_since_the_last_cut_counts():
    one = measured()
    one.last_cut_at = ago(45)
    assert len(growth_of(one, LIMITS).points) == 2


def test_one_size_is_no_growth():
    assert growth_of(row("favites", sizes=[[ago(3).isoformat(), 30, None, None]]), LIMITS) is None


@pytest.fixture
def reading_session(stage):
    session = stage.database.reading()
    yield session
    session.close()


def test_a_size_is_asked_about_beyond_ten_times_the_usual_growth(reading_session):
    one = row("favites", sizes=[[ago(5).isoformat(), 30.0, None, None]])
    # One millimetre of error on 30 is 6.7 % of the area; twice that is allowed for.
    most = 30 * sqrt((1 + 2 * 2 / 30) * 2.718281828459045 ** (10 * USUAL_PER_DAY * 5))
    assert odd_size(reading_session, one, {"size_mm": most * 0.999}, LIMITS, NOW) is None
    odd = odd_size(reading_session, one, {"size_mm": most * 1.001}, LIMITS, NOW)
    assert (odd.measure, odd.last, odd.last_at) == ("size_mm", pytest.approx(30), ago(5))
    assert (odd.low, odd.high) == (pytest.approx(30 / sqrt(10)), pytest.approx(most))  # a tenth of the area left


@pytest.mark.parametrize(("heads", "odd"), [(2, None), (1, "heads"), (349, None), (350, "heads")])
def test_a_slipped_digit_in_a_count_is_asked_about(reading_session, heads, odd):
    # From 20 in 60 days: one head of error on 20 allowed for twice, and ten times what a doubling in 90 days gives.
    one = row("caulastraea", sizes=[[ago(60).isoformat(), None, 20, None]])
    asked = odd_size(reading_session, one, {"heads": heads}, LIMITS, NOW)
    assert (asked and asked.measure) == odd


def test_the_first_size_is_not_asked_about(reading_session):
    assert odd_size(reading_session, row("favites"), {"size_mm": 900}, LIMITS, NOW) is None


def test_how_much_may_be_taken():
    assert most_to_take(row("caulastraea", heads=9), kind("caulastraea"), LIMITS)["heads"] == 2
    assert most_to_take(row("stylophora", size_mm=80), kind("stylophora"), LIMITS)["size_mm"] == 40


@pytest.mark.parametrize(("pieces", "heads", "size_mm", "asked"), [
    (2, 1, None, []), (3, 1, None, ["too_much"]), (2, None, 10, []), (2, None, 9.9, ["too_small"]), (2, 1, 9.9, []),
])  # fmt: skip
def test_what_is_asked_before_a_session_is_kept(pieces, heads, size_mm, asked):
    mother = row("caulastraea", heads=8)  # a third of eight heads are two
    assert worth_asking(mother, kind("caulastraea"), LIMITS, pieces, heads, size_mm) == asked
