import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import temperature as t

temps = st.lists(st.floats(20, 34), max_size=120)


@given(days=temps, baseline=st.floats(24, 30))
def test_stress_grows_with_heat_and_forgets_after_twelve_weeks(days, baseline):
    stress = t.degree_heating_weeks(days, baseline)
    assert 0 <= stress <= t.degree_heating_weeks([temp + 0.5 for temp in days], baseline)
    assert t.degree_heating_weeks([*days, *[baseline] * 84], baseline) == 0


@given(days=temps, baseline=st.floats(24, 30))
def test_only_the_last_84_days_count(days, baseline):
    assert t.degree_heating_weeks(days, baseline) == t.degree_heating_weeks(days[-84:], baseline)


def test_a_degree_is_a_degree_in_binary_too():
    assert t.degree_heating_weeks([28.1] * 7, 27.1) == pytest.approx(1.0)
    assert t.stress_level(t.hotspot_c(28.1, 27.1), 0.5) == "warning"


def test_below_the_baseline_there_is_no_hotspot():
    assert t.hotspot_c(25.0, 27.0) == 0
    assert t.hotspot_c(27.5, 27.0) == 0.5


def test_the_baseline_is_the_warmest_month():
    assert t.warmest_month_c([24.8, 26.1, 25.5]) == 26.1


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: t.hotspot_c(78, 26), "temp_c"),
        (lambda: t.hotspot_c(26, 78), "warmest_month_c"),
        (lambda: t.stress_level(-1, 0), "hotspot"),
        (lambda: t.stress_level(1, -1), "heating_weeks"),
        (lambda: t.warmest_month_c([]), "monthly_means_c"),
        (lambda: t.warmest_month_c([78]), "monthly_means_c"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
