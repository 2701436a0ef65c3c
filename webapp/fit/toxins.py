"""Ammonia and nitrite: in a tank that is ready for animals neither can be seen."""

from webapp.fit.findings import Finding, Note
from webapp.fit.judge import RANK, judge, range_values, shown
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Band, Basis
from webapp.fit.readings import unit_of
from webapp.science.ammonia import free_ammonia_mg_l

_PRESENT = Basis(
    "common_practice", note="neither can be seen in a tank that has cycled; no animal goes in while one can"
)
BANDS = {"ammonia": Band(0.0, 0.0, 0.1, 0.25, _PRESENT), "nitrite": Band(0.0, 0.0, 0.1, 0.5, _PRESENT)}
OLD_TANK_MONTHS = 6.0


def judge_toxins(prepared: PreparedTank) -> list[Finding]:
    """A finding for each of the two that was given, or asked about; a blank is not held against a tank old enough.

    Source: common practice.
    """
    return [
        _one(factor, band, prepared)
        for factor, band in BANDS.items()
        if factor in prepared.readings.estimates or factor in prepared.asked
    ]


def _one(factor: str, band: Band, prepared: PreparedTank) -> Finding:
    estimates = prepared.readings.estimates.get(factor)
    if not estimates:
        return Finding(
            factor, "not_known", (Note("question_open"),), band=band, unit=unit_of(factor), basis=(band.basis,),
            advice=(Note("answer_question"),),
        )  # fmt: skip
    judged = [(judge(estimate.interval, band), estimate) for estimate in estimates]
    judgement, estimate = max(judged, key=lambda pair: (RANK[pair[0].verdict], pair[1].interval.mid))
    values = range_values(estimate.interval, band)
    reasons, advice = [], []
    if judgement.verdict in ("suits", "not_known"):
        extra = {"share_outside": judgement.share_outside} if judgement.code == "straddles_limit" else {}
        reasons.append(Note(judgement.code, {**values, **extra}))
    else:
        reasons.append(Note("nutrient_present_toxic", {key: values[key] for key in ("value", "low", "high")}))
    if factor == "ammonia" and judgement.verdict != "suits":
        reasons.extend(_free(estimate.interval.mid, prepared))
    if judgement.verdict == "not_known":
        advice.append(Note("test_again_same_day"))
    elif judgement.verdict != "suits":
        age = prepared.tank.age_months
        advice.append(Note("find_cause" if age is not None and age >= OLD_TANK_MONTHS else "wait_for_cycle"))
    return Finding(
        factor, judgement.verdict, (*reasons, *estimate.notes), False, judgement.near_edge,
        shown(estimate.interval), band, unit_of(factor), None, (band.basis, estimate.method.basis), tuple(advice),
    )  # fmt: skip


def _free(total_mg_l_n: float, prepared: PreparedTank) -> list[Note]:
    ph, temp, salinity = (prepared.readings.middle(name) for name in ("ph", "temp", "salinity"))
    if ph is None or temp is None:
        return []
    try:
        return [Note("free_ammonia", {"nh3_mg_l": free_ammonia_mg_l(total_mg_l_n, ph, temp, salinity or 35.0)})]
    except ValueError:
        return []
