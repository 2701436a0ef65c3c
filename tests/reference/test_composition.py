"""The composition of reference sea water against the checks its paper allows and its rounded seawater values."""

import periodictable
import pytest

from tests.reference.deviations import record
from webapp.science.alkalinity import umol_kg_from_dkh
from webapp.science.composition import MEAN_G_MOL, MOLE_FRACTION, natural_water
from webapp.science.salinity import density_kg_l

SOURCE = "Millero et al. 2008"
FORMULA = {"B(OH)4": "BO4H4", "B(OH)3": "BO3H3"}
CHARGE = {
    "Na": 1, "Mg": 2, "Ca": 2, "K": 1, "Sr": 2, "Cl": -1, "SO4": -2, "HCO3": -1, "Br": -1, "CO3": -2, "B(OH)4": -1,
    "F": -1, "OH": -1,
}  # fmt: skip


def test_the_table_is_written_down_rightly():
    record("Sum of mole fractions of sea salt", SOURCE, sum(MOLE_FRACTION.values()), 1, 1e-12)
    charge = sum(MOLE_FRACTION[ion] * charge for ion, charge in CHARGE.items())
    record("Charge of sea salt", SOURCE, charge, 0, 1e-12)
    mean = sum(share * periodictable.formula(FORMULA.get(ion, ion)).mass for ion, share in MOLE_FRACTION.items())
    # The paper's atomic weights are older: its chlorine is 35.453, today's 35.45.
    record("Mean molar mass of sea salt, g/mol", f"masses of periodictable, {SOURCE}", mean, MEAN_G_MOL, 1e-4,
           relative=True)  # fmt: skip


@pytest.mark.parametrize(("part", "element", "mmol_kg"), [("ca_mg_l", "Ca", 10.28), ("mg_mg_l", "Mg", 52.82)])
def test_calcium_and_magnesium_of_standard_sea_water(part, element, mmol_kg):
    # Dickson, Sabine & Christian 2007, table of sea water of S 35: Ca 0.01028, Mg 0.05282 mol/kg.
    ours = getattr(natural_water(35, 25), part) / periodictable.formula(element).mass / density_kg_l(35, 25)
    source = "Dickson, Sabine & Christian 2007, composition at S 35"
    record(f"{element} of sea water, mmol/kg", source, ours, mmol_kg, 5e-3)


def test_alkalinity_is_what_the_strong_ions_leave_over():
    # Electroneutrality: the charge of the strong ions equals the alkalinity (Wolf-Gladrow et al. 2007).
    strong = ("Na", "Mg", "Ca", "K", "Sr", "Cl", "SO4", "Br", "F")
    mol_kg = 35.16504 / MEAN_G_MOL
    left_over = sum(MOLE_FRACTION[ion] * CHARGE[ion] for ion in strong) * mol_kg * 1e6
    ours = umol_kg_from_dkh(natural_water(35, 25).alk_dkh, 35, 25)
    record("Alkalinity of sea water of S 35, µmol/kg", "charge of the strong ions (Wolf-Gladrow et al. 2007)", ours,
           left_over, 1e-6)  # fmt: skip


def test_alkalinity_of_standard_sea_water():
    # About 2300 µmol/kg is the usual alkalinity of the surface ocean at S 35.
    ours = umol_kg_from_dkh(natural_water(35, 25).alk_dkh, 35, 25)
    record("Alkalinity of sea water of S 35, µmol/kg", "surface sea water, rounded (memory)", ours, 2300, 50)
