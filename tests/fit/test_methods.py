"""Ways of measuring: errors that follow from physics are checked against it; the rest is common practice."""

import gsw
import pytest

from webapp.fit.methods import METHODS, finer, method_for
from webapp.science.units import QUANTITIES


def _salinity_per_thousandth_of_sg() -> float:
    """TEOS-10: how much salinity 0.001 of specific gravity is at 25/25 C near 35."""
    pure = gsw.rho_t_exact(0.0, 25.0, 0.0)
    return 0.001 * pure / (gsw.rho_t_exact(36 * 35.16504 / 35, 25, 0) - gsw.rho_t_exact(35 * 35.16504 / 35, 25, 0))


def test_hydrometers_are_no_better_than_their_graduation():
    step = _salinity_per_thousandth_of_sg()
    assert step == pytest.approx(1.32, abs=0.02)
    by_key = {method.key: method.absolute for method in METHODS["salinity"]}
    assert 0.5 * step <= by_key["hydrometer_glass"] + 0.01 <= step
    assert step <= by_key["hydrometer_swing"] <= 2 * step


def test_a_conductivity_meter_by_pss78():
    """1 % of 53 mS/cm, and 1 C of wrong compensation, in quadrature (PSS-78 through gsw)."""
    c = gsw.C_from_SP(35, 25, 0)
    one_percent = gsw.SP_from_C(c * 1.01, 25, 0) - 35
    one_degree = gsw.SP_from_C(c, 24, 0) - 35
    (meter,) = [method for method in METHODS["salinity"] if method.key == "conductivity_meter"]
    assert meter.absolute == pytest.approx((one_percent**2 + one_degree**2) ** 0.5, rel=0.1)


@pytest.mark.parametrize("quantity", sorted(METHODS))
def test_every_quantity_has_a_usual_and_a_named_way(quantity):
    assert quantity in QUANTITIES
    keys = [method.key for method in METHODS[quantity]]
    assert len(keys) == len(set(keys))
    usual, assumed = method_for(quantity, "")
    assert assumed and usual.key == keys[0]
    named, assumed = method_for(quantity, keys[-1])
    assert not assumed and named.key == keys[-1]
    assert method_for(quantity, "sniffing") == (usual, True)


def test_half_ranges_add_in_quadrature():
    (card,) = [method for method in METHODS["no3"] if method.key == "colour_card"]
    assert card.half_range(10) == pytest.approx((1.5**2 + 3.0**2) ** 0.5)


def test_finer_names_the_coarsest_kit_that_is_enough():
    assert finer("alk", 0.35, 8).key == "fine_titration"
    assert finer("alk", 0.45, 8).key == "drop_kit"
    assert finer("alk", 0.12, 8).key == "laboratory"
    assert finer("alk", 0.01, 8) is None
