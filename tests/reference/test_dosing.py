"""Doses against a mole balance made with pint and periodictable; their effect on pH against PyCO2SYS."""

import warnings

import gsw
import periodictable
import pint
import pytest

from tests.reference.deviations import record
from webapp.science import dosing
from webapp.science.alkalinity import umol_kg_from_dkh
from webapp.science.carbonate import carbonate_system

with warnings.catch_warnings():  # it and its autodiff library touch parts of numpy that newer versions deprecate
    warnings.simplefilter("ignore")
    import PyCO2SYS

UNITS = pint.UnitRegistry()
MASSES = "pint with masses of periodictable"
FORMULA = {
    "sodium_bicarbonate": "NaHCO3",
    "sodium_carbonate": "Na2CO3",
    "calcium_chloride_dihydrate": "CaCl2(H2O)2",
    "magnesium_chloride_hexahydrate": "MgCl2(H2O)6",
}


def mass(formula):
    return periodictable.formula(formula).mass * UNITS.g / UNITS.mol


def moles_for(salt, rise):
    """Moles of salt per litre for a rise, from the definition of the degree and the formula alone."""
    if salt.startswith("sodium"):
        equivalents = 2 * rise * (10 * UNITS.mg / UNITS.l) / mass("CaO")
        return equivalents / (1 if salt == "sodium_bicarbonate" else 2)
    return rise * (UNITS.mg / UNITS.l) / mass("Ca" if salt.startswith("calcium") else "Mg")


@pytest.mark.parametrize("rise", [0.3, 1.0, 12.0])
@pytest.mark.parametrize("salt", FORMULA)
def test_grams_by_mole_balance(salt, rise):
    theirs = (moles_for(salt, rise) * (200 * UNITS.l) * mass(FORMULA[salt])).m_as("g")
    record(f"Dose of {FORMULA[salt]}, g", MASSES, dosing.dose_g(salt, 200, rise), theirs, 1e-4, relative=True)


@pytest.mark.parametrize("salt", FORMULA)
def test_molar_masses(salt):
    theirs = periodictable.formula(FORMULA[salt]).mass
    record(f"Molar mass of {FORMULA[salt]}, g/mol", "periodictable", dosing.SALTS[salt].molar_mass, theirs, 1e-4,
           relative=True)  # fmt: skip


def test_calcium_that_goes_with_alkalinity():
    theirs = (10 * UNITS.mg / UNITS.l / mass("CaO") * mass("Ca")).m_as("mg/l")
    record("Calcium used per dKH, mg/L", MASSES, dosing.calcium_used_mg_l(1), theirs, 1e-5, relative=True)


@pytest.mark.parametrize(("salt", "alk_per_carbon"), [("sodium_bicarbonate", 1), ("sodium_carbonate", 2)])
def test_ph_just_after_an_alkalinity_dose(salt, alk_per_carbon):
    before = carbonate_system(7.0, 8.1, 35, 25)
    grams = dosing.dose_g(salt, 100, 1.5)
    after = dosing.side_effects(salt, 100, grams, alk_dkh=7.0, ph_nbs=8.1, salinity=35, temp_c=25)
    added = umol_kg_from_dkh(1.5, 35, 25)
    theirs = PyCO2SYS.sys(
        umol_kg_from_dkh(8.5, 35, 25), before.dic_umol_kg + added / alk_per_carbon, 1, 2,
        salinity=35, temperature=25, opt_k_carbonic=10, opt_k_bisulfate=1, opt_total_borate=1, opt_k_fluoride=1,
    )  # fmt: skip
    record("pH (NBS) just after an alkalinity dose", "PyCO2SYS 1.8", after.ph_nbs_after, float(theirs["pH_nbs"]), 1e-3)


def test_salinity_after_a_dose():
    grams = dosing.dose_g("calcium_chloride_dihydrate", 100, 100)
    ours = dosing.side_effects(
        "calcium_chloride_dihydrate", 100, grams, alk_dkh=8, ph_nbs=8.2, salinity=35, temp_c=25
    ).salinity_rise
    solute_g = grams * periodictable.formula("CaCl2").mass / periodictable.formula("CaCl2(H2O)2").mass
    water_kg = 100 * gsw.rho_t_exact(gsw.SR_from_SP(35), 25, 0) / 1000
    absolute = (water_kg * gsw.SR_from_SP(35) + solute_g) / (water_kg + solute_g / 1000)
    record("Salinity rise of a calcium dose", "salt balance with gsw", ours, gsw.SP_from_SR(absolute) - 35, 1e-6)
