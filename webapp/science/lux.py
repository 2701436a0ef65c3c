"""From lux to photons: one factor a colour of lamp, and the error of the instrument."""

from webapp.science.interval import Interval, combine_relative

THIMIJAN_HEINS = "Thimijan & Heins 1983, HortScience 18, 818-822"

LUX_PER_UMOL = {
    "deep_blue": ((5.0, 8.5, 14.0), "450 nm band 7.3, with 470 nm light up to 14: CIE 1924 V(lambda), computed"),
    "blue": ((13.0, 21.0, 31.0), "70-90 % of the power blue, the rest white: CIE 1924 V(lambda), computed"),
    "blue_white": ((28.0, 40.0, 55.0), "25-70 % of the power blue, the rest white: CIE 1924 V(lambda), computed"),
    "white": ((58.0, 67.0, 72.0), "CIE LED-B1 to LED-B5 67-72, some red added: computed"),
    "warm_white": ((60.0, 68.0, 72.0), "CIE LED-B1 to LED-B3 67-70: computed"),
    "fluorescent": ((50.0, 66.0, 77.0), f"CIE FL2, FL7, FL11 60-76 computed; cool white 74: {THIMIJAN_HEINS}"),
    "metal_halide": ((58.0, 66.0, 72.0), f"CIE HP3-HP5 62-70 computed; metal halide 71: {THIMIJAN_HEINS}"),
    "sunlight": ((52.0, 55.0, 58.0), f"CIE D65 55.5 computed; sunlight 54: {THIMIJAN_HEINS}"),
    "unknown": ((12.0, 35.0, 75.0), "colour not known: from mostly blue LED to white lamp"),
}
"""lux per µmol m^-2 s^-1 by colour of the light: (low, usual, high) and its basis."""

COLOURS = tuple(LUX_PER_UMOL)

INSTRUMENT_ERROR = {"meter": 0.08, "phone": 0.35, None: 0.45}
"""Relative half-range of a hand-held meter, a phone, or an instrument not named, under white light. Common practice."""

BLUE_ERROR = {"deep_blue": 0.35, "blue": 0.25, "blue_white": 0.15}
"""Added under blue light, where cheap sensors miss V(lambda) most. Estimate."""


def lux_per_ppfd(colour: str) -> Interval:
    """lux per µmol m^-2 s^-1 for a lamp of `colour` (key of LUX_PER_UMOL): 683 int E V / int E lambda/(h c N_A)."""
    if colour not in LUX_PER_UMOL:
        raise ValueError(f"colour must be one of {', '.join(COLOURS)}, got {colour!r}")
    return Interval(*LUX_PER_UMOL[colour][0])


def ppfd_from_lux(lux: float, colour: str, instrument: str | None = None) -> Interval:
    """PPFD (µmol m^-2 s^-1) at the sensor from a reading of 0..200,000 lux.

    `instrument`: 'meter', 'phone' or None. Errors of factor and instrument add in quadrature on a log scale.
    Source: thimijan_heins_1983; CIE spectra, computed; common practice (instruments).
    """
    if not 0 <= lux <= 200_000:
        raise ValueError(f"lux must be 0..200000, got {lux}")
    if instrument not in INSTRUMENT_ERROR:
        raise ValueError(f"instrument must be 'meter', 'phone' or None, got {instrument!r}")
    factor = lux_per_ppfd(colour)
    if lux == 0:
        return Interval.exact(0.0)
    reading = combine_relative(INSTRUMENT_ERROR[instrument], BLUE_ERROR.get(colour, 0.0))
    inverse = Interval(1 / factor.high, 1 / factor.mid, 1 / factor.low)
    return inverse.widened(reading).scaled(lux)
