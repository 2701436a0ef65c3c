import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import alkalinity as a

degrees = st.floats(0, 100)


@given(dkh=degrees, salinity=st.floats(20, 45), temp_c=st.floats(10, 35))
def test_there_and_back(dkh, salinity, temp_c):
    assert a.dkh_from_meq_l(a.meq_l_from_dkh(dkh)) == pytest.approx(dkh)
    assert a.dkh_from_ppm_caco3(a.ppm_caco3_from_dkh(dkh)) == pytest.approx(dkh)
    assert a.dkh_from_fdh(a.fdh_from_dkh(dkh)) == pytest.approx(dkh)
    there = a.umol_kg_from_dkh(dkh, salinity, temp_c)
    assert a.dkh_from_umol_kg(there, salinity, temp_c) == pytest.approx(dkh)


@given(dkh=degrees)
def test_units_stand_in_fixed_proportion(dkh):
    assert a.ppm_caco3_from_dkh(dkh) == pytest.approx(17.848 * dkh, rel=1e-4)
    assert a.fdh_from_dkh(dkh) == pytest.approx(1.7848 * dkh, rel=1e-4)


def test_a_litre_of_sea_water_weighs_more_than_a_kilogram():
    assert a.umol_kg_from_dkh(8, 35, 25) < 1000 * a.meq_l_from_dkh(8)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: a.meq_l_from_dkh(-0.1), "dkh"),
        (lambda: a.meq_l_from_dkh(150), "dkh"),
        (lambda: a.dkh_from_meq_l(40), "meq_l"),
        (lambda: a.dkh_from_ppm_caco3(2000), "ppm_caco3"),
        (lambda: a.dkh_from_fdh(200), "fdh"),
        (lambda: a.dkh_from_umol_kg(-1, 35, 25), "umol_kg"),
        (lambda: a.umol_kg_from_dkh(8, 50, 25), "salinity"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
