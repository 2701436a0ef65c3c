"""Turns findings and readings into the geometry of drawings, in user units of an SVG picture. No rules live here."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from webapp.fit.findings import Spot
from webapp.fit.profile import Band
from webapp.science.interval import Interval

LOG_FACTORS = frozenset({"par", "flow"})
"""Light and flow: a doubling means the same everywhere, so equal ratios are drawn equally long."""
INSET = 14.0
"""Room at either end of a line for half a mark."""
REACH = 0.6
"""A reading further than this share of the limits' width beyond them is drawn at the end, with an arrow."""
LABEL_GAP = 34.0
"""Two numbers nearer than this would touch; the outer one is left out."""


@dataclass(frozen=True, slots=True)
class Tick:
    """A number under the line: where, which, with how many decimals, and whether there is room to write it."""

    x: float
    value: float
    decimals: int
    shown: bool
    anchor: str = "middle"


@dataclass(frozen=True, slots=True)
class FactorLine:
    """One factor drawn as a line `width` wide: x of the limits, the ideal band, the reading and 'used to here'.

    low, mid, high: the reading and its whiskers, None without one. beyond: -1 or 1 where the reading lies off the line
    and is drawn at its end. `ticks` are limit, ideal, ideal, limit.
    """

    width: float
    limit_low: float
    ideal_low: float
    ideal_high: float
    limit_high: float
    ticks: tuple[Tick, ...]
    low: float | None = None
    mid: float | None = None
    high: float | None = None
    beyond: int = 0
    used_to: float | None = None

    @property
    def outside(self) -> tuple[float, float] | None:
        """From the nearer limit to the reading, where the reading lies outside the limits."""
        if self.mid is None or self.limit_low <= self.mid <= self.limit_high:
            return None
        return (self.limit_low if self.mid < self.limit_low else self.limit_high), self.mid

    @property
    def ideal_width(self) -> float:
        """Length of the ideal band, never too thin to be seen."""
        return max(self.ideal_high - self.ideal_low, 3.0)


class _Scale:
    """Maps values of a factor to x, on an even or a logarithmic scale, held within the drawing."""

    def __init__(self, low: float, high: float, width: float, log: bool) -> None:
        self.log = log
        self.floor = max(high, 1e-9) * 1e-3
        self.low, self.high, self.width = self._of(low), self._of(high), width

    def _of(self, value: float) -> float:
        return math.log(max(value, self.floor)) if self.log else value

    def x(self, value: float) -> float:
        share = (self._of(value) - self.low) / ((self.high - self.low) or 1.0)
        return round(INSET + min(max(share, 0.0), 1.0) * (self.width - 2 * INSET), 1)


def factor_line(
    band: Band, estimate: Interval | None, used_to: float | None = None, width: float = 320, log: bool = False
) -> FactorLine:
    """Lay out a factor. `estimate` and `used_to` are in the band's unit; `log` for the factors in LOG_FACTORS."""
    low, high = _ends(band, estimate, used_to, log)
    scale = _Scale(low, high, width, log)
    places = [scale.x(v) for v in (band.limit_low, band.ideal_low, band.ideal_high, band.limit_high)]
    marks: dict[str, float | int | None] = {"used_to": None if used_to is None else scale.x(used_to)}
    if estimate is not None:
        marks |= {"low": scale.x(estimate.low), "mid": scale.x(estimate.mid), "high": scale.x(estimate.high)}
        marks["beyond"] = (estimate.mid > high) - (estimate.mid < low)
    return FactorLine(width, *places, ticks=_ticks(band, places, width), **marks)  # type: ignore[arg-type]


def _ends(band: Band, estimate: Interval | None, used_to: float | None, log: bool) -> tuple[float, float]:
    """What the line spans: the limits, and the reading as far as REACH lets it widen the line."""
    seen = [band.limit_low, band.limit_high]
    if estimate is not None:
        seen += [estimate.low, estimate.high]
    if used_to is not None:
        seen.append(used_to)
    if log:
        low, high = max(band.limit_low, band.limit_high * 1e-2), band.limit_high
        reach = (high / low) ** REACH
        return max(min(seen), low / reach), min(max(seen), high * reach)
    reach = (band.limit_high - band.limit_low) * REACH
    return max(min(seen), band.limit_low - reach), min(max(seen), band.limit_high + reach)


def decimals_for(span: float) -> int:
    """Decimals that tell apart values `span` from each other: 0 from 20 on, 1 from 2, 2 from 0.2, else 3."""
    return 0 if span >= 20 else 1 if span >= 2 else 2 if span >= 0.2 else 3


def _ticks(band: Band, places: Sequence[float], width: float) -> tuple[Tick, ...]:
    values = (band.limit_low, band.ideal_low, band.ideal_high, band.limit_high)
    decimals = decimals_for(band.limit_high - band.limit_low)
    low, ideal_low, ideal_high, high = places
    middle_fits = ideal_high - ideal_low >= LABEL_GAP
    shown = (ideal_low - low >= LABEL_GAP, True, middle_fits, high - max(ideal_high, ideal_low) >= LABEL_GAP)
    return tuple(
        Tick(x, value, decimals, see, "start" if x < LABEL_GAP / 2 else "end" if x > width - LABEL_GAP / 2 else "middle")
        for x, value, see in zip(places, values, shown, strict=True)
    )


@dataclass(frozen=True, slots=True)
class Ray:
    """A line of light from the surface down to `y2`; the fainter, the deeper it starts to spread."""

    x: float
    y1: float
    y2: float


@dataclass(frozen=True, slots=True)
class Whirl:
    """A stroke of moving water, `length` long."""

    x: float
    y: float
    length: float


@dataclass(frozen=True, slots=True)
class TankView:
    """The buyer's tank from the side: glass (x, y, width, height), water line, sand, the zone (top, bottom), the animal's
    place, depths to write as (y, cm), rockwork as path data."""

    width: float
    height: float
    glass: tuple[float, float, float, float]
    water_y: float
    sand_y: float
    zone: tuple[float, float]
    spot: tuple[float, float]
    depths: tuple[tuple[float, float], ...]
    rocks: tuple[str, ...]
    rays: tuple[Ray, ...]
    whirls: tuple[Whirl, ...]


VIEW_WIDTH = 320.0
HEAD = 26.0
"""Room for the lamp above the glass."""
RULER = 46.0
"""Room for the depths beside the glass."""
ZONES = {"upper": (0.08, 0.4), "middle": (0.3, 0.7), "lower": (0.55, 0.9), "bottom": (0.8, 1.0), "anywhere": (0.1, 1.0)}
"""Share of the water's depth that a zone covers, where the answer gives no depths."""
SAND_SHARE = 0.06
WATER_SHARE = 0.95


def tank_view(length_cm: float | None, height_cm: float | None, spot: Spot) -> TankView:
    """Lay out the side view. Without sizes the tank is drawn twice as long as high and no depth is written."""
    known = bool(length_cm and height_cm)
    ratio = min(max((length_cm / height_cm) if known else 2.0, 0.9), 2.4)  # type: ignore[operator]
    glass_width = VIEW_WIDTH - RULER - 4
    glass_height = round(min(glass_width / ratio, 230.0), 1)
    glass_width = round(min(glass_width, glass_height * ratio), 1)
    top, bottom = HEAD, HEAD + glass_height
    water_y = round(bottom - glass_height * WATER_SHARE, 1)
    sand_y = round(bottom - glass_height * SAND_SHARE, 1)
    deep = (height_cm or 0) * (WATER_SHARE - SAND_SHARE)
    zone = _zone(spot, deep, water_y, sand_y)
    at = sum(zone) / 2 if spot.depth_cm is None or not deep else _y(spot.depth_cm, deep, water_y, sand_y)
    x = 4 + glass_width * 0.58
    return TankView(
        width=VIEW_WIDTH, height=round(bottom + 6, 1), glass=(4.0, top, glass_width, glass_height),
        water_y=water_y, sand_y=sand_y, zone=zone, spot=(round(x, 1), round(at, 1)),
        depths=_depths(spot, zone) if deep else (),
        rocks=_rocks(x, at, water_y, sand_y, glass_width),
        rays=_rays(glass_width, water_y, sand_y), whirls=_whirls(spot, zone, glass_width),
    )  # fmt: skip


def _y(depth_cm: float, deep_cm: float, water_y: float, sand_y: float) -> float:
    return round(water_y + min(max(depth_cm / deep_cm, 0.0), 1.0) * (sand_y - water_y), 1)


def _zone(spot: Spot, deep_cm: float, water_y: float, sand_y: float) -> tuple[float, float]:
    if spot.depth_range_cm is not None and deep_cm:
        top, bottom = (_y(depth, deep_cm, water_y, sand_y) for depth in spot.depth_range_cm)
    else:
        shares = ZONES.get(spot.zone, ZONES["anywhere"])
        top, bottom = (round(water_y + share * (sand_y - water_y), 1) for share in shares)
    middle = (top + bottom) / 2
    return (top, bottom) if bottom - top >= 12 else (round(middle - 6, 1), round(middle + 6, 1))


def _depths(spot: Spot, zone: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Depths written beside the zone's edges, (y, cm); one alone where two would touch."""
    if spot.depth_range_cm is None:
        return ()
    low, high = spot.depth_range_cm
    if zone[1] - zone[0] < 18:
        return (((zone[0] + zone[1]) / 2, (low + high) / 2),)
    return ((zone[0], low), (zone[1], high))


def _rocks(x: float, y: float, water_y: float, sand_y: float, glass_width: float) -> tuple[str, ...]:
    """A boulder behind, and in front of it the rock whose ledge carries the animal; none in front of an animal on the sand."""
    deep, unit = sand_y - water_y, glass_width / 100
    peak = max(water_y + deep * 0.2, min(y - deep * 0.16, sand_y - deep * 0.45))
    back = ((-40, sand_y), (-37, (peak + sand_y) / 2), (-27, peak + 8), (-18, peak), (-7, peak + deep * 0.1), (4, sand_y - deep * 0.2), (9, sand_y))
    ledge = y + 10
    if ledge > sand_y - 6:
        return (_lump(x, unit, back),)
    front = ((-16, sand_y), (-15, (ledge + sand_y) / 2), (-9, ledge + 1), (0, ledge - 2), (11, ledge + 1), (15, ledge + (sand_y - ledge) * 0.4), (24, sand_y - (sand_y - ledge) * 0.3), (28, sand_y))
    return (_lump(x, unit, back), _lump(x, unit, front))


def _lump(x: float, unit: float, points: Sequence[tuple[float, float]]) -> str:
    """A rounded outline through the middles between `points`, x counted from `x` in hundredths of the glass."""
    placed = [(round(x + dx * unit, 1), round(y, 1)) for dx, y in points]
    path = f"M{placed[0][0]:g} {placed[0][1]:g}"
    for (ax, ay), (bx, by) in zip(placed[1:-1], placed[2:], strict=True):
        end = (bx, by) if (bx, by) == placed[-1] else ((ax + bx) / 2, (ay + by) / 2)
        path += f"Q{ax:g} {ay:g} {end[0]:.4g} {end[1]:.4g}"
    return path + "Z"


def _rays(glass_width: float, water_y: float, sand_y: float) -> tuple[Ray, ...]:
    deep = sand_y - water_y
    lengths = (0.35, 0.6, 0.95, 0.6, 0.95, 0.6, 0.35)
    step = glass_width / (len(lengths) + 1)
    return tuple(Ray(round(4 + step * (i + 1), 1), water_y + 4, round(water_y + deep * share - 4, 1)) for i, share in enumerate(lengths))


def _whirls(spot: Spot, zone: tuple[float, float], glass_width: float) -> tuple[Whirl, ...]:
    """Strokes in the zone, longer where the water moves faster: 6 units at rest to 40 at 40 cm/s and above."""
    if spot.flow is None:
        return ()
    length = round(6 + 34 * min(spot.flow.mid / 40, 1.0), 1)
    middle = (zone[0] + zone[1]) / 2
    return tuple(Whirl(round(4 + glass_width * share, 1), round(middle, 1), length) for share in (0.16, 0.36, 0.78))


@dataclass(frozen=True, slots=True)
class Sparkline:
    """A history as a polyline: `points` for the attribute, the last point, and the ideal band as (y, height)."""

    width: float
    height: float
    points: str
    last: tuple[float, float]
    ideal: tuple[float, float] | None
    low: float
    high: float


def sparkline(
    values: Sequence[tuple[float, float]], band: Band | None = None, width: float = 160, height: float = 40
) -> Sparkline | None:
    """Lay out a history of (time in any unit, value). None with fewer than two values."""
    if len(values) < 2:
        return None
    times, numbers = [t for t, _ in values], [v for _, v in values]
    first, last = min(times), max(times)
    low, high = min(numbers), max(numbers)
    floor, top = (min(low, band.ideal_low), max(high, band.ideal_high)) if band else (low, high)
    inset = 4.0

    def x(t: float) -> float:
        return round(inset + (t - first) / ((last - first) or 1.0) * (width - 2 * inset), 1)

    def y(v: float) -> float:
        share = (v - floor) / (top - floor) if top > floor else 0.5
        return round(height - inset - share * (height - 2 * inset), 1)

    ideal = (y(band.ideal_high), round(y(band.ideal_low) - y(band.ideal_high), 1)) if band else None
    ordered = sorted(values)
    points = " ".join(f"{x(t):g},{y(v):g}" for t, v in ordered)
    return Sparkline(width, height, points, (x(ordered[-1][0]), y(ordered[-1][1])), ideal, low, high)
