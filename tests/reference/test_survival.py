"""Survival curves against a published trial with its printed values; the line against NIST's certified regression."""

import math

import pytest
from scipy.stats import CensoredData, ecdf

from tests.reference.deviations import record
from tests.reference.test_growth import NORRIS, NORRIS_SLOPE, NORRIS_STANDARD_ERROR
from webapp.science.survival import kaplan_meier
from webapp.science.trend import linear_trend

# Freireich et al. 1963, Blood 21, 699-716: weeks of remission, 6-mercaptopurine; + means still in remission.
TREATED = "6 6 6 6+ 7 9+ 10 10+ 11+ 13 16 17+ 19+ 20+ 22 23 25+ 32+ 32+ 34+ 35+"
PLACEBO = "1 1 2 2 3 4 4 5 5 8 8 8 8 11 11 12 12 15 17 22 23"
#: time, at risk, deaths, survival, as printed in textbooks of survival analysis for this trial.
PRINTED = [
    (6, 21, 3, 0.857), (7, 17, 1, 0.807), (10, 15, 1, 0.753), (13, 12, 1, 0.690), (16, 11, 1, 0.627),
    (22, 7, 1, 0.538), (23, 6, 1, 0.448),
]  # fmt: skip
NORRIS_INTERCEPT, NORRIS_INTERCEPT_SE, NORRIS_R2 = -0.262323073774029, 0.232818234301152, 0.999993745883712


def curve(weeks):
    each = weeks.split()
    return kaplan_meier([float(one.rstrip("+")) for one in each], [not one.endswith("+") for one in each])


def test_the_published_trial():
    treated = curve(TREATED)
    rows = list(zip(treated.times, treated.at_risk, treated.deaths, treated.shares, strict=True))
    assert [row[:3] for row in rows] == [row[:3] for row in PRINTED]
    for (_t, _n, _d, ours), (_pt, _pn, _pd, theirs) in zip(rows, PRINTED, strict=True):
        record("Share that survives", "Freireich et al. 1963, 6-MP, printed", ours, theirs, 6e-4)
    assert (treated.median, curve(PLACEBO).median) == (23, 8)


def test_the_shares_by_scipy():
    """scipy.stats.ecdf on both arms of the trial."""
    for weeks in (TREATED, PLACEBO):
        ours, each = curve(weeks), weeks.split()
        data = CensoredData(
            uncensored=[float(one) for one in each if "+" not in one],
            right=[float(one[:-1]) for one in each if "+" in one],
        )
        for at, share in zip(ours.times, ours.shares, strict=True):
            record("Share that survives", "scipy.stats.ecdf", share, float(ecdf(data).sf.evaluate(at)), 1e-12)


def test_the_interval_by_its_own_formula():
    """Greenwood 1926: var(log(-log S)) = sum(d / (n (n - d))) / log(S)^2, worked out step by step."""
    treated, total = curve(TREATED), 0.0
    for at, (_t, n, d, _s) in enumerate(PRINTED):
        total += d / (n * (n - d))
        share = treated.shares[at]
        half = 1.959963984540054 * math.sqrt(total) / abs(math.log(share))
        for ours, sign in ((treated.low[at], 1), (treated.high[at], -1)):
            theirs = share ** math.exp(sign * half)
            record("Interval of the share that survives", "Greenwood's formula, log-log", ours, theirs, 1e-9)
    assert (treated.low[0], treated.high[0]) == (pytest.approx(0.619718, abs=1e-6), pytest.approx(0.951552, abs=1e-6))


def test_certified_line():
    line = linear_trend([x for x, _ in NORRIS], [y for _, y in NORRIS])
    for name, ours, theirs in (
        ("slope", line.slope, NORRIS_SLOPE), ("intercept", line.intercept, NORRIS_INTERCEPT),
        ("standard error of the slope", line.slope_se, NORRIS_STANDARD_ERROR),
        ("standard error of the intercept", line.intercept_se, NORRIS_INTERCEPT_SE),
        ("R²", line.r_squared, NORRIS_R2),
    ):  # fmt: skip
        record(f"Straight line: {name}", "NIST StRD Norris", ours, theirs, 1e-9)
