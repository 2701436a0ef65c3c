import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.carbonate import carbonate_system, ph_nbs_at_dic, ph_nbs_at_pco2, ph_shortfall

alks, phs = st.floats(4, 16), st.floats(7.6, 8.6)
salinities, temps = st.floats(25, 40), st.floats(18, 30)


@given(alk=alks, pco2=st.floats(150, 3000), salinity=salinities, temp_c=temps)
def test_ph_and_co2_are_each_others_inverse(alk, pco2, salinity, temp_c):
    ph = ph_nbs_at_pco2(alk, pco2, salinity, temp_c)
    assert carbonate_system(alk, ph, salinity, temp_c).pco2_uatm == pytest.approx(pco2, rel=1e-9)


@given(alk=alks, ph=phs, salinity=salinities, temp_c=temps)
def test_ph_and_carbon_are_each_others_inverse(alk, ph, salinity, temp_c):
    carbon = carbonate_system(alk, ph, salinity, temp_c).dic_umol_kg
    assert ph_nbs_at_dic(alk, carbon, salinity, temp_c) == pytest.approx(ph, abs=1e-9)


@given(alk=alks, ph=st.floats(7.6, 8.5), salinity=salinities, temp_c=temps)
def test_a_higher_ph_means_less_co2_and_more_saturation(alk, ph, salinity, temp_c):
    low, high = (carbonate_system(alk, p, salinity, temp_c) for p in (ph, ph + 0.05))
    assert high.pco2_uatm < low.pco2_uatm
    assert high.omega_aragonite > low.omega_aragonite


@given(alk=alks, ph=phs, salinity=salinities, temp_c=temps)
def test_aragonite_dissolves_before_calcite_and_calcium_counts_in_proportion(alk, ph, salinity, temp_c):
    state = carbonate_system(alk, ph, salinity, temp_c, 400)
    assert state.omega_aragonite < state.omega_calcite
    doubled = carbonate_system(alk, ph, salinity, temp_c, 800)
    assert doubled.omega_aragonite == pytest.approx(2 * state.omega_aragonite)
    assert doubled.pco2_uatm == state.pco2_uatm


@given(alk=alks, ph=phs, salinity=salinities, temp_c=temps)
def test_the_parts_of_a_shortfall_add_up(alk, ph, salinity, temp_c):
    parts = ph_shortfall(alk, ph, salinity, temp_c)
    assert parts.from_alkalinity + parts.from_co2 == pytest.approx(parts.expected_ph_nbs - ph, abs=1e-12)


def test_a_stuffy_room_and_a_low_alkalinity_are_told_apart():
    room = ph_shortfall(8.0, ph_nbs_at_pco2(8.0, 1200, 35, 25), 35, 25)
    assert room.from_alkalinity == pytest.approx(0, abs=1e-12)
    assert room.from_co2 > 0.3
    assert room.pco2_uatm == pytest.approx(1200)
    spent = ph_shortfall(5.0, ph_nbs_at_pco2(5.0, 425, 35, 25), 35, 25)
    assert spent.from_alkalinity > 0.1
    assert spent.from_co2 == pytest.approx(0, abs=1e-12)


def test_borate_can_leave_nothing_for_carbonate():
    with pytest.raises(ValueError, match="^ph_nbs .* alk_dkh"):
        carbonate_system(0.5, 9.5, 35, 25)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: carbonate_system(150, 8.2, 35, 25), "alk_dkh"),
        (lambda: carbonate_system(8, 6.0, 35, 25), "ph_nbs"),
        (lambda: carbonate_system(8, 8.2, 1.025, 25), "salinity"),
        (lambda: carbonate_system(8, 8.2, 35, 36), "temp_c"),
        (lambda: carbonate_system(8, 8.2, 35, 25, 5), "ca_mg_l"),
        (lambda: ph_nbs_at_pco2(8, 4, 35, 25), "pco2_uatm"),
        (lambda: ph_nbs_at_dic(8, 0, 35, 25), "dic_umol_kg"),
        (lambda: ph_nbs_at_dic(8, 60000, 35, 25), "dic_umol_kg"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()


@pytest.mark.parametrize("pco2", [20, 20000])
@pytest.mark.parametrize("alk", [0.5, 30])
@pytest.mark.parametrize(("salinity", "temp_c"), [(19, 2), (19, 35), (43, 2), (43, 35)])
def test_the_whole_stated_range_has_a_solution(alk, pco2, salinity, temp_c):
    assert 5 < ph_nbs_at_pco2(alk, pco2, salinity, temp_c) < 11
