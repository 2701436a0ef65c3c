from math import exp, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.growth import area_from_diameters_cm2, specific_growth_rate


@given(
    rate=st.floats(0.002, 0.05),
    start=st.floats(0.1, 100),
    days=st.lists(st.integers(0, 400), min_size=2, unique=True),
)
def test_exact_exponential_growth_is_found(rate, start, days):
    days = sorted(days)
    found = specific_growth_rate(days, [start * exp(rate * day) for day in days], reading_error=0)
    if days[-1] - days[0] < 14:
        assert found is None
    else:
        assert found.per_day == pytest.approx(rate)
        assert exp(found.per_day * found.doubling_days) == pytest.approx(2)


@given(scale=st.floats(0.01, 100))
def test_the_unit_of_size_does_not_matter(scale):
    days, sizes = [0, 20, 40, 60], [2.0, 2.6, 3.1, 4.2]
    first, second = (specific_growth_rate(days, [s * k for s in sizes]) for k in (1, scale))
    assert second.per_day == pytest.approx(first.per_day)
    assert second.se_per_day == pytest.approx(first.se_per_day)


def test_too_soon_and_too_little_say_nothing():
    assert specific_growth_rate([0, 13], [2, 4]) is None
    assert specific_growth_rate([0, 30], [10, 10.5], reading_error=0.05) is None
    assert specific_growth_rate([0, 30], [10, 11.5], reading_error=0.05) is not None
    assert specific_growth_rate([5, 5], [2, 4]) is None


def test_two_sizes_carry_the_reading_error():
    found = specific_growth_rate([0, 30], [10, 15], reading_error=0.05)
    assert found.se_per_day == pytest.approx(2**0.5 * 0.05 / 30)


def test_scatter_beyond_the_reading_error_widens_the_error():
    days = [0, 30, 60, 90]
    calm = specific_growth_rate(days, [10, 12, 14.4, 17.3], reading_error=0.01)
    wild = specific_growth_rate(days, [10, 14, 12, 17.3], reading_error=0.01)
    assert wild.se_per_day > 3 * calm.se_per_day


def test_shrinking_has_no_doubling_time():
    found = specific_growth_rate([0, 30], [10, 5])
    assert found.per_day < 0
    assert found.doubling_days is None
    assert found.percent_per_30_days == pytest.approx(-50)


@given(first=st.floats(0.1, 100), second=st.floats(0.1, 100))
def test_area_of_an_ellipse_does_not_depend_on_which_is_longer(first, second):
    assert area_from_diameters_cm2(first, second) == pytest.approx(area_from_diameters_cm2(second, first))
    assert area_from_diameters_cm2(first, first) == pytest.approx(pi * (first / 2) ** 2)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: specific_growth_rate([0], [1]), "days"),
        (lambda: specific_growth_rate([0, 30], [1]), "days"),
        (lambda: specific_growth_rate([30, 0], [1, 2]), "days"),
        (lambda: specific_growth_rate([0, 30], [1, 0]), "sizes"),
        (lambda: specific_growth_rate([0, 30], [1, 2], reading_error=5), "reading_error"),
        (lambda: area_from_diameters_cm2(0, 3), "long_cm"),
        (lambda: area_from_diameters_cm2(3, 600), "short_cm"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
