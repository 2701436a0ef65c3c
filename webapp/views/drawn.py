"""Turns findings and readings into the geometry of drawings, in user units of an SVG picture. No rules live here."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from webapp.fit.profile import Band
from webapp.science.interval import Interval
from webapp.views.drawn_tank import TankView, tank_view

__all__ = ["FactorLine", "Sparkline", "TankView", "decimals_for", "factor_line", "sparkline", "tank_view"]

LOG_FACTORS = frozenset({"par", "flow"})
"""Light and flow: a doubling means the same everywhere, so equal ratios are drawn equally long."""
INSET = 14.0
"""Room at either end of a line for half a mark."""
REACH = 0.6
"""A reading further than this share of the limits' width beyond them is drawn at the end, with an arrow."""
LABEL_GAP = 40.0
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
        self.floor = low
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
        below, above = min(low, band.limit_low), max(high, band.limit_high)
        marks["beyond"] = (estimate.mid > above) - (estimate.mid < below)
    return FactorLine(width, *places, ticks=_ticks(band, places, width), **marks)  # type: ignore[arg-type]


def _ends(band: Band, estimate: Interval | None, used_to: float | None, log: bool) -> tuple[float, float]:
    """What the line spans: the limits, and the reading as far as REACH lets it widen the line.

    A logarithmic line has no zero: where the lower limit is 0 it begins below a hundredth of the upper one.
    """
    seen = [band.limit_low, band.limit_high]
    if estimate is not None:
        seen += [estimate.low, estimate.high]
    if used_to is not None:
        seen.append(used_to)
    if log:
        low, high = band.limit_low or band.limit_high * 1e-2, band.limit_high
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
        Tick(x, value, decimals, see, _anchor(x, width)) for x, value, see in zip(places, values, shown, strict=True)
    )


def _anchor(x: float, width: float) -> str:
    return "start" if x < LABEL_GAP / 2 else "end" if x > width - LABEL_GAP / 2 else "middle"


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
