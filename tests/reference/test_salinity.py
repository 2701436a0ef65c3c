"""Salinity against PSS-78 and UNESCO check values, the EOS-80 library, and refractive index of sea water."""

import warnings

import gsw
import pytest

from tests.reference.deviations import record
from webapp.science import salinity as s

with warnings.catch_warnings():  # the EOS-80 library warns on import that it is superseded; that is why it is the check
    warnings.filterwarnings("ignore", message="The seawater library is deprecated", category=UserWarning)
    import seawater

T90 = 1 / 1.00024  # the published tables are on IPTS-68
UNESCO = "UNESCO Tech. Pap. Mar. Sci. 36 and 44 (EOS-80; Millero & Poisson 1981)"
LIBRARY = "seawater 3.3 (EOS-80, PSS-78)"
SALINITIES = (20, 25, 30, 33, 35, 36, 38, 40)
TEMPS = (18.0, 20.0, 24.0, 25.0, 26.0, 28.0, 30.0)


def test_practical_salinity_of_the_standard():
    # Lewis 1980: a conductivity ratio of 1 at 15 °C is salinity 35 by definition; C(35, 15, 0) = 42.914 mS/cm.
    ours = s.salinity_from_conductivity(42.914, 15 * T90)
    record("Practical salinity", "definition of PSS-78 (Lewis 1980), C(35, 15 °C) = 42.914 mS/cm", ours, 35, 1e-4)


@pytest.mark.parametrize(
    ("ratio", "t68", "dbar", "published"),
    [(1.2, 20, 2000, 37.245628), (0.65, 5, 1500, 27.995347), (1.888091, 40, 10000, 40.0)],
)
def test_the_library_behind_our_salinity_gives_the_unesco_check_values(ratio, t68, dbar, published):
    # Fofonoff & Millard 1983, UNESCO 44, p. 9 (under pressure, which a shop does not have; hence the library itself).
    ours = gsw.SP_from_C(ratio * 42.914, t68 * T90, dbar)
    record("Practical salinity of gsw under pressure", "UNESCO Tech. Pap. Mar. Sci. 44, p. 9", ours, published, 5e-6)


@pytest.mark.parametrize("temp_c", TEMPS)
@pytest.mark.parametrize("salinity", SALINITIES)
def test_salinity_from_conductivity_agrees_with_the_other_library(salinity, temp_c):
    ms_cm = s.conductivity_ms_cm(salinity, temp_c)
    theirs = seawater.salt(ms_cm / seawater.constants.c3515, temp_c, 0)
    record("Practical salinity from conductivity", LIBRARY, s.salinity_from_conductivity(ms_cm, temp_c), theirs, 1e-4)


def test_absolute_salinity():
    # Millero, Feistel, Wright & McDougall 2008: reference salinity of S = 35.
    record("Reference salinity, g/kg", "Millero et al. 2008", s.absolute_from_practical(35), 35.16504, 1e-9)


@pytest.mark.parametrize(
    ("salinity", "t68", "published"), [(0, 5, 999.96675), (35, 5, 1027.67547), (35, 25, 1023.34306), (0, 25, 997.04796)]
)
def test_density_against_the_unesco_check_values(salinity, t68, published):
    record("Density, kg/L", UNESCO, s.density_kg_l(salinity, t68 * T90), published / 1000, 1e-5)


@pytest.mark.parametrize("temp_c", TEMPS)
@pytest.mark.parametrize("salinity", (0, *SALINITIES))
def test_density_agrees_with_the_other_library(salinity, temp_c):
    record("Density, kg/L", LIBRARY, s.density_kg_l(salinity, temp_c), seawater.dens0(salinity, temp_c) / 1000, 1e-5)


@pytest.mark.parametrize("reference_c", [20.0, 25.0, s.SIXTY_FAHRENHEIT_C, 4.0])
@pytest.mark.parametrize("temp_c", TEMPS)
@pytest.mark.parametrize("salinity", SALINITIES)
def test_specific_gravity_agrees_with_the_other_library(salinity, temp_c, reference_c):
    theirs = seawater.dens0(salinity, temp_c) / seawater.dens0(0, reference_c)
    record("Specific gravity", LIBRARY, s.sg_from_salinity(salinity, temp_c, reference_c), theirs, 1e-5)
    record("Practical salinity from specific gravity", LIBRARY, s.salinity_from_sg(theirs, temp_c, reference_c),
           salinity, 0.01)  # fmt: skip


@pytest.mark.parametrize(("temp_c", "index"), [(20, 1.332986), (25, 1.332503)])
def test_refractive_index_of_pure_water(temp_c, index):
    # IAPWS R9-97 (1.333349 at 20 °C, 1.332865 at 25 °C, 589.3 nm) over the index of air, 1.000272.
    ours = s.refractive_index(0, temp_c)
    record("Refractive index of water at 589.3 nm", "IAPWS R9-97, relative to air", ours, index, 4e-5)


@pytest.mark.parametrize(("temp_c", "index"), [(10, 1.3337), (20, 1.3330), (30, 1.3319)])
def test_refractive_index_of_pure_water_in_tables(temp_c, index):
    record("Refractive index of water at 589.3 nm", "tables of physical constants, four decimals",
           s.refractive_index(0, temp_c), index, 1e-4)  # fmt: skip


def test_refractive_index_of_sea_water():
    record("Refractive index of sea water at 589.3 nm", "S 35 at 20 °C is 1.3394 (memory, usual refractometer table)",
           s.refractive_index(35, 20), 1.3394, 5e-5)  # fmt: skip
