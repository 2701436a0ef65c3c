"""Light in a tank under a described fixture, through the depth of its water."""

import math
from dataclasses import dataclass

from webapp.science.fixture import KINDS, Fixture, Footprint
from webapp.science.interval import Interval
from webapp.science.light_geometry import axis_parts, depth_divisor, lobe_exponent

SURFACE = (0.90, 0.95, 0.975)
"""Through the surface: 2 % reflected straight down, 7 % for diffuse light (Fresnel), some more for spray and film."""
LID = (0.72, 0.85, 0.92)
"""Clear glass or acrylic, about 4 % lost at each of two faces when clean (Fresnel, n 1.5), more with salt and algae."""
LID_NOT_SAID = (0.75, 0.94, 1.0)
WALLS = (0.30, 0.62, 0.90)
"""Reflected by the sides, mean of four. Clean glass reflects steep rays totally (critical angle 48 degrees); a dark
back, algae and rock at the sides do not. Estimate."""
POWER = 0.15
"""Relative half-range: rating against real draw, age of lamp, dirt on lenses. Estimate."""
BEAM_KNOWN = 0.12
"""Relative half-range of a beam angle that the buyer states."""
MODEL = 0.10
"""Relative half-range of this model itself: lamp taken as even, refraction by one divisor. From a ray tracing."""
SPREAD = 1.15
"""Stated half-ranges in quadrature hold about 92 % of a sum of even distributions; this factor brings 95 %."""
GAUSS = (0.2113, 0.7887)
"""Two-point Gauss-Legendre places on 0..1."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A fixture over a box of water: `at` gives PPFD. `attenuation_per_m` is the water's, as an Interval."""

    fixture: Fixture
    footprint: Footprint
    attenuation_per_m: Interval

    def at(self, depth_cm: float, horizontal: str) -> Interval:
        """PPFD (µmol m^-2 s^-1) at `depth_cm`, for a place not known more closely than 'middle' or 'edge'.

        'middle' is below the lit part of the (most central) fixture; 'edge' is the outer eighth along any side.
        """
        kind, lamp = KINDS[self.fixture.kind], self.fixture
        low_m, mid_m, high_m = (lobe_exponent(b) for b in self._beams())
        heights = kind.height_cm if lamp.height_cm is None else (lamp.height_cm,) * 3
        xs, ys, pairs = self._places(horizontal)
        field = self._field(xs, ys, pairs, depth_cm, heights[1], mid_m, WALLS)
        logs = [math.log(v) for v, _, _ in field]
        mean = sum(logs) / len(logs)
        place = 1.8 * math.sqrt(sum((v - mean) ** 2 for v in logs) / len(logs))
        downs, ups = [place], [place]
        nominal = sum(v for v, _, _ in field)
        _spread(downs, ups, [math.log(sum(f[i] for f in field) / nominal) for i in (1, 2)])
        probe = ([sum(xs[i] for i, _ in pairs) / len(pairs)], [sum(ys[j] for _, j in pairs) / len(pairs)], ((0, 0),))
        here = self._field(*probe, depth_cm, heights[1], mid_m, WALLS)[0][0]
        variants = [(heights[1], low_m), (heights[1], high_m)]
        others = [math.log(self._field(*probe, depth_cm, h, m, WALLS)[0][0] / here) for h, m in variants]
        _spread(downs, ups, others)
        if lamp.height_cm is None:
            variants = [(heights[0], mid_m), (heights[2], mid_m)]
            _spread(
                downs, ups, [math.log(self._field(*probe, depth_cm, h, m, WALLS)[0][0] / here) for h, m in variants]
            )
        mid = math.exp(mean) * 1e4 * lamp.count * lamp.watts_each
        lid = LID if lamp.lid else LID_NOT_SAID if lamp.lid is None else None
        for factor in (kind.ppe_umol_per_j, SURFACE, lid):
            if factor:
                mid *= factor[1]
                downs.append(math.log(factor[1] / factor[0]))
                ups.append(math.log(factor[2] / factor[1]))
        k, depth_m = self.attenuation_per_m, depth_cm / 100
        mid *= math.exp(-k.mid * depth_m)
        downs += [(k.high - k.mid) * depth_m, math.log1p(POWER), math.log1p(MODEL)]
        ups += [(k.mid - k.low) * depth_m, math.log1p(POWER), math.log1p(MODEL)]
        return Interval(mid * math.exp(-SPREAD * math.hypot(*downs)), mid, mid * math.exp(SPREAD * math.hypot(*ups)))

    def _beams(self) -> tuple[float, float, float]:
        stated = self.fixture.beam_deg
        if stated is None:
            return KINDS[self.fixture.kind].beam_deg
        return stated * (1 - BEAM_KNOWN), stated, min(165.0, stated * (1 + BEAM_KNOWN))

    def _spans(self) -> tuple[tuple[tuple[float, float], ...], tuple[tuple[float, float], ...]]:
        """Lit stretches along the length and the width: rows of long lamps lie side by side, others end to end."""
        kind, lamp, box = KINDS[self.fixture.kind], self.fixture, self.footprint
        share = kind.length_share
        length = min(lamp.length_cm or (share * box.length_cm if share else kind.length_cm), box.length_cm)
        width = min(lamp.width_cm or kind.width_cm, box.width_cm)
        if length > 0.5 * box.length_cm or lamp.count == 1:
            width = min(width * lamp.count, max(width, 0.9 * box.width_cm)) if lamp.count > 1 else width
            return (_centred(box.length_cm / 2, length),), (_centred(box.width_cm / 2, width),)
        pitch = box.length_cm / lamp.count
        if lamp.count > 3 or pitch <= length:
            return (_centred(box.length_cm / 2, min(box.length_cm, box.length_cm - pitch + length)),), (
                _centred(box.width_cm / 2, width),
            )
        centres = [(i + 0.5) * pitch for i in range(lamp.count)]
        return tuple(_centred(c, length) for c in centres), (_centred(box.width_cm / 2, width),)

    def _places(self, horizontal: str) -> tuple[list[float], list[float], tuple[tuple[int, int], ...]]:
        """Points along both axes and which pairs of them make up the spot."""
        spans_x, spans_y = self._spans()
        box = self.footprint
        a, b = spans_x[len(spans_x) // 2]
        xs = [a + (b - a) * (0.5 + g / 2) for g in GAUSS]
        half_y = spans_y[0][1] - box.width_cm / 2
        ys = [box.width_cm / 2 + half_y * g for g in GAUSS]
        if horizontal == "middle":
            return xs, ys, ((0, 0), (0, 1), (1, 0), (1, 1))
        xs = [box.length_cm * (0.5 + g * 0.375) for g in GAUSS] + [box.length_cm * (0.875 + g * 0.125) for g in GAUSS]
        ys = [box.width_cm * (0.5 + g * 0.375) for g in GAUSS] + [box.width_cm * (0.875 + g * 0.125) for g in GAUSS]
        return xs, ys, ((2, 0), (2, 1), (3, 0), (3, 1), (0, 2), (1, 2), (0, 3), (1, 3))

    def _field(
        self,
        xs: list[float],
        ys: list[float],
        pairs: tuple[tuple[int, int], ...],
        depth_cm: float,
        height_cm: float,
        m: float,
        walls: tuple[float, float, float],
    ) -> list[tuple[float, float, float]]:
        """PPFD per µmol/s of lamp and cm^2, before losses, at each pair: for usual, low and high wall reflectance."""
        box = self.footprint
        height = max(height_cm, 1.0)
        apparent = height + depth_cm / depth_divisor(m)
        spans_x, spans_y = self._spans()
        px = [axis_parts(x, box.length_cm, spans_x, height, apparent, m) for x in xs]
        py = [axis_parts(y, box.width_cm, spans_y, height, apparent, m) for y in ys]
        front = (m + 1) / (2 * math.pi * apparent**2)
        low, usual, high = walls
        out = []
        for i, j in pairs:
            e_low = e = e_high = 0.0
            for (w, x0, x1, x2), (_, y0, y1, y2) in zip(px[i], py[j], strict=True):
                e += w * (x0 + usual * (x1 + usual * x2)) * (y0 + usual * (y1 + usual * y2))
                e_low += w * (x0 + low * (x1 + low * x2)) * (y0 + low * (y1 + low * y2))
                e_high += w * (x0 + high * (x1 + high * x2)) * (y0 + high * (y1 + high * y2))
            out.append((front * e, front * e_low, front * e_high))
        return out


def _centred(centre: float, length: float) -> tuple[float, float]:
    return centre - length / 2, centre + length / 2


def _spread(downs: list[float], ups: list[float], deviations: list[float]) -> None:
    """Enter what one uncertain input does, as log deviations for its two ends, into both lists."""
    downs.append(max(0.0, -min(deviations)))
    ups.append(max(0.0, max(deviations)))
