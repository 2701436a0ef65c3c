"""Molar masses, from the abridged standard atomic weights."""

# g/mol. Source: iupac_2021 (H, C, O, Cl: the conventional value of the interval).
ATOMIC_WEIGHT = {
    "H": 1.008,
    "C": 12.011,
    "N": 14.007,
    "O": 15.999,
    "Na": 22.98977,
    "Mg": 24.305,
    "P": 30.973762,
    "Cl": 35.45,
    "Ca": 40.078,
}


def molar_mass_g_mol(**atoms: float) -> float:
    """Molar mass in g/mol of a formula given as atom counts, e.g. molar_mass_g_mol(Ca=1, C=1, O=3).

    Range: the elements of ATOMIC_WEIGHT; another one, or a negative count, raises ValueError naming it.
    Equation: sum of count times atomic weight. Source: iupac_2021.
    """
    for element, count in atoms.items():
        if element not in ATOMIC_WEIGHT or count < 0:
            raise ValueError(f"{element} {count:g}: no such element here, or a negative count")
    return sum(ATOMIC_WEIGHT[element] * count for element, count in atoms.items())
