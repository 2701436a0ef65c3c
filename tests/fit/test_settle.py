"""What would settle most, against the long way: every combination of outcomes written out, and its entropy."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fit.making import GOOD, finding, kind, report, tank, with_band
from webapp.fit.settle import chances_of, gain

shares = st.tuples(st.floats(0.01, 1), st.floats(0.01, 1), st.floats(0.01, 1)).map(
    lambda parts: tuple(part / sum(parts) for part in parts)
)


def _whole(outcomes, close: int, demanding: bool) -> str:
    if "worse" in outcomes:
        return "change_first"
    close += outcomes.count("close")
    if demanding and close >= 3:
        return "change_first"
    return "close" if close else "suits"


def _entropy(chances: dict[str, float]) -> float:
    total = sum(chances.values())
    return -sum(p / total * math.log2(p / total) for p in chances.values() if p > 1e-15)


def _spread(factors, close: int, demanding: bool) -> dict[str, float]:
    spread: dict[str, float] = {}
    for outcomes in itertools.product(("suits", "close", "worse"), repeat=len(factors)):
        p = math.prod(f[("suits", "close", "worse").index(o)] for f, o in zip(factors, outcomes, strict=True))
        found = _whole(list(outcomes), close, demanding)
        spread[found] = spread.get(found, 0.0) + p
    return spread


@given(shares, st.lists(shares, max_size=4), st.integers(0, 4), st.booleans())
@settings(max_examples=120, deadline=None)
def test_gain_is_that_of_the_full_enumeration(one, others, close, demanding):
    before = _entropy(_spread([one, *others], close, demanding))
    sure = {"suits": (1.0, 0.0, 0.0), "close": (0.0, 1.0, 0.0), "worse": (0.0, 0.0, 1.0)}
    known = [_entropy(_spread([certain, *others], close, demanding)) for certain in sure.values()]
    after = sum(p * left for p, left in zip(one, known, strict=True))
    assert gain(one, others, close, demanding) == pytest.approx(before - after, abs=1e-9)


def test_what_cannot_change_the_whole_is_worth_nothing():
    certain = (1.0, 0.0, 0.0)
    assert gain(certain, [(0.5, 0.2, 0.3)], 0, False) == pytest.approx(0)
    # Three settled as close already decide a demanding animal's whole.
    assert gain((0.5, 0.3, 0.2), [], 3, True) == pytest.approx(0)


def test_chances_of_a_blank_are_shares_of_what_is_usual():
    """Light from 20 to 600 on a logarithmic scale, calcium from 350 to 500 on a linear one; the band as in the kind."""
    answer = report(tank(light=None, readings={}))
    suits, close, worse = chances_of(finding(answer, "light"), kind())
    assert suits == pytest.approx(math.log(200 / 80) / math.log(30))
    assert suits + close == pytest.approx(math.log(300 / 50) / math.log(30))
    assert chances_of(finding(answer, "ca"), kind()) == pytest.approx((50 / 150, 60 / 150, 40 / 150))
    assert suits + close + worse == pytest.approx(1)


@pytest.mark.parametrize("hardiness", [1, 4])
def test_the_order_is_that_of_the_gains(hardiness):
    profile = with_band("alk", 7.5, 8, 9, 10, hardiness=hardiness)
    readings = {name: (value,) for name, value in GOOD.items() if name in ("temp", "ca", "mg", "ph")}
    answer = report(tank(readings=readings), profile)
    chances = {name: chances_of(finding(answer, name), profile) for name in ("salinity", "alk", "no3", "po4")}
    gains = {
        name: gain(one, [other for key, other in chances.items() if key != name], 0, hardiness >= 3)
        for name, one in chances.items()
    }
    assert list(answer.settle_next) == sorted(gains, key=lambda name: -gains[name])
