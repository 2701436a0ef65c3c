"""Growth of a specimen: its rate with the error of measuring, and whether a new size is likely a typing error."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from math import exp, log, pi
from statistics import median
from typing import Any, Protocol

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.science.growth import GrowthRate, specific_growth_rate
from webapp.services.conditions import days_between
from webapp.storage.specimen import SpecimenRow

MEASURES = ("area_mm2", "heads", "size_mm")
#: Where nothing is known of a kind here: area or heads double in about three months (common practice).
USUAL_PER_DAY = log(2) / 90
FEWEST = 3
NINETEEN_IN_TWENTY = 1.96


@dataclass(frozen=True, slots=True)
class Growth:
    """What was measured: which measure, (moment, value) in order, and the rate or None when it is too soon to tell."""

    measure: str
    points: tuple[tuple[datetime, float], ...]
    rate: GrowthRate | None

    @property
    def days(self) -> float:
        """From the first to the last measurement."""
        return days_between(self.points[0][0], self.points[-1][0])

    @property
    def measured(self) -> tuple[tuple[datetime, float], ...]:
        """The points as they were measured: a disc's area is its diameter (mm) again."""
        if self.measure != "size_mm":
            return self.points
        return tuple((at, (4 * area / pi) ** 0.5) for at, area in self.points)

    @property
    def percent_error(self) -> float:
        """Half width (percent in 30 days) that holds the truth 19 times in 20: 1.96 standard errors, to first order."""
        if self.rate is None:
            return 0.0
        return NINETEEN_IN_TWENTY * 100 * 30 * exp(30 * self.rate.per_day) * self.rate.se_per_day


def points_of(sizes: Sequence[Sequence[Any]], measure: str) -> list[tuple[datetime, float]]:
    """(moment, value) of one measure. A diameter becomes the area of a disc (mm²), so that rates can be compared."""
    column = {"size_mm": 1, "heads": 2, "area_mm2": 3}[measure]
    found = [(datetime.fromisoformat(size[0]), float(size[column])) for size in sizes if size[column] is not None]
    return [(at, pi / 4 * value**2) for at, value in found] if measure == "size_mm" else found


class Measured(Protocol):
    """What growth is told from: a specimen, or these columns of it."""

    sizes: Sequence[Sequence[Any]]
    cut_at: datetime | None
    last_cut_at: datetime | None


def growth_of(row: Measured, limits: Mapping[str, float]) -> Growth | None:
    """Growth since it was last cut, by the measure that was taken most often; None with fewer than two sizes."""
    since = max((at for at in (row.last_cut_at, row.cut_at) if at is not None), default=None)
    by_measure = {
        measure: [one for one in points_of(row.sizes, measure) if since is None or one[0] >= since]
        for measure in MEASURES
    }
    measure = max(MEASURES, key=lambda name: len(by_measure[name]))
    points = by_measure[measure]
    if len(points) < 2:
        return None
    return Growth(measure, tuple(points), _rate(measure, points, limits))


def _rate(measure: str, points: list[tuple[datetime, float]], limits: Mapping[str, float]) -> GrowthRate | None:
    if days_between(points[0][0], points[-1][0]) < limits["growth_least_days"]:
        return None
    days = [days_between(points[0][0], at) for at, _value in points]
    values = [value for _at, value in points]
    return specific_growth_rate(days, values, reading_error(measure, median(values), limits))


def reading_error(measure: str, value: float, limits: Mapping[str, float]) -> float:
    """Relative standard error of one measurement: of a disc twice that of its diameter; of a count one head."""
    if measure == "heads":
        return min(1.0, 1 / value)
    across = (4 * value / pi) ** 0.5
    return min(1.0, 2 * limits["growth_error_mm"] / across)


def ellipse(size_mm: float, across_mm: float, error_mm: float) -> tuple[float, float]:
    """Area (mm²) of an ellipse with these two diameters, and the half width that holds the truth 19 times in 20.

    error_mm: standard error of each diameter. Equation: pi d1 d2 / 4; its error to first order, 1.96 standard errors.
    Source: elementary geometry; JCGM 100:2008 (GUM), 5.1.2, for the error.
    """
    half_width = NINETEEN_IN_TWENTY * pi / 4 * error_mm * (size_mm**2 + across_mm**2) ** 0.5
    return pi / 4 * size_mm * across_mm, half_width


def usual_rate(session: Session, profile_key: str, limits: Mapping[str, float]) -> float:
    """The median growth rate (1/day) of this kind here, or a common fast one where fewer than three are known."""
    rows = session.scalars(select(SpecimenRow).where(SpecimenRow.profile_key == profile_key).limit(500))
    rates = [growth.rate.per_day for row in rows if (growth := growth_of(row, limits)) and growth.rate]
    rates = [rate for rate in rates if rate > 0]
    return median(rates) if len(rates) >= FEWEST else USUAL_PER_DAY


@dataclass(frozen=True, slots=True)
class OddSize:
    """A new size that is likely a typing error: which measure, the last one (mm or heads), and what is not asked about.

    low, high: from the one to the other (mm or heads) a size is taken as it is.
    """

    measure: str
    last: float
    last_at: datetime
    low: float
    high: float


def odd_size(
    session: Session, row: SpecimenRow, size: Mapping[str, Any], limits: Mapping[str, float], now: datetime
) -> OddSize | None:
    """The new size or count that is likely a typing error, or None.

    Odd, for the area of its disc or its count: growth faster than `growth_odd_times` the usual rate, or that many
    times more than the usual rate gives, or less than one part in that many left. Two reading errors are allowed for.
    """
    times = limits["growth_odd_times"]
    for measure in ("size_mm", "heads"):
        points = points_of(row.sizes, measure)
        if size.get(measure) is None or not points:
            continue
        last_at, last = points[-1]
        new = pi / 4 * size[measure] ** 2 if measure == "size_mm" else float(size[measure])
        grown = usual_rate(session, row.profile_key, limits) * max(1.0, days_between(last_at, now))
        slack = 1 + 2 * reading_error(measure, last, limits)
        most = last * slack * min(exp(min(50.0, times * grown)), times * exp(min(50.0, grown)))
        if not last / times <= new <= most:
            told = [(4 * one / pi) ** 0.5 if measure == "size_mm" else one for one in (last, last / times, most)]
            return OddSize(measure, told[0], last_at, *told[1:])
    return None
