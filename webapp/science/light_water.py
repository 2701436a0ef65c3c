"""How fast a tank's water takes light away, by the light's colour and the water's tint."""

from webapp.science.interval import Interval

WATER_K_PER_M = {
    "deep_blue": (0.0107, 0.873),
    "blue": (0.0347, 0.757),
    "blue_white": (0.068, 0.603),
    "white": (0.117, 0.358),
    "warm_white": (0.157, 0.273),
    "fluorescent": (0.120, 0.349),
    "metal_halide": (0.156, 0.339),
    "sunlight": (0.151, 0.383),
    "unknown": (0.09, 0.5),
}
"""By colour: (photon-weighted attenuation of pure water, m^-1, over 0.4 m; the same per m^-1 of yellow a(440)).

Computed from the absorption of Pope & Fry 1997 and CIE spectra or a 450 nm band mixed with CIE LED-B5.
"""

YELLOW_A440_PER_M = {"clear": (0.0, 0.12), "yellow": (0.2, 1.0), None: (0.0, 0.4)}
"""Yellow matter's absorption at 440 nm: fresh carbon or ozone; tinted against a white cup; not said. Estimate."""

HAZE_PER_M = (0.0, 0.12)
"""Loss to particles and bubbles beyond absorption, m^-1. Estimate."""

SLANT = 1.12
"""Mean path in water per unit of depth: rays from a wide lamp run at up to 48 degrees, mostly 15-35. Geometry."""


def attenuation_per_m(colour: str, water: str | None = None) -> Interval:
    """Loss of photons 400-700 nm per metre of depth, m^-1, for a lamp of `colour` in `water` ('clear', 'yellow', None).

    Pure water (Pope & Fry 1997) + yellow matter (Bricaud et al. 1981) + haze, along the slanted path. Depths to 1 m.
    Source: pope_fry_1997; bricaud_1981; haze and tint estimated.
    """
    if colour not in WATER_K_PER_M:
        raise ValueError(f"colour must be one of {', '.join(WATER_K_PER_M)}, got {colour!r}")
    if water not in YELLOW_A440_PER_M:
        raise ValueError(f"water must be 'clear', 'yellow' or None, got {water!r}")
    pure, per_yellow = WATER_K_PER_M[colour]
    yellow_low, yellow_high = YELLOW_A440_PER_M[water]
    low = SLANT * (pure + per_yellow * yellow_low + HAZE_PER_M[0])
    high = SLANT * (pure + per_yellow * yellow_high + HAZE_PER_M[1])
    return Interval(low, (low + high) / 2, high)
