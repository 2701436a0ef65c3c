"""Salinity of sea water: practical and absolute, density, specific gravity, conductivity, refractive index.

`salinity` is practical salinity (PSS-78) everywhere: a number without a unit that shops call "ppt". Absolute
salinity in g/kg is 0.47 % higher: 35 practical is 35.165 g/kg. Atmospheric pressure throughout.
"""

import gsw

from webapp.science.ranges import within
from webapp.science.roots import invert

SALINITY_MAX = 45.0
TEMP_C = (0.0, 40.0)
PSS78 = (2.0, 42.0)
SODIUM_D_NM = 589.3
SIXTY_FAHRENHEIT_C = (60 - 32) / 1.8


def absolute_from_practical(salinity: float) -> float:
    """Absolute (reference) salinity in g/kg of practical `salinity`.

    Range: salinity 0 to 45. Equation: S_R = 35.16504/35 times S_P. An artificial salt mix is treated as reference
    sea water, as nothing else is known about it. Source: millero_2008.
    """
    return float(gsw.SR_from_SP(within("salinity", salinity, 0, SALINITY_MAX)))


def practical_from_absolute(absolute_g_kg: float) -> float:
    """Practical salinity of absolute (reference) salinity in g/kg.

    Range: 0 to 45.2 g/kg. Equation: inverse of `absolute_from_practical`. Source: millero_2008.
    """
    return float(gsw.SP_from_SR(within("absolute_g_kg", absolute_g_kg, 0, absolute_from_practical(SALINITY_MAX))))


def density_kg_l(salinity: float, temp_c: float) -> float:
    """Density in kg/L of sea water of practical `salinity` at `temp_c` (°C).

    Range: salinity 0 to 45, 0 to 40 °C. Equation: TEOS-10 Gibbs function. Source: teos10_2010.
    """
    within("temp_c", temp_c, *TEMP_C)
    return float(gsw.rho_t_exact(absolute_from_practical(salinity), temp_c, 0)) / 1000


def sg_from_salinity(salinity: float, temp_c: float, reference_c: float) -> float:
    """Specific gravity that a hydrometer marked for `reference_c` (°C) shows in water at `temp_c` (°C).

    Range: salinity 0 to 45, both temperatures 0 to 40 °C. Equation: density(S, temp_c) / density(0, reference_c).
    The expansion of the glass is left out: below 0.0001 over ±4 °C. Source: definition; teos10_2010.
    """
    within("reference_c", reference_c, *TEMP_C)
    return density_kg_l(salinity, temp_c) / density_kg_l(0, reference_c)


def salinity_from_sg(sg: float, temp_c: float, reference_c: float) -> float:
    """Practical salinity of water at `temp_c` (°C) in which a hydrometer marked for `reference_c` (°C) shows `sg`.

    Range: readings of salinity 0 to 45, both temperatures 0 to 40 °C. Equation: inverse of `sg_from_salinity`.
    Source: definition; teos10_2010.
    """
    low, high = (sg_from_salinity(s, temp_c, reference_c) for s in (0, SALINITY_MAX))
    reference = density_kg_l(0, reference_c)
    return invert(lambda s: density_kg_l(s, temp_c) / reference, within("sg", sg, low, high), 0, SALINITY_MAX)


def conductivity_ms_cm(salinity: float, temp_c: float) -> float:
    """Conductivity in mS/cm of sea water at `temp_c` (°C).

    Range: salinity 2 to 42, 0 to 35 °C. Equation: PSS-78 with C(35, 15 °C) = 42.914 mS/cm. For a meter that
    compensates to 25 °C, temp_c is 25. Source: lewis_1980; unesco_44.
    """
    within("salinity", salinity, *PSS78)
    return float(gsw.C_from_SP(salinity, within("temp_c", temp_c, 0, 35), 0))


def salinity_from_conductivity(ms_cm: float, temp_c: float) -> float:
    """Practical salinity of water that conducts `ms_cm` (mS/cm) at `temp_c` (°C).

    Range: results of 2 to 42, 0 to 35 °C. Equation: PSS-78. For a meter that compensates to 25 °C, temp_c is 25; one
    that does so by a fixed 2 % per °C is off by up to 0.4 at 20 °C. Source: lewis_1980; unesco_44.
    """
    within("temp_c", temp_c, 0, 35)
    low, high = (conductivity_ms_cm(s, temp_c) for s in PSS78)
    return float(gsw.SP_from_C(within("ms_cm", ms_cm, low, high), temp_c, 0))


def refractive_index(salinity: float, temp_c: float, wavelength_nm: float = SODIUM_D_NM) -> float:
    """Refractive index of sea water against air at `temp_c` (°C) and `wavelength_nm` (nm).

    Range: salinity 0 to 42 (fitted to 35, linear beyond), 0 to 30 °C, 400 to 700 nm. Equation: ten-parameter fit.
    Source: quan_fry_1995.
    """
    s, t = within("salinity", salinity, 0, PSS78[1]), within("temp_c", temp_c, 0, 30)
    w = within("wavelength_nm", wavelength_nm, 400, 700)
    constant = 1.31405 + (1.779e-4 - 1.05e-6 * t + 1.6e-8 * t * t) * s - 2.02e-6 * t * t
    return constant + (15.868 + 0.01155 * s - 0.00423 * t) / w - 4382 / w**2 + 1.1455e6 / w**3


def salinity_from_refractive_index(n_d: float, temp_c: float) -> float:
    """Practical salinity of water whose refractive index at 589.3 nm is `n_d` at `temp_c` (°C).

    Range: results of 0 to 42, 0 to 30 °C. Equation: inverse of `refractive_index`. Source: quan_fry_1995.
    """
    low, high = (refractive_index(s, temp_c) for s in (0, PSS78[1]))
    return invert(lambda s: refractive_index(s, temp_c), within("n_d", n_d, low, high), 0, PSS78[1])
