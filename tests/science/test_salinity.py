import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import salinity as s

salinities = st.floats(2, 42)
temps = st.floats(5, 30)


@given(salinity=salinities, temp_c=temps, reference_c=st.sampled_from([4.0, s.SIXTY_FAHRENHEIT_C, 20.0, 25.0]))
def test_specific_gravity_there_and_back(salinity, temp_c, reference_c):
    there = s.sg_from_salinity(salinity, temp_c, reference_c)
    assert s.salinity_from_sg(there, temp_c, reference_c) == pytest.approx(salinity, abs=1e-7)


@given(salinity=salinities, temp_c=temps)
def test_conductivity_and_refraction_there_and_back(salinity, temp_c):
    assert s.salinity_from_conductivity(s.conductivity_ms_cm(salinity, temp_c), temp_c) == pytest.approx(salinity)
    assert s.salinity_from_refractive_index(s.refractive_index(salinity, temp_c), temp_c) == pytest.approx(salinity)


@given(salinity=st.floats(0, 45))
def test_absolute_salinity_there_and_back(salinity):
    assert s.practical_from_absolute(s.absolute_from_practical(salinity)) == pytest.approx(salinity)


@given(salinity=st.floats(0, 44), temp_c=temps)
def test_salt_makes_heavier_and_warmth_makes_lighter(salinity, temp_c):
    assert s.density_kg_l(salinity + 1, temp_c) > s.density_kg_l(salinity, temp_c)
    assert s.density_kg_l(salinity, temp_c + 5) < s.density_kg_l(salinity, temp_c)


def test_pure_water_at_the_reference_temperature_reads_one():
    assert s.sg_from_salinity(0, 25, 25) == 1


def test_a_hydrometer_for_60_f_read_warm_looks_low():
    read = s.sg_from_salinity(35, 25, s.SIXTY_FAHRENHEIT_C)
    assert s.salinity_from_sg(read, 25, 25) == pytest.approx(32.33, abs=0.02)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: s.density_kg_l(-1, 25), "salinity"),
        (lambda: s.density_kg_l(35, 78), "temp_c"),
        (lambda: s.density_kg_l(float("nan"), 25), "salinity"),
        (lambda: s.sg_from_salinity(35, 25, 77), "reference_c"),
        (lambda: s.salinity_from_sg(1.2, 25, 25), "sg"),
        (lambda: s.conductivity_ms_cm(1, 25), "salinity"),
        (lambda: s.salinity_from_conductivity(530, 25), "ms_cm"),
        (lambda: s.refractive_index(35, 31), "temp_c"),
        (lambda: s.refractive_index(35, 25, 900), "wavelength_nm"),
        (lambda: s.salinity_from_refractive_index(1.4, 25), "n_d"),
        (lambda: s.practical_from_absolute(50), "absolute_g_kg"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
