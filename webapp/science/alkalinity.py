"""Alkalinity units. 1 dKH (German degree) is the alkalinity of 10 mg CaO in a litre."""

from webapp.science.molar_mass import molar_mass_g_mol
from webapp.science.ranges import within
from webapp.science.salinity import density_kg_l

CAO_G_MOL = molar_mass_g_mol(Ca=1, O=1)
CACO3_G_MOL = molar_mass_g_mol(Ca=1, C=1, O=3)
MEQ_L_PER_DKH = 10 / (CAO_G_MOL / 2)  # 0.35665
PPM_CACO3_PER_MEQ_L = CACO3_G_MOL / 2  # 50.043
PPM_CACO3_PER_FDH = 10.0  # a French degree is 10 mg CaCO3 in a litre
DKH_MAX = 100.0


def meq_l_from_dkh(dkh: float) -> float:
    """Alkalinity in meq/L (= mmol/L of charge) of `dkh` (dKH).

    Range: 0 to 100 dKH. Equation: dKH · 20 / M(CaO). Source: definition; iupac_2021.
    """
    return within("dkh", dkh, 0, DKH_MAX) * MEQ_L_PER_DKH


def dkh_from_meq_l(meq_l: float) -> float:
    """Alkalinity in dKH of `meq_l` (meq/L).

    Range: 0 to 35.66 meq/L. Equation: inverse of `meq_l_from_dkh`. Source: definition; iupac_2021.
    """
    return within("meq_l", meq_l, 0, DKH_MAX * MEQ_L_PER_DKH) / MEQ_L_PER_DKH


def ppm_caco3_from_dkh(dkh: float) -> float:
    """Alkalinity as mg CaCO3 per litre ("ppm") of `dkh` (dKH).

    Range: 0 to 100 dKH. Equation: meq/L · M(CaCO3) / 2. Source: definition; iupac_2021.
    """
    return meq_l_from_dkh(dkh) * PPM_CACO3_PER_MEQ_L


def dkh_from_ppm_caco3(ppm_caco3: float) -> float:
    """Alkalinity in dKH of `ppm_caco3` (mg CaCO3 per litre).

    Range: 0 to 1784 mg/L. Equation: inverse of `ppm_caco3_from_dkh`. Source: definition; iupac_2021.
    """
    return within("ppm_caco3", ppm_caco3, 0, ppm_caco3_from_dkh(DKH_MAX)) / PPM_CACO3_PER_MEQ_L / MEQ_L_PER_DKH


def fdh_from_dkh(dkh: float) -> float:
    """Alkalinity in French degrees of `dkh` (dKH).

    Range: 0 to 100 dKH. Equation: mg CaCO3 per litre / 10. Source: definition; iupac_2021.
    """
    return ppm_caco3_from_dkh(dkh) / PPM_CACO3_PER_FDH


def dkh_from_fdh(fdh: float) -> float:
    """Alkalinity in dKH of `fdh` (French degrees).

    Range: 0 to 178.4 French degrees. Equation: inverse of `fdh_from_dkh`. Source: definition; iupac_2021.
    """
    within("fdh", fdh, 0, fdh_from_dkh(DKH_MAX))
    return dkh_from_ppm_caco3(fdh * PPM_CACO3_PER_FDH)


def umol_kg_from_dkh(dkh: float, salinity: float, temp_c: float) -> float:
    """Alkalinity in µmol per kg of sea water of `dkh` (dKH), measured in a litre at `temp_c` (°C).

    Range: 0 to 100 dKH, salinity 0 to 45, 0 to 40 °C. Equation: meq/L · 1000 / density. Source: definition;
    teos10_2010.
    """
    return meq_l_from_dkh(dkh) * 1000 / density_kg_l(salinity, temp_c)


def dkh_from_umol_kg(umol_kg: float, salinity: float, temp_c: float) -> float:
    """Alkalinity in dKH, in a litre at `temp_c` (°C), of `umol_kg` (µmol per kg of sea water).

    Range: results of 0 to 100 dKH, salinity 0 to 45, 0 to 40 °C. Equation: inverse of `umol_kg_from_dkh`.
    Source: definition; teos10_2010.
    """
    within("umol_kg", umol_kg, 0, umol_kg_from_dkh(DKH_MAX, salinity, temp_c))
    return umol_kg / 1000 * density_kg_l(salinity, temp_c) / MEQ_L_PER_DKH
