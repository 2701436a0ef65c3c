"""A straight line through measured values: its slope with the error of the slope."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Trend:
    """slope (value per unit of x), intercept, their standard errors; low, high: the slope's 95 % interval."""

    slope: float
    intercept: float
    slope_se: float
    intercept_se: float
    r_squared: float
    low: float
    high: float
    count: int

    @property
    def is_certain(self) -> bool:
        """Whether the interval of the slope leaves out zero."""
        return self.low > 0 or self.high < 0


def linear_trend(x: Sequence[float], y: Sequence[float]) -> Trend | None:
    """The least-squares line; None with fewer than three points or where all x are the same.

    Range: as many y as x. Equation: ordinary least squares; the interval is slope ± t(0.975, n - 2) · se.
    Source: nist_strd for the regression; computed by scipy.
    """
    from scipy.stats import linregress, t  # on demand: it takes longer to load than the rest of the program

    if len(x) != len(y):
        raise ValueError("as many y as x are needed")
    if len(x) < 3 or min(x) == max(x):
        return None
    line = linregress(x, y)
    half = float(t.ppf(0.975, len(x) - 2)) * float(line.stderr)
    return Trend(
        float(line.slope), float(line.intercept), float(line.stderr), float(line.intercept_stderr),
        float(line.rvalue) ** 2, float(line.slope) - half, float(line.slope) + half, len(x),
    )  # fmt: skip
