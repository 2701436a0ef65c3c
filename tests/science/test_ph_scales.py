import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.ph_scales import nbs_from_total, nbs_minus_total, total_from_nbs


@given(ph=st.floats(6, 10), salinity=st.floats(19, 43), temp_c=st.floats(2, 35))
def test_there_and_back(ph, salinity, temp_c):
    assert nbs_from_total(total_from_nbs(ph, salinity, temp_c), salinity, temp_c) == pytest.approx(ph)


@given(salinity=st.floats(28, 38), temp_c=st.floats(20, 30))
def test_a_probe_set_in_buffers_reads_high_in_sea_water(salinity, temp_c):
    assert 0.10 < nbs_minus_total(salinity, temp_c) < 0.17


@pytest.mark.parametrize("convert", [total_from_nbs, nbs_from_total])
def test_out_of_range_is_refused_by_name(convert):
    with pytest.raises(ValueError, match="^ph_"):
        convert(14, 35, 25)
    with pytest.raises(ValueError, match="^salinity "):
        convert(8, 5, 25)
