"""Units that are plain factors, against pint; the rest are checked with their own quantity."""

import pint
import pytest

from tests.reference.deviations import record
from webapp.science.units import to_canonical

UNITS = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("quantity", "value", "unit", "theirs"),
    [
        ("temp", 78.0, "f", UNITS.Quantity(78.0, "degF").m_as("degC")),
        ("temp", 32.0, "f", UNITS.Quantity(32.0, "degF").m_as("degC")),
        ("volume", 55.0, "gal_us", UNITS.Quantity(55.0, "US_liquid_gallon").m_as("liter")),
        ("volume", 55.0, "gal_imp", UNITS.Quantity(55.0, "imperial_gallon").m_as("liter")),
        ("length", 24.0, "in", UNITS.Quantity(24.0, "inch").m_as("cm")),
    ],
)
def test_plain_factors(quantity, value, unit, theirs):
    record(f"{quantity} from {unit}", "pint", to_canonical(quantity, value, unit), theirs, 1e-9)


@pytest.mark.parametrize(
    ("sg", "published"), [(1.020, 26.6), (1.022, 29.2), (1.024, 31.9), (1.025, 33.2), (1.026, 34.5), (1.0264, 35.0)]
)
def test_specific_gravity_in_tables(sg, published):
    # Widely printed reef-keeping table for 25/25 °C (common practice), one decimal.
    record("Salinity of an SG at 25/25 °C", "printed tables, one decimal", to_canonical("salinity", sg, "sg_25"),
           published, 0.06)  # fmt: skip


def test_conductivity_of_standard_sea_water():
    # 53.0 mS/cm at 25 °C is the figure printed for water of 35 (Lewis 1980 scale gives 53.07).
    record("Salinity of 53.07 mS/cm at 25 °C", "PSS-78", to_canonical("salinity", 53.07, "ms_cm_25"), 35.0, 0.002)
