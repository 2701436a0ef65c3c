"""An estimate with its reach: low, best estimate, high. Every reading and every derived light or flow value is one."""

import math
from dataclasses import dataclass

LOG_FLOOR = 1e-3
"""On a logarithmic scale an interval that starts at zero is taken to start at this share of its upper end."""


@dataclass(frozen=True, slots=True)
class Interval:
    """`low <= mid <= high`, all in the same unit; `mid` is the best estimate and need not be the centre.

    Raises ValueError where the order is broken or a value is not finite.
    """

    low: float
    mid: float
    high: float

    def __post_init__(self) -> None:
        if not (-math.inf < self.low <= self.mid <= self.high < math.inf):
            raise ValueError(f"low, mid, high must be finite and in order, got {self.low}, {self.mid}, {self.high}")

    @classmethod
    def exact(cls, x: float) -> "Interval":
        """A value without error."""
        return cls(x, x, x)

    @classmethod
    def plus_minus(cls, x: float, half: float) -> "Interval":
        """`x` with a symmetric half-range, `half` >= 0 in the unit of `x`."""
        if not half >= 0:
            raise ValueError(f"half must not be negative, got {half}")
        return cls(x - half, x, x + half)

    @classmethod
    def times_over(cls, x: float, down: float, up: float | None = None) -> "Interval":
        """`x` > 0 with relative half-ranges: from x / (1 + down) to x * (1 + up); `up` defaults to `down`."""
        up = down if up is None else up
        if not x > 0:
            raise ValueError(f"x must be above 0, got {x}")
        if not down >= 0:
            raise ValueError(f"down must not be negative, got {down}")
        if not up >= 0:
            raise ValueError(f"up must not be negative, got {up}")
        return cls(x / (1 + down), x, x * (1 + up))

    def scaled(self, f: float) -> "Interval":
        """Every part times `f` >= 0 (a change of unit, a known factor)."""
        if not 0 <= f < math.inf:
            raise ValueError(f"f must be finite and not negative, got {f}")
        return Interval(self.low * f, self.mid * f, self.high * f)

    def widened(self, down: float, up: float | None = None) -> "Interval":
        """The same best estimate with further independent relative half-ranges, added in quadrature on a log scale.

        Needs `low` > 0. `down` and `up` are as in `times_over`.
        """
        if not self.low > 0:
            raise ValueError(f"low must be above 0 to widen on a log scale, got {self.low}")
        up = down if up is None else up
        down = combine_relative(self.mid / self.low - 1, down)
        return Interval.times_over(self.mid, down, combine_relative(self.high / self.mid - 1, up))

    def share_outside(self, lower: float | None, upper: float | None, log: bool = False) -> float:
        """Share of the interval's length that lies outside [lower, upper], 0..1.

        Either bound may be None (open). `log` measures lengths of logarithms, right for light and flow, where a
        doubling means the same everywhere. An interval without width gives 0 (inside, bounds included) or 1.
        """
        if lower is not None and upper is not None and lower > upper:
            raise ValueError(f"lower must not exceed upper, got {lower} and {upper}")
        low, high = self.low, self.high
        if low == high or (log and high <= 0):
            outside = (lower is not None and high < lower) or (upper is not None and high > upper)
            return float(outside)
        if log:
            floor = high * LOG_FLOOR
            ends = (low, high, lower, upper)
            low, high, lower, upper = (None if v is None else math.log(max(v, floor)) for v in ends)
        inside_from = low if lower is None else max(low, lower)
        inside_to = high if upper is None else min(high, upper)
        return 1.0 - max(0.0, inside_to - inside_from) / (high - low)


def combine_relative(*rels: float) -> float:
    """Independent relative half-ranges as one, in quadrature of their logarithms.

    Each r >= 0 means 'times or divided by 1 + r'. Returns R with ln(1 + R)^2 = sum of ln(1 + r)^2
    for a product of independent factors. Source: jcgm_100_2008.
    """
    if not all(0 <= r < math.inf for r in rels):
        raise ValueError(f"rels must be finite and not negative, got {rels}")
    return math.expm1(math.hypot(*(math.log1p(r) for r in rels)))
