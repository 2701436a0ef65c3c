"""What natural sea water of a given salinity holds: the yardstick for 'low because the water is dilute'."""

from dataclasses import dataclass

from webapp.science.alkalinity import dkh_from_umol_kg
from webapp.science.molar_mass import ATOMIC_WEIGHT
from webapp.science.ranges import within
from webapp.science.salinity import SALINITY_MAX, absolute_from_practical, density_kg_l

# Mole fractions of the solute of reference sea water, and its mean molar mass. Source: millero_2008, table 4.
MOLE_FRACTION = {
    "Na": 0.4188071, "Mg": 0.0471678, "Ca": 0.0091823, "K": 0.0091159, "Sr": 0.0000810, "Cl": 0.4874839,
    "SO4": 0.0252152, "HCO3": 0.0015340, "Br": 0.0007520, "CO3": 0.0002134, "B(OH)4": 0.0000900, "F": 0.0000610,
    "OH": 0.0000071, "B(OH)3": 0.0002807, "CO2": 0.0000086,
}  # fmt: skip
MEAN_G_MOL = 31.4038218
ALKALINITY_CHARGE = {"HCO3": 1, "CO3": 2, "B(OH)4": 1, "OH": 1}


@dataclass(frozen=True)
class NaturalWater:
    """Calcium and magnesium (mg/L) and alkalinity (dKH) of natural sea water."""

    ca_mg_l: float
    mg_mg_l: float
    alk_dkh: float


def natural_water(salinity: float, temp_c: float) -> NaturalWater:
    """Calcium, magnesium and alkalinity of natural sea water of practical `salinity` at `temp_c` (°C).

    Range: salinity 0 to 45, 0 to 40 °C. Not an aim for a tank: salt mixes are made richer. Equation: mole fraction
    times absolute salinity over the mean molar mass of the solute. Source: millero_2008; teos10_2010.
    """
    within("salinity", salinity, 0, SALINITY_MAX)
    mol_kg = absolute_from_practical(salinity) / MEAN_G_MOL
    mmol_l = mol_kg * density_kg_l(salinity, temp_c) * 1000
    alkalinity = sum(MOLE_FRACTION[ion] * charge for ion, charge in ALKALINITY_CHARGE.items())
    return NaturalWater(
        ca_mg_l=MOLE_FRACTION["Ca"] * mmol_l * ATOMIC_WEIGHT["Ca"],
        mg_mg_l=MOLE_FRACTION["Mg"] * mmol_l * ATOMIC_WEIGHT["Mg"],
        alk_dkh=dkh_from_umol_kg(alkalinity * mol_kg * 1e6, salinity, temp_c),
    )
