"""Which reading would settle most: how much uncertainty about the whole each open factor carries, computed.

Every open factor gets the chances of its verdicts: from its own interval where it has one, else from a spread of
readings usual in reef tanks (uniform over the plausible range of science.units; light and flow on a logarithmic
scale). With them the whole has chances too, and a factor's worth is the mean fall of the whole's entropy once it is
known (Shannon 1948). What is settled as change first is taken as mended, so that the order still says something.
"""

import math
from collections.abc import Sequence

from webapp.fit.findings import Finding
from webapp.fit.profile import Band, Profile
from webapp.fit.whole import DEMANDING_FROM, TOO_MANY_CLOSE, at_best_close, counts
from webapp.science.units import QUANTITIES

Chances = tuple[float, float, float]
"""Of suits, close, and worse (change first or not here)."""

LOGARITHMIC = frozenset({"light", "flow"})
USUAL = {
    **{name: quantity.plausible for name, quantity in QUANTITIES.items()},
    "light": QUANTITIES["par"].plausible,
    "flow": QUANTITIES["flow_speed"].plausible,
    "summer": (24.0, 32.0),
    "alk": (5.0, 13.0),
}
AGE_MONTHS = 36.0
"""Tanks of buyers are taken as evenly spread up to this age."""
FLAT: Chances = (0.6, 0.3, 0.1)
"""For open factors without a range: tankmates, neighbours, space, feeding (a guess that orders them last)."""


def settle_next(findings: Sequence[Finding], profile: Profile) -> tuple[str, ...]:
    """Open factors that count, the most worth knowing first; empty where it is 'not here' or nothing is open.

    Equation: mean fall of the whole's entropy once the factor is known. Source: shannon_1948.
    """
    if any(finding.verdict == "not_here" for finding in findings):
        return ()
    open_ones = {f.factor: chances_of(f, profile) for f in findings if f.verdict == "not_known" and counts(f)}
    close = sum(f.verdict == "close" for f in findings)
    demanding = profile.hardiness >= DEMANDING_FROM
    worth = {}
    for factor, chances in open_ones.items():
        others = [other for name, other in open_ones.items() if name != factor]
        worth[factor] = gain(chances, others, close, demanding)
    return tuple(sorted(worth, key=lambda factor: (-round(worth[factor], 9), factor)))


def gain(chances: Chances, others: list[Chances], close: int, demanding: bool) -> float:
    """Bits by which knowing one open factor narrows the whole. `close`: factors settled as close; `demanding`: three
    of them count as change first."""
    none, counts_of = _others(others)
    after = [
        _whole(counts_of, none, close + extra, demanding) if extra is not None else (0.0, 0.0, 1.0)
        for extra in (0, 1, None)
    ]
    before = [sum(p * whole[i] for p, whole in zip(chances, after, strict=True)) for i in range(3)]
    return _entropy(before) - sum(p * _entropy(whole) for p, whole in zip(chances, after, strict=True))


def _others(others: list[Chances]) -> tuple[float, list[float]]:
    """The chance that none of them is worse, and with that how many are close (0, 1, 2, 3 or more)."""
    spread = [1.0, 0.0, 0.0, 0.0]
    for suits, near, _ in others:
        spread = [
            spread[0] * suits,
            spread[1] * suits + spread[0] * near,
            spread[2] * suits + spread[1] * near,
            spread[3] * (suits + near) + spread[2] * near,
        ]
    return sum(spread), spread


def _whole(spread: list[float], none_worse: float, close: int, demanding: bool) -> tuple[float, float, float]:
    """Chances of the whole: suits, close, change first."""
    if not demanding:
        suits = spread[0] if close == 0 else 0.0
        return suits, none_worse - suits, 1 - none_worse
    suits = spread[0] if close == 0 else 0.0
    few = sum(spread[n] for n in range(4) if 0 < n + close < TOO_MANY_CLOSE)
    return suits, few, max(0.0, 1 - suits - few)


def _entropy(chances: Sequence[float]) -> float:
    return -sum(p * math.log2(p) for p in chances if p > 1e-12)


def chances_of(finding: Finding, profile: Profile) -> Chances:
    """The chances of an open factor's verdicts before it is known."""
    if finding.factor == "age":
        worse = min(1.0, profile.min_tank_age_months / AGE_MONTHS)
        return 1 - worse, 0.0, worse
    if finding.band is None:
        return FLAT
    log = finding.factor in LOGARITHMIC
    if finding.estimate is not None:
        chances = _over(finding.estimate.low, finding.estimate.high, finding.band, log)
        return (0.0, 1 - chances[2], chances[2]) if at_best_close(finding) else (1 - chances[2], 0.0, chances[2])
    usual = USUAL.get(finding.factor)
    return FLAT if usual is None else _over(*usual, finding.band, log)


def _over(low: float, high: float, band: Band, log: bool) -> Chances:
    """Chances of an even spread from low to high against the band."""
    edges = [low, high, band.limit_low, band.ideal_low, band.ideal_high, band.limit_high]
    if log:
        edges = [math.log(max(edge, 1e-2)) for edge in edges]
    low, high, *band_edges = edges
    if high <= low:
        return FLAT
    ideal = max(0.0, min(high, band_edges[2]) - max(low, band_edges[1])) / (high - low)
    inside = max(0.0, min(high, band_edges[3]) - max(low, band_edges[0])) / (high - low)
    return ideal, max(0.0, inside - ideal), max(0.0, 1 - inside)
