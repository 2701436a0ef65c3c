"""Alkalinity units against pint and periodictable."""

import gsw
import periodictable
import pint
import pytest

from tests.reference.deviations import record
from webapp.science import alkalinity as a

UNITS = pint.UnitRegistry()
CAO = periodictable.formula("CaO").mass * UNITS.g / UNITS.mol
CACO3 = periodictable.formula("CaCO3").mass * UNITS.g / UNITS.mol
SOURCE = "pint with masses of periodictable"


@pytest.mark.parametrize("dkh", [3, 6, 8, 9.5, 12, 20])
def test_units_of_alkalinity(dkh):
    # A German degree is 10 mg CaO per litre, a French one 10 mg CaCO3; CaO and CaCO3 take up two equivalents.
    moles = dkh * (10 * UNITS.mg / UNITS.l) / CAO
    record("Alkalinity, meq/L", SOURCE, a.meq_l_from_dkh(dkh), 2 * moles.m_as("mmol/l"), 1e-5, relative=True)
    record("Alkalinity, mg/L CaCO3", SOURCE, a.ppm_caco3_from_dkh(dkh), (moles * CACO3).m_as("mg/l"), 1e-5,
           relative=True)  # fmt: skip
    record("Alkalinity, French degrees", SOURCE, a.fdh_from_dkh(dkh), (moles * CACO3).m_as("mg/l") / 10, 1e-5,
           relative=True)  # fmt: skip


@pytest.mark.parametrize(("salinity", "temp_c"), [(35, 25), (35, 20), (30, 26), (38, 28)])
def test_alkalinity_per_kilogram(salinity, temp_c):
    density = gsw.rho(gsw.SR_from_SP(salinity), gsw.CT_from_t(gsw.SR_from_SP(salinity), temp_c, 0), 0)
    moles = 2 * 8 * (10 * UNITS.mg / UNITS.l) / CAO / (density * UNITS.kg / UNITS.m**3)
    record("Alkalinity, µmol/kg", "pint, periodictable and the 75-term density of gsw",
           a.umol_kg_from_dkh(8, salinity, temp_c), moles.m_as("umol/kg"), 1e-5, relative=True)  # fmt: skip


def test_the_degree_in_tables_of_water_hardness():
    # 1 °dH is 17.848 mg/L CaCO3 and 0.3566 meq/L.
    source = "usual table of hardness units (memory)"
    record("Alkalinity of 1 dKH, meq/L", source, a.meq_l_from_dkh(1), 0.3566, 1e-4)
    record("Alkalinity of 1 dKH, mg/L CaCO3", source, a.ppm_caco3_from_dkh(1), 17.848, 1e-3)
