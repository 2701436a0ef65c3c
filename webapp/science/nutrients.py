"""Nitrate, nitrite, phosphate and ammonia: as the ion, as the element, as amount of substance."""

from dataclasses import dataclass

from webapp.science.molar_mass import ATOMIC_WEIGHT, molar_mass_g_mol
from webapp.science.ranges import within

MG_L_MAX = 1e6


@dataclass(frozen=True)
class Ion:
    """A dissolved species, its molar mass (g/mol) and that of the element a kit may report it as."""

    molar_mass: float
    element: float


IONS = {
    "no3": Ion(molar_mass_g_mol(N=1, O=3), ATOMIC_WEIGHT["N"]),
    "no2": Ion(molar_mass_g_mol(N=1, O=2), ATOMIC_WEIGHT["N"]),
    "nh3": Ion(molar_mass_g_mol(N=1, H=3), ATOMIC_WEIGHT["N"]),
    "nh4": Ion(molar_mass_g_mol(N=1, H=4), ATOMIC_WEIGHT["N"]),
    "po4": Ion(molar_mass_g_mol(P=1, O=4), ATOMIC_WEIGHT["P"]),
}


def ion_from_element(ion: str, element_mg_l: float) -> float:
    """mg/L of `ion` (a key of IONS) when a kit reports `element_mg_l` (mg/L) of its N or P.

    Range: 0 to 1e6 mg/L. Equation: times M(ion)/M(element); NO3/N 4.4266, PO4/P 3.0661. Source: iupac_2021.
    """
    of = _ion(ion)
    return within("element_mg_l", element_mg_l, 0, MG_L_MAX) * of.molar_mass / of.element


def element_from_ion(ion: str, mg_l: float) -> float:
    """mg/L of the N or P in `mg_l` (mg/L) of `ion` (a key of IONS).

    Range: 0 to 1e6 mg/L. Equation: inverse of `ion_from_element`. Source: iupac_2021.
    """
    of = _ion(ion)
    return within("mg_l", mg_l, 0, MG_L_MAX) * of.element / of.molar_mass


def mg_l_from_umol_l(ion: str, umol_l: float) -> float:
    """mg/L of `ion` (a key of IONS) in `umol_l` (µmol/L).

    Range: 0 to 1e6 µmol/L. Equation: times molar mass / 1000. Source: iupac_2021.
    """
    return _ion(ion).molar_mass * within("umol_l", umol_l, 0, MG_L_MAX) / 1000


def umol_l_from_mg_l(ion: str, mg_l: float) -> float:
    """µmol/L in `mg_l` (mg/L) of `ion` (a key of IONS).

    Range: 0 to 1e6 mg/L. Equation: inverse of `mg_l_from_umol_l`. Source: iupac_2021.
    """
    return within("mg_l", mg_l, 0, MG_L_MAX) * 1000 / _ion(ion).molar_mass


def _ion(ion: str) -> Ion:
    if ion not in IONS:
        raise ValueError(f"ion {ion!r} is not one of {', '.join(IONS)}")
    return IONS[ion]
