"""The side view of a tank as geometry, in user units of an SVG picture. No rules live here."""

from collections.abc import Sequence
from dataclasses import dataclass

from webapp.fit.findings import Spot

VIEW_WIDTH = 320.0
HEAD = 26.0
"""Room for the lamp above the glass."""
RULER = 58.0
"""Room for the depths beside the glass."""
ZONES = {"upper": (0.08, 0.4), "middle": (0.3, 0.7), "lower": (0.55, 0.9), "bottom": (0.8, 1.0), "anywhere": (0.1, 1.0)}
"""Share of the water's depth that a zone covers, where the answer gives no depths."""
SAND_SHARE = 0.06
WATER_SHARE = 0.95
THINNEST = 12.0
"""A zone is never drawn thinner, or it would not be seen."""


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
    """The buyer's tank from the side: glass (x, y, width, height), water line, sand, the zone (top, bottom), the
    animal's place, depths to write as (y, cm), rockwork as path data."""

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


def tank_view(length_cm: float | None, height_cm: float | None, spot: Spot) -> TankView:
    """Lay out the side view; `height_cm` is the depth of the water.

    Without sizes the tank is drawn twice as long as high and no depth is written.
    """
    known = bool(length_cm and height_cm)
    ratio = min(max((length_cm / height_cm) if known else 2.0, 0.9), 2.4)  # type: ignore[operator]
    glass_width = VIEW_WIDTH - RULER - 4
    glass_height = round(min(glass_width / ratio, 230.0), 1)
    glass_width = round(min(glass_width, glass_height * ratio), 1)
    top, bottom = HEAD, HEAD + glass_height
    water_y = round(bottom - glass_height * WATER_SHARE, 1)
    sand_y = round(bottom - glass_height * SAND_SHARE, 1)
    deep = height_cm if known and height_cm else 0.0
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
    if bottom - top >= THINNEST:
        return top, bottom
    middle = min(max((top + bottom) / 2, water_y + THINNEST / 2), sand_y - THINNEST / 2)
    return round(middle - THINNEST / 2, 1), round(middle + THINNEST / 2, 1)


def _depths(spot: Spot, zone: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """Depths written beside the zone's edges, (y, cm); one alone where two would touch."""
    if spot.depth_range_cm is None:
        return ()
    low, high = spot.depth_range_cm
    if zone[1] - zone[0] < 18:
        return (((zone[0] + zone[1]) / 2, (low + high) / 2),)
    return ((zone[0], low), (zone[1], high))


def _rocks(x: float, y: float, water_y: float, sand_y: float, glass_width: float) -> tuple[str, ...]:
    """A boulder behind; in front of it the rock whose ledge carries the animal, unless that stands on the sand."""
    deep, unit = sand_y - water_y, glass_width / 100
    peak = max(water_y + deep * 0.2, min(y - deep * 0.16, sand_y - deep * 0.45))
    back = (
        (-40, sand_y),
        (-37, (peak + sand_y) / 2),
        (-27, peak + 8),
        (-18, peak),
        (-7, peak + deep * 0.1),
        (4, sand_y - deep * 0.2),
        (9, sand_y),
    )
    ledge = y + 13
    if ledge > sand_y - 6:
        return (_lump(x, unit, back),)
    front = (
        (-16, sand_y),
        (-15, (ledge + sand_y) / 2),
        (-9, ledge + 1),
        (0, ledge - 2),
        (11, ledge + 1),
        (15, ledge + (sand_y - ledge) * 0.4),
        (24, sand_y - (sand_y - ledge) * 0.3),
        (28, sand_y),
    )
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
    return tuple(
        Ray(round(4 + step * (i + 1), 1), water_y + 4, round(water_y + deep * share - 4, 1))
        for i, share in enumerate(lengths)
    )


def _whirls(spot: Spot, zone: tuple[float, float], glass_width: float) -> tuple[Whirl, ...]:
    """Strokes in the zone, longer where the water moves faster: 10 units at rest to 34 at 40 cm/s and above."""
    if spot.flow is None:
        return ()
    length = round(10 + 24 * min(spot.flow.mid / 40, 1.0), 1)
    y = zone[0] + (zone[1] - zone[0]) * 0.4
    return tuple(Whirl(round(4 + glass_width * share, 1), round(y, 1), length) for share in (0.04, 0.7, 0.84))
