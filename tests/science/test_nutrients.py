import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import nutrients as n

ions = st.sampled_from(list(n.IONS))
amounts = st.floats(0, 1000)


@given(ion=ions, mg_l=amounts)
def test_there_and_back(ion, mg_l):
    assert n.ion_from_element(ion, n.element_from_ion(ion, mg_l)) == pytest.approx(mg_l)
    assert n.mg_l_from_umol_l(ion, n.umol_l_from_mg_l(ion, mg_l)) == pytest.approx(mg_l)


@given(ion=ions, mg_l=st.floats(0.001, 1000))
def test_an_ion_weighs_more_than_its_element(ion, mg_l):
    assert n.element_from_ion(ion, mg_l) < mg_l


@given(mg_l=amounts)
def test_ammonia_and_ammonium_hold_the_same_nitrogen_by_amount(mg_l):
    ammonium = n.ion_from_element("nh4", n.element_from_ion("nh3", mg_l))
    assert n.umol_l_from_mg_l("nh4", ammonium) == pytest.approx(n.umol_l_from_mg_l("nh3", mg_l))


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: n.ion_from_element("no4", 1), "ion"),
        (lambda: n.ion_from_element("no3", -1), "element_mg_l"),
        (lambda: n.element_from_ion("no3", float("inf")), "mg_l"),
        (lambda: n.mg_l_from_umol_l("po4", -1), "umol_l"),
        (lambda: n.umol_l_from_mg_l("po4", float("nan")), "mg_l"),
    ],
)
def test_out_of_range_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=f"^{named} "):
        call()
