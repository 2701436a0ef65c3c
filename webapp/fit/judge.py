"""One interval against one band: the rule that every measured factor is judged by.

With c the best estimate and q the share of the interval outside the limits: c inside and q <= 1/4 is settled as suits
(c in the ideal) or close; c outside and q >= 3/4 is settled as change first; anything else is not known. Where an
interval is even on its scale c adds nothing to q; where it is not it keeps a narrower error from reversing an answer.
"""

from dataclasses import dataclass

from webapp.fit.findings import ORDER, Note, Verdict
from webapp.fit.profile import Band
from webapp.science.interval import Interval

SETTLED_INSIDE = 0.25
SETTLED_OUTSIDE = 0.75
RANK: dict[Verdict, int] = {verdict: rank for rank, verdict in enumerate(ORDER)}


@dataclass(frozen=True, slots=True)
class Judgement:
    """`code` is the reason's code (codes.REASONS); `share_outside` is q."""

    verdict: Verdict
    code: str
    near_edge: bool
    share_outside: float


def judge(interval: Interval, band: Band, *, log: bool = False) -> Judgement:
    """The verdict on `interval` against `band`, both in one unit. `log`: shares of logarithms (light, flow).

    Equation: q = share of the interval outside the limits; up to 1/4 inside, from 3/4 outside, else not known.
    Source: our own rule.
    """
    q = _share_outside(interval, band, log)
    c = interval.mid
    inside = band.limit_low <= c <= band.limit_high
    if inside and q <= SETTLED_INSIDE:
        if c < band.ideal_low:
            return Judgement("close", "below_ideal", False, q)
        if c > band.ideal_high:
            return Judgement("close", "above_ideal", False, q)
        near = max(0.0, interval.low) < band.ideal_low or interval.high > band.ideal_high
        return Judgement("suits", "in_ideal_near_edge" if near else "in_ideal", near, q)
    if not inside and q >= SETTLED_OUTSIDE:
        return Judgement("change_first", "above_limit" if c > band.limit_high else "below_limit", False, q)
    return Judgement("not_known", "straddles_limit", False, q)


def _share_outside(interval: Interval, band: Band, log: bool) -> float:
    if band.limit_low <= interval.low and interval.high <= band.limit_high:
        return 0.0
    if interval.high < band.limit_low or interval.low > band.limit_high:
        return 1.0
    return interval.share_outside(band.limit_low if band.limit_low > 0 else None, band.limit_high, log=log)


def worse(a: Verdict, b: Verdict) -> Verdict:
    """The worse of two verdicts."""
    return a if RANK[a] >= RANK[b] else b


def worst(verdicts: tuple[Verdict, ...], best: Verdict = "suits") -> Verdict:
    """The worst of several verdicts; `best` where there is none."""
    return max(verdicts, key=RANK.__getitem__, default=best)


def shown(interval: Interval) -> Interval:
    """The range as a person sees it: no amount is below zero."""
    return interval if interval.low >= 0 else Interval(0.0, max(0.0, interval.mid), max(0.0, interval.high))


def range_values(interval: Interval, band: Band) -> dict[str, float]:
    """The values that every reason about a band carries."""
    return {
        "value": interval.mid, "low": max(0.0, interval.low), "high": interval.high,
        "limit_low": band.limit_low, "ideal_low": band.ideal_low,
        "ideal_high": band.ideal_high, "limit_high": band.limit_high,
    }  # fmt: skip


def reason(judgement: Judgement, interval: Interval, band: Band) -> Note:
    """The judgement as a note."""
    values: dict = range_values(interval, band)
    if judgement.code == "straddles_limit":
        values["share_outside"] = judgement.share_outside
    return Note(judgement.code, values)
