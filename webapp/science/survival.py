"""Survival from lifetimes of which some are not over yet: the product-limit estimate with its interval."""

from collections.abc import Sequence
from dataclasses import dataclass

from webapp.science.ranges import within


@dataclass(frozen=True, slots=True)
class SurvivalCurve:
    """Steps of a survival curve: at `times` (of deaths) the share that still lives drops to `shares`.

    low, high: the interval of each share. at_risk, deaths: at each time. count: lifetimes in all; died: how many of
    them ended in death; longest: the longest of all.
    """

    times: tuple[float, ...]
    shares: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    at_risk: tuple[int, ...]
    deaths: tuple[int, ...]
    count: int
    died: int
    longest: float

    def at(self, time: float) -> tuple[float, float, float]:
        """(share, low, high) that lives at `time`; (1, 1, 1) before the first death."""
        reached = [place for place, when in enumerate(self.times) if when <= time]
        if not reached:
            return 1.0, 1.0, 1.0
        return self.shares[reached[-1]], self.low[reached[-1]], self.high[reached[-1]]

    @property
    def median(self) -> float | None:
        """The first time at which at most half live, None where more than half live to the end."""
        return next((when for when, share in zip(self.times, self.shares, strict=True) if share <= 0.5), None)


def kaplan_meier(durations: Sequence[float], died: Sequence[bool], confidence: float = 0.95) -> SurvivalCurve:
    """The product-limit estimate and its log-log ("exponential Greenwood") interval.

    durations: 0 or more, any one unit; died: whether each ended in death (else it was alive when last known of).
    Range: one lifetime or more; confidence 0.5 to 0.999. Raises ValueError outside it.
    Equation: S(t) = product of (1 - d_i / n_i); interval of log(-log S). Source: kaplan_meier_1958; computed by scipy.
    """
    from scipy.stats import CensoredData, ecdf  # on demand: it takes longer to load than the rest of the program

    within("confidence", confidence, 0.5, 0.999)
    if not durations or len(durations) != len(died) or any(not one >= 0 for one in durations):
        raise ValueError("durations must be 0 or more, at least one, and as many as there are outcomes")
    ended = [one for one, dead in zip(durations, died, strict=True) if dead]
    alive = [one for one, dead in zip(durations, died, strict=True) if not dead]
    times = sorted(set(ended))
    if not times:
        return SurvivalCurve((), (), (), (), (), (), len(durations), 0, max(durations))
    survival = ecdf(CensoredData(uncensored=ended, right=alive)).sf
    interval = _interval(survival, confidence)
    shares = tuple(float(share) for share in survival.evaluate(times))
    ends = [
        (share, share) if share in (0.0, 1.0) else (float(low), float(high))
        for share, low, high in zip(shares, interval[0](times), interval[1](times), strict=True)
    ]
    return SurvivalCurve(
        tuple(times), shares, tuple(low for low, _ in ends), tuple(high for _, high in ends),
        tuple(sum(one >= when for one in durations) for when in times), tuple(ended.count(when) for when in times),
        len(durations), len(ended), max(durations),
    )  # fmt: skip


def _interval(survival, confidence: float):
    """Where all have died the last step has no interval; the library warns of it by a division by zero."""
    import warnings

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        interval = survival.confidence_interval(confidence_level=confidence, method="log-log")
    return interval.low.evaluate, interval.high.evaluate
