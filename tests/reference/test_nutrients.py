"""Nutrient units against pint and periodictable, and field limits published in both units."""

import periodictable
import pint
import pytest

from tests.reference.deviations import record
from webapp.science import nutrients as n

UNITS = pint.UnitRegistry()
SOURCE = "pint with masses of periodictable"
FORMULA = {"no3": ("NO3", "N"), "no2": ("NO2", "N"), "nh3": ("NH3", "N"), "nh4": ("NH4", "N"), "po4": ("PO4", "P")}


@pytest.mark.parametrize("ion", FORMULA)
def test_ion_element_and_amount(ion):
    whole, element = (periodictable.formula(text).mass * UNITS.g / UNITS.mol for text in FORMULA[ion])
    moles = (10 * UNITS.mg / UNITS.l) / whole
    record(f"{FORMULA[ion][0]} as {FORMULA[ion][1]}, mg/L", SOURCE, n.element_from_ion(ion, 10),
           (moles * element).m_as("mg/l"), 1e-5, relative=True)  # fmt: skip
    record(f"{FORMULA[ion][0]}, µmol/L", SOURCE, n.umol_l_from_mg_l(ion, 10), moles.m_as("umol/l"), 1e-5, relative=True)


@pytest.mark.parametrize(("ion", "umol_l", "mg_l"), [("no3", 4.51, 0.280), ("po4", 0.63, 0.0598)])
def test_field_limits_of_reefs(ion, umol_l, mg_l):
    # Guan, Hohn & Merico 2015, PLoS ONE 10(6) e0128831: upper bounds of nitrate and phosphate of reef waters.
    record(f"{FORMULA[ion][0]}, mg/L of µmol/L", "Guan et al. 2015, limits rounded to three digits",
           n.mg_l_from_umol_l(ion, umol_l), mg_l, 0.002, relative=True)  # fmt: skip
