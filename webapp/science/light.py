"""The light at a place in a tank, from whichever the buyer knows: a meter, a lux reading, the lamp, or words."""

from dataclasses import dataclass
from typing import Protocol

from webapp.science.fixture import KINDS, Fixture, Footprint
from webapp.science.interval import Interval
from webapp.science.light_integral import full_light_hours
from webapp.science.light_panel import Panel
from webapp.science.light_profile import Anchored
from webapp.science.light_water import attenuation_per_m
from webapp.science.lux import LUX_PER_UMOL, ppfd_from_lux

PLACES = ("middle", "edge")
SENSOR = 0.08
"""Relative half-range of a quantum sensor, 5-10 %. Common practice."""
IMMERSION = (1.08, 1.2, 1.35)
"""Factor to an uncorrected reading under water (immersion effect of flat sensors). Common practice."""
CORRECTION_SAID = {
    True: "corrected for water",
    False: "not corrected: x 1.2 (1.08-1.35)",
    None: "correction not known: up to x 1.35",
}

WORDS = {
    "dim": ((25.0, 50.0, 90.0), "one low-power lamp: you can look into it, and the bottom is dusky"),
    "modest": ((70.0, 125.0, 210.0), "an ordinary panel or a pair of tubes: colours clear to the bottom, soft shadows"),
    "strong": ((130.0, 220.0, 360.0), "a reef lamp: sharp shadows on the sand, uncomfortable to look into"),
    "intense": ((220.0, 360.0, 600.0), "several reef lamps or one turned up: too bright to look into at all"),
}
"""Words for a tank's light: PPFD below the lamp at half depth, and what a person checks. Common practice."""


class Profile(Protocol):
    """Anything that gives PPFD at a depth and a place."""

    def at(self, depth_cm: float, horizontal: str) -> Interval: ...


@dataclass(frozen=True, slots=True)
class LightField:
    """Light through the water of one tank. `hours` of light a day or None, `ramp_hours` of them in ramps."""

    profile: Profile
    water_depth_cm: float
    hours: float | None
    basis: tuple[str, ...]
    ramp_hours: float = 0.0

    def at(self, depth_cm: float, horizontal: str = "middle") -> Interval:
        """PPFD, µmol m^-2 s^-1, on a level surface at `depth_cm` (0..water depth), unshaded by rock.

        `horizontal`: 'middle' (below the lamp) or 'edge' (the outer eighth along a side). About 95 % range. Deeper is
        darker, but for lamps that hang high over narrow tanks, where the sides send light back to the middle.
        """
        if not 0 <= depth_cm <= self.water_depth_cm * 1.0001:
            raise ValueError(f"depth_cm must be 0..{self.water_depth_cm:g}, got {depth_cm}")
        if horizontal not in PLACES:
            raise ValueError(f"horizontal must be 'middle' or 'edge', got {horizontal!r}")
        return self.profile.at(depth_cm, horizontal)

    def dli(self, depth_cm: float, horizontal: str = "middle") -> Interval | None:
        """Daily light integral, mol m^-2 d^-1, at `depth_cm`; None where the hours of light are not known."""
        if self.hours is None:
            return None
        seconds = full_light_hours(self.hours, self.ramp_hours) * 3600
        return self.at(depth_cm, horizontal).scaled(seconds / 1e6)


def from_meter(
    par: float,
    depth_cm: float,
    water_depth_cm: float,
    *,
    corrected_for_water: bool | None,
    horizontal: str = "middle",
    hours: float | None = None,
    ramp_hours: float = 0.0,
    colour: str = "unknown",
    water: str | None = None,
) -> LightField:
    """Light field from a quantum sensor's reading `par` (0..3000 µmol m^-2 s^-1) at `depth_cm` under water.

    `corrected_for_water`: whether the meter allows for being under water (immersion effect); None widens upwards
    by 1.35. `horizontal`: where it was read. `colour`, `water`: keys of light_water, for other depths.
    Source: common practice (sensor and immersion errors); kahn_barry_1997, pope_fry_1997 for other depths.
    """
    _check_reading("par", par, 3000)
    value = Interval.exact(0.0)
    if par > 0:
        value = Interval.times_over(par, SENSOR)
        if corrected_for_water is None:
            value = value.widened(0.0, IMMERSION[2] - 1)
        elif not corrected_for_water:
            low, usual, high = IMMERSION
            value = value.scaled(usual).widened(usual / low - 1, high / usual - 1)
    basis = (f"meter reading, sensor within {SENSOR:.0%}, {CORRECTION_SAID[corrected_for_water]} (common practice)",)
    return _anchored(value, depth_cm, water_depth_cm, horizontal, hours, ramp_hours, colour, water, basis)


def from_lux(
    lux: float,
    colour: str,
    depth_cm: float,
    water_depth_cm: float,
    *,
    instrument: str | None = None,
    horizontal: str = "middle",
    hours: float | None = None,
    ramp_hours: float = 0.0,
    water: str | None = None,
) -> LightField:
    """Light field from a reading of `lux` (0..200,000) with `instrument` ('meter', 'phone', None) at `depth_cm`.

    `colour`: key of lux.LUX_PER_UMOL. Depth 0 is at the surface. Factor and instrument errors in quadrature.
    Source: thimijan_heins_1983 and CIE spectra, see science.lux; common practice (instruments).
    """
    value = ppfd_from_lux(lux, colour, instrument)
    basis = (f"lux reading, {LUX_PER_UMOL[colour][1]}",)
    return _anchored(value, depth_cm, water_depth_cm, horizontal, hours, ramp_hours, colour, water, basis)


def from_fixture(fixture: Fixture, footprint: Footprint, *, water: str | None = None) -> LightField:
    """Light field from the lamp: photons = count x watts x photons per joule, spread by its beam over the box.

    cos^m beam from an even lit rectangle, refracted, mirrored in the sides, less what surface, lid and water take.
    Not included: shade of rock and animals. `water`: 'clear', 'yellow' or None. See light_panel.
    Source: nelson_bugbee_2014 (photons per joule), kahn_barry_1997 (beam), pope_fry_1997 (water); estimates as named.
    """
    kind = KINDS[fixture.kind]
    low, _, high = kind.ppe_umol_per_j
    basis = (
        f"{low:g}-{high:g} photons (µmol) per joule: {kind.basis}",
        "beam cos^m (Kahn & Barry 1997), water Pope & Fry 1997, walls and dirt estimated; rock's shade not included",
    )
    panel = Panel(fixture, footprint, attenuation_per_m(kind.colour, water))
    return LightField(panel, footprint.depth_cm, fixture.hours, basis, fixture.ramp_hours)


def from_words(word: str, water_depth_cm: float, *, hours: float | None = None, ramp_hours: float = 0.0) -> LightField:
    """Light field from a word (key of WORDS) that a person checked against the tank, wide.

    Source: common practice.
    """
    if word not in WORDS:
        raise ValueError(f"word must be one of {', '.join(WORDS)}, got {word!r}")
    values, said = WORDS[word]
    basis = (f"described as {word} ({said}): common practice",)
    half = water_depth_cm / 2
    return _anchored(Interval(*values), half, water_depth_cm, "middle", hours, ramp_hours, "unknown", None, basis)


def _anchored(value, depth_cm, water_depth_cm, horizontal, hours, ramp_hours, colour, water, basis) -> LightField:
    if not 5 <= water_depth_cm <= 200:
        raise ValueError(f"water_depth_cm must be 5..200, got {water_depth_cm}")
    if not 0 <= depth_cm <= water_depth_cm:
        raise ValueError(f"depth_cm must be 0..{water_depth_cm:g}, got {depth_cm}")
    if horizontal not in PLACES:
        raise ValueError(f"horizontal must be 'middle' or 'edge', got {horizontal!r}")
    if hours is not None:
        full_light_hours(hours, ramp_hours)
    profile = Anchored(value, depth_cm, horizontal, attenuation_per_m(colour, water))
    return LightField(profile, water_depth_cm, hours, basis, ramp_hours)


def _check_reading(name: str, value: float, high: float) -> None:
    if not 0 <= value <= high:
        raise ValueError(f"{name} must be 0..{high}, got {value}")
