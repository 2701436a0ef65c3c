"""Survival from lifetimes of which some are not over yet: the product-limit estimate with its interval."""

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterable, Sequence
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
        reached = bisect_right(self.times, time)
        if not reached:
            return 1.0, 1.0, 1.0
        return self.shares[reached - 1], self.low[reached - 1], self.high[reached - 1]

    @property
    def median(self) -> float | None:
        """The first time at which at most half live, None where more than half live to the end."""
        return next((when for when, share in zip(self.times, self.shares, strict=True) if share <= 0.5), None)


@dataclass(frozen=True, slots=True)
class Step:
    """At `time` some of those still looked at died; `share` lives on."""

    time: float
    at_risk: int
    deaths: int
    share: float


def product_limit(lives: Iterable[tuple[float, bool]]) -> list[Step]:
    """The steps of a survival curve; lives: (how long it was looked at, died at the end of that), any one unit of time.

    Whoever was sold was looked at up to then and no longer. Range: times of 0 or more.
    Equation: S(t) = product of (1 - d_i / n_i). Source: kaplan_meier_1958.
    """
    ends = sorted(lives)
    deaths = Counter(lasted for lasted, died in ends if died)
    steps, share = [], 1.0
    for moment, died in sorted(deaths.items()):
        at_risk = len(ends) - bisect_left(ends, (moment, False))
        share *= 1 - died / at_risk
        steps.append(Step(moment, at_risk, died, share))
    return steps


def share_alive(lives: Iterable[tuple[float, bool]], time: float) -> float | None:
    """The share that lives at `time`; lives as in `product_limit`. None where nobody was looked at.

    Range: times of 0 or more. Equation: S(t) = product of (1 - d_i / n_i). Source: kaplan_meier_1958.
    """
    lives = list(lives)
    if not lives:
        return None
    return next((step.share for step in reversed(product_limit(lives)) if step.time <= time), 1.0)


def kaplan_meier(durations: Sequence[float], died: Sequence[bool], confidence: float = 0.95) -> SurvivalCurve:
    """The product-limit estimate and its log-log ("exponential Greenwood") interval.

    durations: 0 or more, any one unit; died: whether each ended in death (else it was alive when last known of).
    Range: one lifetime or more; confidence 0.5 to 0.999. Raises ValueError outside it.
    Equation: S(t) = product of (1 - d_i / n_i); interval of log(-log S). Source: kaplan_meier_1958; interval by scipy.
    """
    from scipy.stats import CensoredData, ecdf  # on demand: it takes longer to load than the rest of the program

    within("confidence", confidence, 0.5, 0.999)
    if not durations or len(durations) != len(died) or any(not one >= 0 for one in durations):
        raise ValueError("durations must be 0 or more, at least one, and as many as there are outcomes")
    ended = [one for one, dead in zip(durations, died, strict=True) if dead]
    alive = [one for one, dead in zip(durations, died, strict=True) if not dead]
    steps = product_limit(zip(durations, died, strict=True))
    if not steps:
        return SurvivalCurve((), (), (), (), (), (), len(durations), 0, max(durations))
    interval = _interval(ecdf(CensoredData(uncensored=ended, right=alive)).sf, confidence)
    times, shares = [step.time for step in steps], [step.share for step in steps]
    ends = [
        (share, share) if share <= 0.0 else (float(low), float(high))
        for share, low, high in zip(shares, interval[0](times), interval[1](times), strict=True)
    ]
    return SurvivalCurve(
        tuple(times), tuple(shares), tuple(low for low, _ in ends), tuple(high for _, high in ends),
        tuple(step.at_risk for step in steps), tuple(step.deaths for step in steps),
        len(durations), len(ended), max(durations),
    )  # fmt: skip


def _interval(survival, confidence: float):
    """Where all have died the last step has no interval; the library warns of it by a division by zero."""
    import warnings

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RuntimeWarning)
        interval = survival.confidence_interval(confidence_level=confidence, method="log-log")
    return interval.low.evaluate, interval.high.evaluate
