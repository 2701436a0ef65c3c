"""From a rate of light to a day's light, and from energy to photons."""

import math

UMOL_PER_J_PER_NM = 1 / 119.62656
"""Photons in a joule per nanometre of wavelength: 1 / (h c N_A), CODATA 2018 exact constants, µmol J^-1 nm^-1."""


def photon_umol_per_j(wavelength_nm: float) -> float:
    """Photons in one joule of light of one wavelength (100..2000 nm), µmol/J: wavelength / (h c N_A)."""
    if not 100 <= wavelength_nm <= 2000:
        raise ValueError(f"wavelength_nm must be 100..2000, got {wavelength_nm}")
    return wavelength_nm * UMOL_PER_J_PER_NM


def full_light_hours(hours: float, ramp_hours: float = 0.0) -> float:
    """Hours of full light that carry the same dose as a day of `hours` (0..24) with linear ramps.

    `ramp_hours` is the sum of the ramp up and the ramp down, both within `hours`: a trapezoid, hours - ramp / 2.
    """
    if not 0 <= hours <= 24:
        raise ValueError(f"hours must be 0..24, got {hours}")
    if not 0 <= ramp_hours <= hours:
        raise ValueError(f"ramp_hours must be 0..hours, got {ramp_hours}")
    return hours - ramp_hours / 2


def daily_light_integral(ppfd: float, hours: float, ramp_hours: float = 0.0) -> float:
    """Daily light integral, mol m^-2 d^-1, of a `ppfd` (µmol m^-2 s^-1, >= 0) kept for `hours`, ramps included.

    Equation: DLI = PPFD x seconds / 10^6. Source: definition.
    """
    if not ppfd >= 0:
        raise ValueError(f"ppfd must not be negative, got {ppfd}")
    return ppfd * full_light_hours(hours, ramp_hours) * 3600 / 1e6


def daily_light_integral_half_sine(peak_ppfd: float, hours: float) -> float:
    """Daily light integral, mol m^-2 d^-1, of a half-sine day with `peak_ppfd` at noon: 2/pi of a flat day's."""
    if not peak_ppfd >= 0:
        raise ValueError(f"peak_ppfd must not be negative, got {peak_ppfd}")
    return peak_ppfd * full_light_hours(hours) * 3600 / 1e6 * 2 / math.pi
