"""Light at a water surface and through water: Snell, Fresnel, Beer-Lambert, pure-water absorption."""

import math
from bisect import bisect_right

N_SEA_WATER = 1.34
"""Refractive index of sea water, visible light, 20-25 °C (Quan & Fry 1995, Appl. Opt. 34, 3477: 1.339 at 589 nm)."""

POPE_FRY_NM = (400, 420, 440, 450, 460, 470, 480, 490, 500, 520, 550, 570, 590, 600, 620, 650, 660, 680, 700)
POPE_FRY_PER_M = (
    0.00663, 0.00454, 0.00635, 0.00922, 0.00979, 0.0106, 0.0127, 0.0150, 0.0204, 0.0409, 0.0565, 0.0695,
    0.1351, 0.2224, 0.2755, 0.340, 0.410, 0.465, 0.624,
)  # fmt: skip
"""Absorption of pure water, Pope & Fry 1997, Appl. Opt. 36, 8710-8723, Table 3 (selected wavelengths)."""


def refracted_deg(angle_deg: float, n: float = N_SEA_WATER) -> float:
    """Angle from the vertical in water (degrees) of a ray that arrives at `angle_deg` in air, 0..90.

    sin(angle) = n sin(refracted) (Snell). n >= 1 is the ratio of the indices.
    """
    _check_angle(angle_deg)
    _check_index(n)
    return math.degrees(math.asin(math.sin(math.radians(angle_deg)) / n))


def fresnel_reflectance(angle_deg: float, n: float = N_SEA_WATER) -> float:
    """Share of unpolarised light reflected at a flat surface, from air at `angle_deg` (0..90) into index `n` >= 1.

    Mean of the s and p reflectances (Fresnel's equations; Born & Wolf, Principles of Optics, 1.5.2).
    """
    _check_angle(angle_deg)
    _check_index(n)
    cos_i = math.cos(math.radians(angle_deg))
    cos_t = math.sqrt(1 - (math.sin(math.radians(angle_deg)) / n) ** 2)
    r_s = ((cos_i - n * cos_t) / (cos_i + n * cos_t)) ** 2
    r_p = ((n * cos_i - cos_t) / (n * cos_i + cos_t)) ** 2
    return (r_s + r_p) / 2


def critical_angle_deg(n: float = N_SEA_WATER) -> float:
    """Angle of incidence in water (degrees from the normal) above which a surface to air reflects everything."""
    _check_index(n)
    return math.degrees(math.asin(1 / n))


def pure_water_absorption_per_m(wavelength_nm: float) -> float:
    """Absorption coefficient of pure water, m^-1, 400..700 nm, linear between the rows of Pope & Fry 1997, Table 3."""
    if not 400 <= wavelength_nm <= 700:
        raise ValueError(f"wavelength_nm must be 400..700, got {wavelength_nm}")
    i = min(bisect_right(POPE_FRY_NM, wavelength_nm), len(POPE_FRY_NM) - 1)
    x0, x1 = POPE_FRY_NM[i - 1], POPE_FRY_NM[i]
    y0, y1 = POPE_FRY_PER_M[i - 1], POPE_FRY_PER_M[i]
    return y0 + (y1 - y0) * (wavelength_nm - x0) / (x1 - x0)


def yellow_absorption_per_m(wavelength_nm: float, at_440_per_m: float, slope_per_nm: float = 0.014) -> float:
    """Absorption by dissolved yellow matter, m^-1: a(440) exp(-S (wavelength - 440)).

    Bricaud, Morel & Prieur 1981, Limnol. Oceanogr. 26, 43-53: S about 0.014 nm^-1. 350..700 nm, a(440) >= 0.
    """
    if not 350 <= wavelength_nm <= 700:
        raise ValueError(f"wavelength_nm must be 350..700, got {wavelength_nm}")
    if not 0 <= at_440_per_m <= 20:
        raise ValueError(f"at_440_per_m must be 0..20, got {at_440_per_m}")
    return at_440_per_m * math.exp(-slope_per_nm * (wavelength_nm - 440))


def transmitted_share(k_per_m: float, path_m: float) -> float:
    """Share of light left after `path_m` of water with attenuation `k_per_m`: exp(-k path) (Beer-Lambert)."""
    if not k_per_m >= 0:
        raise ValueError(f"k_per_m must not be negative, got {k_per_m}")
    if not path_m >= 0:
        raise ValueError(f"path_m must not be negative, got {path_m}")
    return math.exp(-k_per_m * path_m)


def _check_angle(angle_deg: float) -> None:
    if not 0 <= angle_deg <= 90:
        raise ValueError(f"angle_deg must be 0..90, got {angle_deg}")


def _check_index(n: float) -> None:
    if not 1 <= n <= 3:
        raise ValueError(f"n must be 1..3, got {n}")
