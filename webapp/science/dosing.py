"""Grams of a salt for a rise of alkalinity, calcium or magnesium, and what else that dose does."""

from dataclasses import dataclass

from webapp.science.alkalinity import MEQ_L_PER_DKH
from webapp.science.carbonate import carbonate_system, ph_nbs_at_dic
from webapp.science.molar_mass import ATOMIC_WEIGHT, molar_mass_g_mol
from webapp.science.ranges import above, within
from webapp.science.salinity import absolute_from_practical, density_kg_l, practical_from_absolute

CA_MG_L_PER_DKH = MEQ_L_PER_DKH / 2 * ATOMIC_WEIGHT["Ca"]  # used up together when CaCO3 is laid down: 7.147
RISE_MAX = {"alk": 20.0, "ca": 1000.0, "mg": 2000.0}


@dataclass(frozen=True)
class Salt:
    """A dosing salt. One mole weighs `molar_mass` g and raises `quantity` by `per_mol` (dKH·L for alk, else mg).

    `solute` is what it leaves in the water without crystal water (g/mol); `sodium`, `chloride`, `carbon` are mol/mol.
    """

    formula: str
    quantity: str
    molar_mass: float
    per_mol: float
    solute: float
    sodium: int = 0
    chloride: int = 0
    carbon: int = 0
    cautions: tuple[str, ...] = ()


_WATER = molar_mass_g_mol(H=2, O=1)
_CACL2 = molar_mass_g_mol(Ca=1, Cl=2)
_MGCL2 = molar_mass_g_mol(Mg=1, Cl=2)
_NAHCO3 = molar_mass_g_mol(Na=1, H=1, C=1, O=3)
_NA2CO3 = molar_mass_g_mol(Na=2, C=1, O=3)
_DKH_L_PER_EQ = 1000 / MEQ_L_PER_DKH

SALTS = {
    "sodium_bicarbonate": Salt(
        "NaHCO3", "alk", _NAHCO3, _DKH_L_PER_EQ, _NAHCO3, sodium=1, carbon=1, cautions=("apart_from_calcium",)
    ),
    "sodium_carbonate": Salt(
        "Na2CO3", "alk", _NA2CO3, 2 * _DKH_L_PER_EQ, _NA2CO3, sodium=2, carbon=1,
        cautions=("apart_from_calcium", "raises_ph", "irritates_eyes"),
    ),
    "calcium_chloride_dihydrate": Salt(
        "CaCl2·2H2O", "ca", _CACL2 + 2 * _WATER, ATOMIC_WEIGHT["Ca"] * 1000, _CACL2, chloride=2,
        cautions=("apart_from_alkalinity", "heats_when_dissolved", "irritates_eyes"),
    ),
    "magnesium_chloride_hexahydrate": Salt(
        "MgCl2·6H2O", "mg", _MGCL2 + 6 * _WATER, ATOMIC_WEIGHT["Mg"] * 1000, _MGCL2, chloride=2,
        cautions=("apart_from_alkalinity",),
    ),
}  # fmt: skip


@dataclass(frozen=True)
class SideEffects:
    """What else a dose does: rises in the whole volume; `ph_nbs_after` just after mixing, before the air evens it out.

    `ph_nbs_after` is None for salts that leave alkalinity and carbon as they are.
    """

    salinity_rise: float
    sodium_mg_l: float
    chloride_mg_l: float
    ph_nbs_after: float | None


def dose_g(salt: str, volume_l: float, rise: float, *, purity: float = 1.0) -> float:
    """Grams of `salt` (a key of SALTS) that raise `volume_l` (L) by `rise` (dKH, or mg/L of Ca or Mg).

    Range: volume above 0, rise 0 to 20 dKH, 1000 mg/L Ca, 2000 mg/L Mg; purity (mass fraction) 0.3 to 1. This is the
    chemistry, not a safe step: a large rise has to be spread over days. Equation: volume · rise · M / per_mol / purity.
    Source: iupac_2021.
    """
    of = _salt(salt)
    within("rise", rise, 0, RISE_MAX[of.quantity])
    within("purity", purity, 0.3, 1)
    return above("volume_l", volume_l, 0) * rise * of.molar_mass / of.per_mol / purity


def rise_from_dose(salt: str, volume_l: float, grams: float, *, purity: float = 1.0) -> float:
    """Rise (dKH, or mg/L of Ca or Mg) that `grams` of `salt` make in `volume_l` (L).

    Range: as `dose_g`; grams 0 or more. Equation: inverse of `dose_g`. Source: iupac_2021.
    """
    one = dose_g(salt, volume_l, 1.0, purity=purity)
    return within("grams", grams, 0, one * RISE_MAX[SALTS[salt].quantity]) / one


def side_effects(
    salt: str,
    volume_l: float,
    grams: float,
    *,
    alk_dkh: float,
    ph_nbs: float,
    salinity: float,
    temp_c: float,
    purity: float = 1.0,
) -> SideEffects:
    """What `grams` of `salt` in `volume_l` (L) do besides their purpose, in water of the given state.

    Range: as `dose_g` and `carbonate_system`. Equation: solute without crystal water over the mass of water gives the
    salinity; sodium and chloride by formula; pH from the new alkalinity and dissolved carbon. Impurities are left out.
    Source: iupac_2021; dickson_2007.
    """
    of = _salt(salt)
    rise = rise_from_dose(salt, volume_l, grams, purity=purity)
    mol_l = grams * purity / of.molar_mass / volume_l
    density = density_kg_l(salinity, temp_c)
    absolute = absolute_from_practical(salinity)
    added_g_kg = mol_l * of.solute / density
    after = (absolute + added_g_kg) / (1 + added_g_kg / 1000)
    ph_after = None
    if of.quantity == "alk":
        dic = carbonate_system(alk_dkh, ph_nbs, salinity, temp_c).dic_umol_kg + mol_l * of.carbon * 1e6 / density
        ph_after = ph_nbs_at_dic(alk_dkh + rise, dic, salinity, temp_c)
    return SideEffects(
        salinity_rise=practical_from_absolute(after) - salinity,
        sodium_mg_l=mol_l * of.sodium * ATOMIC_WEIGHT["Na"] * 1000,
        chloride_mg_l=mol_l * of.chloride * ATOMIC_WEIGHT["Cl"] * 1000,
        ph_nbs_after=ph_after,
    )


def calcium_used_mg_l(alk_used_dkh: float) -> float:
    """Calcium (mg/L) that goes into skeleton together with `alk_used_dkh` (dKH) of alkalinity: 7.147 per dKH.

    Range: 0 to 20 dKH. Equation: CaCO3 takes two equivalents per calcium. Source: iupac_2021.
    """
    return within("alk_used_dkh", alk_used_dkh, 0, RISE_MAX["alk"]) * CA_MG_L_PER_DKH


def _salt(salt: str) -> Salt:
    if salt not in SALTS:
        raise ValueError(f"salt {salt!r} is not one of {', '.join(SALTS)}")
    return SALTS[salt]
