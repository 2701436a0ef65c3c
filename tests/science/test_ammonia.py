import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.ammonia import free_ammonia_fraction, free_ammonia_mg_l

phs, temps, salinities = st.floats(7, 8.9), st.floats(5, 34), st.floats(5, 41)


@given(ph=phs, temp_c=temps, salinity=salinities)
def test_more_is_free_in_warmer_fresher_more_alkaline_water(ph, temp_c, salinity):
    here = free_ammonia_fraction(ph, temp_c, salinity)
    assert 0 < here < 1
    assert free_ammonia_fraction(ph + 0.1, temp_c, salinity) > here
    assert free_ammonia_fraction(ph, temp_c + 1, salinity) > here
    assert free_ammonia_fraction(ph, temp_c, salinity + 1) < here


def test_worked_example():
    # 0.20 mg/L of ammonia-N at pH 8.2, 25 °C, 35: 6.58 % free, times 17.031/14.007.
    assert free_ammonia_mg_l(0.20, 8.2, 25, 35) == pytest.approx(0.2 * 0.0658 * 1.2159, rel=1e-3)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: free_ammonia_fraction(6.5, 25, 35), "ph_nbs"),
        (lambda: free_ammonia_fraction(8.2, 78, 35), "temp_c"),
        (lambda: free_ammonia_fraction(8.2, 25, 1.025), "salinity"),
        (lambda: free_ammonia_mg_l(-1, 8.2, 25, 35), "total_mg_l_n"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
