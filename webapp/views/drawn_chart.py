"""Turns the run of a quantity into the geometry of a chart, in user units of an SVG picture. No rules live here."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from webapp.services.tank_water import Shared
from webapp.views.drawn import decimals_for

WIDTH, HEIGHT = 340.0, 150.0
LEFT, RIGHT, TOP, BOTTOM = 6.0, 52.0, 8.0, 22.0
#: More points than this are drawn as the least and the greatest of each column of the picture.
MOST_POINTS = 300
#: Two numbers at the side nearer than this would touch.
TICK_GAP = 15.0
#: Readings outside the limits are marked one by one up to this many, the newest first.
MOST_MARKS = 40


@dataclass(frozen=True, slots=True)
class Chart:
    """points: for the attribute of a polyline. limits, ideal: (y, height) of what all that lives here bears and likes.

    outside: (x, y) of readings outside the limits. ticks: (y, value) at the side. decimals: of its numbers.
    """

    points: str
    last: tuple[float, float]
    limits: tuple[float, float] | None
    ideal: tuple[float, float] | None
    outside: tuple[tuple[float, float], ...]
    outside_count: int
    ticks: tuple[tuple[float, float], ...]
    decimals: int
    first_at: datetime
    last_at: datetime
    low: float
    high: float
    count: int


def chart(run: Sequence[tuple[float, float]], band: Shared | None) -> Chart:
    """Lay out a run of one reading or more: (seconds since 1970, value), oldest first."""
    values = [value for _at, value in run]
    low, high = min(values), max(values)
    floor, top = _span(low, high, band)
    start, end = run[0][0], run[-1][0]
    across, up = (WIDTH - LEFT - RIGHT) / (end - start or 1.0), (HEIGHT - TOP - BOTTOM) / (top - floor)
    base = HEIGHT - BOTTOM

    def x(at: float) -> float:
        return round(LEFT + (at - start) * across, 1)

    def y(value: float) -> float:
        return round(base - (min(max(value, floor), top) - floor) * up, 1)

    drawn = run if len(run) <= MOST_POINTS else _thinned(run)
    outside = [] if band is None else [one for one in run if not band.limit_low <= one[1] <= band.limit_high]
    points = [f"{LEFT + (at - start) * across:.1f},{base - (value - floor) * up:.1f}" for at, value in drawn]
    return Chart(
        points=" ".join(points),
        last=(x(end), y(values[-1])),
        limits=_strip(y, (band.limit_low, band.limit_high)) if band else None,
        ideal=_strip(y, band.ideal) if band and band.ideal else None,
        outside=tuple((x(at), y(value)) for at, value in outside[-MOST_MARKS:]),
        outside_count=len(outside),
        ticks=_ticks(y, low, high, band),
        decimals=decimals_for(top - floor),
        first_at=datetime.fromtimestamp(start, UTC), last_at=datetime.fromtimestamp(end, UTC),
        low=low, high=high, count=len(run),
    )  # fmt: skip


def _span(low: float, high: float, band: Shared | None) -> tuple[float, float]:
    """What the picture spans: the readings, and the limits where they lie within reach of them."""
    if band is not None:
        width = max(band.limit_high - band.limit_low, 0.0)
        low = min(low, max(band.limit_low, low - width)) if width else low
        high = max(high, min(band.limit_high, high + width)) if width else high
    room = (high - low) * 0.06 or abs(high) * 0.02 or 1.0
    return low - room, high + room


def _thinned(run: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The first, least, greatest and last reading of each of MOST_POINTS / 4 columns, in their order."""
    start = run[0][0]
    step = (run[-1][0] - start) * 4 / MOST_POINTS or 1.0
    columns: dict[int, list[tuple[float, float]]] = {}
    for one in run:
        columns.setdefault(int((one[0] - start) / step), []).append(one)
    kept = []
    for column in columns.values():
        least, most = min(column, key=lambda one: one[1]), max(column, key=lambda one: one[1])
        kept += sorted({tuple(one) for one in (column[0], least, most, column[-1])})
    return kept


def _strip(y, ends: tuple[float, float]) -> tuple[float, float] | None:
    low, high = ends
    return (y(high), round(max(y(low) - y(high), 1.0), 1)) if low <= high else None


def _ticks(y, low: float, high: float, band: Shared | None) -> tuple[tuple[float, float], ...]:
    wanted = [low, high]
    if band:
        wanted = [*(band.ideal or ()), band.limit_low, band.limit_high, *wanted]
    shown: list[tuple[float, float]] = []
    for value in wanted:
        at = y(value)
        if TOP <= at <= HEIGHT - BOTTOM and all(abs(at - other) >= TICK_GAP for other, _value in shown):
            shown.append((at, value))
    return tuple(shown)
