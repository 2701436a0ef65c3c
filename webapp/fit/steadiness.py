"""How far the tank swings in a day, and how hot it gets in summer. Steady water outweighs perfect numbers."""

import math

from webapp.fit.findings import Finding, Note
from webapp.fit.judge import SETTLED_OUTSIDE, judge, range_values, worst
from webapp.fit.methods import method_for
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Band, Basis, Profile
from webapp.fit.readings import estimate
from webapp.fit.whole import DEMANDING_FROM
from webapp.science.interval import Interval

BEARS = {"temp": 1.5, "salinity": 1.0, "alk": 0.5}
"""Daily swings that are borne: degrees C, ppt, dKH (common practice)."""
MUST_BE_STEADY = frozenset({"sps"})
"""Groups that pay at once for water that moves (common practice)."""
_BASIS = Basis("common_practice", note="daily swings that small-polyped stony corals bear")


def is_steady(prepared: PreparedTank) -> bool:
    """Whether nothing said speaks against a stable tank."""
    return all(prepared.tank.swings.get(quantity, 0.0) <= bears for quantity, bears in BEARS.items())


def judge_stability(prepared: PreparedTank, profile: Profile) -> list[Finding]:
    """One finding where swings were said, and a blank for small-polyped stony corals, which need it steady.

    Equation: two tests differ by sqrt(2) times their error. Source: common practice (swings borne); jcgm_100_2008.
    """
    strict = profile.group in MUST_BE_STEADY
    said = prepared.tank.swings
    swings = [(quantity, said[quantity]) for quantity in BEARS if math.isfinite(said.get(quantity, math.nan))]
    if not swings:
        return [Finding("stability", "not_known", (Note("swings_not_said"),), basis=(_BASIS,))] if strict else []
    verdicts, reasons, advice = [], [], []
    for quantity, swing in swings:
        verdict, note = _swing(quantity, swing, _error(quantity, prepared), strict)
        verdicts.append(verdict)
        reasons.append(note)
        if verdict != "suits":
            advice.append(Note("steady_it", {"quantity": quantity, "bears": BEARS[quantity]}))
    verdict = worst(tuple(verdicts))
    return [Finding("stability", verdict, tuple(reasons), basis=(_BASIS,), advice=tuple(advice))]


def _error(quantity: str, prepared: PreparedTank) -> float:
    """Half-range of a difference of two tests of one kind; only a drop kit's hides a swing that matters."""
    estimates = prepared.readings.estimates.get(quantity)
    method = estimates[0].method if estimates else method_for(quantity, "")[0]
    return math.sqrt(2) * method.absolute if quantity == "alk" else 0.0


def _swing(quantity: str, swing: float, error: float, strict: bool):
    bears = BEARS[quantity]
    values = {"quantity": quantity, "swing": swing, "bears": bears}
    if swing <= bears:
        return "suits", Note("swing_fine", values)
    if not strict:
        return "close", Note("swing_large", values)
    outside = Interval(max(0.0, swing - error), swing, swing + error).share_outside(None, bears)
    if outside >= SETTLED_OUTSIDE:
        return "change_first", Note("swing_large", values)
    return "not_known", Note("swing_not_seen", {**values, "half_range": error})


def judge_summer(prepared: PreparedTank, profile: Profile) -> list[Finding]:
    """The summer's high against the warm side of the kind's band; nothing where it was not said.

    Source: our own rule (the band is the profile's).
    """
    said, band = prepared.tank.summer_high, profile.bands.get("temp")
    if said is None or band is None:
        return []
    if "summer" in prepared.asked:
        note, advice = Note("question_open"), Note("answer_question")
        return [Finding("summer", "not_known", (note,), band=band, unit="c", basis=(band.basis,), advice=(advice,))]
    high = estimate("temp", said)
    if high is None:
        return []
    warm_side = Band(0.0, 0.0, band.ideal_high, band.limit_high, band.basis)
    judgement = judge(high.interval, warm_side)
    code = {"suits": "summer_fine", "close": "summer_warm", "change_first": "summer_hot"}.get(
        judgement.verdict, "summer_unsettled"
    )
    values = range_values(high.interval, warm_side)
    note = Note(code, {key: values[key] for key in ("value", "low", "high", "ideal_high", "limit_high")})
    advice = ()
    easy_and_borne = judgement.verdict == "close" and profile.hardiness < DEMANDING_FROM
    if judgement.verdict != "suits" and not easy_and_borne:  # no fan or chiller for one easy animal that bears it
        advice = (Note("cool_in_summer", {"by_c": max(0.0, high.interval.mid - band.ideal_high)}),)
    return [
        Finding(
            "summer",
            judgement.verdict,
            (note,),
            False,
            judgement.near_edge,
            high.interval,
            warm_side,
            "c",
            None,
            (band.basis, high.method.basis),
            advice,
        )  # fmt: skip
    ]
