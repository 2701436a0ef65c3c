"""Light in a tank under a described fixture, through the depth of its water."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from webapp.science.fixture import KINDS, Fixture, Footprint
from webapp.science.interval import Interval
from webapp.science.light_geometry import axis_sums, depth_divisor, gaussian_terms, lobe_exponent
from webapp.science.light_layout import Pairs, lit_spans, points

SURFACE = (0.90, 0.95, 0.975)
"""Through the surface: 2 % reflected straight down, 7 % for diffuse light (Fresnel), some more for spray and film."""
LID = {False: (1.0, 1.0, 1.0), True: (0.72, 0.84, 0.92), None: (0.75, 0.94, 1.0)}
"""Through a clear cover: about 4 % lost at each face when clean (Fresnel, n 1.5), more with salt and algae; None: not
said. Estimate."""
WALLS = (0.28, 0.56, 0.88)
"""Reflected by the sides, mean of four. Clean glass reflects steep rays totally (critical angle 48 degrees); a dark
back, algae and rock at the sides do not. Estimate."""
POWER = (0.82, 0.97, 1.12)
"""Light for the watts stated: rating against real draw, age of lamp, dirt on lenses. Estimate."""
BEAM_KNOWN = 0.12
"""Relative half-range of a beam angle that the buyer states."""
MODEL = 0.10
"""Relative half-range of this model itself: lamp taken as even, refraction by one divisor. From a ray tracing."""
SPREAD = 1.25
"""Half-ranges in quadrature hold about 92 % of a sum of even distributions; with this factor about 95 %, and 90 % where
one input rules. Set against the ray tracing of the reference tests."""
PLACE = 1.8
"""Half-range over standard deviation of a place drawn evenly: 1.7 for an even, 2 for a normal distribution."""
OUTERMOST = 1.25
"""The darkest and brightest spots of a place lie about this much farther off than the darkest and brightest points."""
SCATTERED = 0.003
"""Share of the lamp's light, spread evenly, that reaches every place by sand, surface and haze. Estimate, low."""
LOWEST_CM = 1.0
"""A lamp is never nearer to the water than this: covers and splash guards."""
PROBE: dict[str, Pairs] = {"middle": ((0, 1),), "edge": ((2, 1),)}


@dataclass(frozen=True, slots=True)
class Panel:
    """A fixture over a box of water: `at` gives PPFD. `attenuation_per_m` is the water's, as an Interval."""

    fixture: Fixture
    footprint: Footprint
    attenuation_per_m: Interval

    def at(self, depth_cm: float, horizontal: str) -> Interval:
        """PPFD (µmol m^-2 s^-1) at `depth_cm`, for a place not known more closely than 'middle' or 'edge'.

        Best estimate: geometric mean over the place. Range: the log deviations that each uncertain input makes, in
        quadrature, downwards and upwards apart (JCGM 100:2008, 5.1).
        """
        return _range_at(self, depth_cm, horizontal)

    def exponents(self) -> tuple[float, float, float]:
        """Exponents of the beam: narrowest, usual, widest."""
        stated = self.fixture.beam_deg
        if stated is None:
            angles = KINDS[self.fixture.kind].beam_deg
        else:
            angles = stated * (1 - BEAM_KNOWN), stated, min(165.0, stated * (1 + BEAM_KNOWN))
        return lobe_exponent(angles[0]), lobe_exponent(angles[1]), lobe_exponent(angles[2])

    def logs(
        self,
        xs: Sequence[float],
        ys: Sequence[float],
        pairs: Pairs,
        depth_cm: float,
        height_cm: float,
        m: float,
        wall: float,
    ) -> list[float]:
        """Logarithms of PPFD per µmol/s of lamp, cm^-2, before losses, at each pair of points."""
        box = self.footprint
        height = max(height_cm, LOWEST_CM)
        apparent = height + depth_cm / depth_divisor(m)
        spans_x, spans_y = lit_spans(self.fixture, box)
        weights = gaussian_terms(m)[0]
        along, across = {}, {}
        for i, j in pairs:
            if i not in along:
                sums = axis_sums(xs[i], box.length_cm, spans_x, height, apparent, m, wall)
                along[i] = [w * x for w, x in zip(weights, sums, strict=True)]
            if j not in across:
                across[j] = axis_sums(ys[j], box.width_cm, spans_y, height, apparent, m, wall)
        front = (m + 1) / (2 * math.pi * apparent**2)
        least = SCATTERED / (box.length_cm * box.width_cm)
        return [math.log(max(least, front * sum(map(mul, along[i], across[j])))) for i, j in pairs]


@lru_cache(maxsize=4096)  # many animals are judged at the same few depths of one tank
def _range_at(panel: Panel, depth_cm: float, horizontal: str) -> Interval:
    lamp, kind = panel.fixture, KINDS[panel.fixture.kind]
    narrow, usual, wide = panel.exponents()
    low_cm, height_cm, high_cm = kind.height_cm if lamp.height_cm is None else (lamp.height_cm,) * 3
    xs, ys, pairs = points(lamp, panel.footprint, horizontal)
    dim, wall, bright = WALLS
    logs = panel.logs(xs, ys, pairs, depth_cm, height_cm, usual, wall)
    mean = sum(logs) / len(logs)
    place = PLACE * math.sqrt(sum((v - mean) ** 2 for v in logs) / len(logs))
    darkest, brightest = OUTERMOST * (mean - min(logs)), OUTERMOST * (max(logs) - mean)

    variants = [(height_cm, usual, dim), (height_cm, narrow, wall), (height_cm, wide, wall)]
    if low_cm != high_cm:
        variants += [(low_cm, usual, wall), (high_cm, usual, wall)]
    probe = PROBE[horizontal]
    here = logs[pairs.index(probe[0])]
    changes = [panel.logs(xs, ys, probe, depth_cm, *v)[0] - here for v in variants]

    k, depth_m = panel.attenuation_per_m, depth_cm / 100
    downs = [min(place, darkest), math.log1p(MODEL), (k.high - k.mid) * depth_m]
    ups = [min(place, brightest), math.log1p(MODEL), (k.mid - k.low) * depth_m]
    # What the walls send back is nearly proportional to their reflectance.
    changes.insert(1, math.log1p((1 - math.exp(changes[0])) * (bright - wall) / (wall - dim)))
    for first, second in zip(changes[::2], changes[1::2], strict=True):
        downs.append(-min(0.0, first, second))
        ups.append(max(0.0, first, second))
    mid = math.exp(mean - k.mid * depth_m) * 1e4 * lamp.count * lamp.watts_each
    for low, best, high in (kind.ppe_umol_per_j, POWER, SURFACE, LID[lamp.lid]):
        mid *= best
        downs.append(math.log(best / low))
        ups.append(math.log(high / best))
    down, up = SPREAD * math.hypot(*downs), SPREAD * math.hypot(*ups)
    return Interval(mid * math.exp(-down), mid, mid * math.exp(up))
