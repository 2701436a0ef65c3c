"""Growth of a colony from its measured sizes: a rate with its error, or nothing when it is too soon to tell."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, log, pi, sqrt

from webapp.science.ranges import above, within

MIN_DAYS = 14.0
LN2 = log(2)


@dataclass(frozen=True)
class GrowthRate:
    """Specific growth rate and its standard error, per day, from `count` sizes over `days`. Negative is shrinking."""

    per_day: float
    se_per_day: float
    days: float
    count: int

    @property
    def doubling_days(self) -> float | None:
        """Days to double, None when it does not grow."""
        return LN2 / self.per_day if self.per_day > 0 else None

    @property
    def percent_per_30_days(self) -> float:
        """Change of size in 30 days, %."""
        return 100 * (exp(30 * self.per_day) - 1)


def area_from_diameters_cm2(long_cm: float, short_cm: float) -> float:
    """Area (cm²) of a colony from its longest diameter and the one across it (cm), as an ellipse.

    Range: above 0, at most 500 cm; the two may come in either order. Equation: π/4 · a · b. Source: definition.
    """
    above("long_cm", within("long_cm", long_cm, 0, 500), 0)
    above("short_cm", within("short_cm", short_cm, 0, 500), 0)
    return pi / 4 * long_cm * short_cm


def specific_growth_rate(
    days: Sequence[float], sizes: Sequence[float], reading_error: float = 0.05
) -> GrowthRate | None:
    """Specific growth rate of sizes (area, weight, count; any one unit, above 0) measured at `days` (in order of time).

    reading_error is the relative standard error of one size (0 to 1). None when the measurements span less than 14 days
    or when the fitted change over them is below the reading error of two sizes: then nothing can be said yet.
    Range: two sizes or more, as many as days. Equation: slope of ln(size) by least squares; its standard error is the
    larger of that of the residuals (three or more sizes) and that of the reading error, u / sqrt(Sxx).
    Source: definition; nist_strd for the regression.
    """
    _check(days, sizes)
    within("reading_error", reading_error, 0, 1)
    n = len(days)
    span = days[-1] - days[0]
    if span < MIN_DAYS:
        return None
    mean_t = sum(days) / n
    logs = [log(size) for size in sizes]
    mean_y = sum(logs) / n
    sxx = sum((t - mean_t) ** 2 for t in days)
    slope = sum((t - mean_t) * (y - mean_y) for t, y in zip(days, logs, strict=True)) / sxx
    if abs(slope) * span < sqrt(2) * reading_error:
        return None
    residual = sum((y - mean_y - slope * (t - mean_t)) ** 2 for t, y in zip(days, logs, strict=True))
    se_fit = sqrt(residual / (n - 2) / sxx) if n > 2 else 0.0
    return GrowthRate(slope, max(se_fit, reading_error / sqrt(sxx)), span, n)


def _check(days: Sequence[float], sizes: Sequence[float]) -> None:
    if len(days) != len(sizes) or len(days) < 2:
        raise ValueError("days and sizes must be two or more, and as many of one as of the other")
    if any(not later >= earlier for earlier, later in zip(days, days[1:], strict=False)):
        raise ValueError("days must be in order of time")
    for size in sizes:
        above("sizes", size, 0)
