import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import units
from webapp.science.units import QUANTITIES, from_canonical, to_canonical

EVERY_UNIT = [(name, unit) for name, quantity in QUANTITIES.items() for unit in quantity.units]


def test_every_unit_has_a_conversion_and_the_canonical_one_is_listed_first():
    for name, unit in EVERY_UNIT:
        canonical = QUANTITIES[name].canonical_unit
        assert unit in QUANTITIES[name].units
        assert (unit == canonical) != ((name, unit) in units._CONVERT)
        assert next(iter(QUANTITIES[name].units)) == canonical


def test_plausible_lies_within_possible():
    for quantity in QUANTITIES.values():
        assert quantity.possible[0] <= quantity.plausible[0] < quantity.plausible[1] <= quantity.possible[1]


@pytest.mark.parametrize(("quantity", "unit"), EVERY_UNIT)
@given(share=st.floats(0, 1), temp_c=st.none() | st.floats(18, 30), salinity=st.floats(25, 40))
def test_round_trip(quantity, unit, share, temp_c, salinity):
    low, high = QUANTITIES[quantity].possible
    if unit in ("ms_cm", "ms_cm_25", "n_d"):
        high = 42
    value = low + share * (high - low)
    there = from_canonical(quantity, value, unit, temp_c=temp_c, salinity_ppt=salinity)
    back = to_canonical(quantity, there, unit, temp_c=temp_c, salinity_ppt=salinity)
    assert back == pytest.approx(value, rel=1e-7, abs=1e-7)


@pytest.mark.parametrize(("quantity", "unit"), EVERY_UNIT)
@given(first=st.floats(0, 1), second=st.floats(0, 1))
def test_more_in_one_unit_is_more_in_the_other(quantity, unit, first, second):
    low, high = QUANTITIES[quantity].plausible
    a, b = sorted(low + share * (high - low) for share in (first, second))
    assert from_canonical(quantity, a, unit) <= from_canonical(quantity, b, unit)


def test_a_hydrometer_is_read_at_its_own_temperature_unless_told():
    assert to_canonical("salinity", 1.025, "sg_60f") == pytest.approx(32.58, abs=0.01)
    assert to_canonical("salinity", 1.025, "sg_60f", temp_c=25) == pytest.approx(35.86, abs=0.01)
    assert to_canonical("salinity", 1.025, "sg_25") == to_canonical("salinity", 1.025, "sg_25", temp_c=25)
    assert to_canonical("salinity", 1.0234, "sg_4") == to_canonical("salinity", 1.0234, "sg_4", temp_c=25)


def test_compensated_conductivity_does_not_depend_on_the_sample():
    assert to_canonical("salinity", 53, "ms_cm_25", temp_c=20) == to_canonical("salinity", 53, "ms_cm_25", temp_c=28)
    assert to_canonical("salinity", 53, "ms_cm", temp_c=20) > to_canonical("salinity", 53, "ms_cm", temp_c=28) + 5


def usual_units(quantity, value):
    low, high = QUANTITIES[quantity].plausible
    for unit in QUANTITIES[quantity].units:
        try:
            if low <= to_canonical(quantity, value, unit) <= high:
                yield unit
        except ValueError:
            continue


@pytest.mark.parametrize(
    ("quantity", "value", "meant"),
    [
        ("alk", 150, ["ppm_caco3"]),
        ("alk", 2.9, ["meq_l"]),
        ("alk", 2500, ["umol_kg"]),
        ("temp", 78, ["f"]),
        ("salinity", 35, ["ppt"]),
        ("salinity", 1.0235, ["sg_25", "sg_20", "sg_60f", "sg_4"]),
        ("salinity", 53, ["ms_cm", "ms_cm_25"]),
        ("salinity", 1.339, ["n_d"]),
        ("mg", 5200, ["mg_l_caco3"]),
        ("ca", 1050, ["mg_l_caco3"]),
    ],
)
def test_the_usual_bounds_tell_units_apart(quantity, value, meant):
    assert list(usual_units(quantity, value)) == meant


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: to_canonical("hardness", 8, "dkh"), "quantity"),
        (lambda: to_canonical("alk", 8, "ppt"), "unit"),
        (lambda: to_canonical("alk", float("nan"), "dkh"), "value"),
        (lambda: to_canonical("salinity", 35, "sg_25"), "sg"),
        (lambda: to_canonical("salinity", 530, "ms_cm"), "ms_cm"),
        (lambda: to_canonical("salinity", 1.5, "n_d"), "n_d"),
        (lambda: to_canonical("salinity", 53, "ms_cm", temp_c=50), "temp_c"),
    ],
)
def test_what_cannot_be_converted_is_refused_by_name(call, named):
    with pytest.raises(ValueError, match=named):
        call()
