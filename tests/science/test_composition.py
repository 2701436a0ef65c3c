import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.composition import natural_water


@given(salinity=st.floats(1, 40), temp_c=st.floats(15, 30))
def test_saltier_water_holds_a_little_more_than_in_proportion_by_the_litre(salinity, temp_c):
    less, more = natural_water(salinity, temp_c), natural_water(salinity * 1.1, temp_c)
    for part in ("ca_mg_l", "mg_mg_l", "alk_dkh"):
        assert 1.1 < getattr(more, part) / getattr(less, part) < 1.105


@given(salinity=st.floats(1, 45), temp_c=st.floats(15, 30))
def test_calcium_and_magnesium_stand_in_one_ratio(salinity, temp_c):
    water = natural_water(salinity, temp_c)
    assert water.mg_mg_l / water.ca_mg_l == pytest.approx(3.115, abs=0.002)


@pytest.mark.parametrize(
    ("salinity", "temp_c", "named"), [(-1, 25, "salinity"), (50, 25, "salinity"), (35, 78, "temp_c")]
)
def test_out_of_range_is_refused_by_name(salinity, temp_c, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        natural_water(salinity, temp_c)
