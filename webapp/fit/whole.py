"""The whole from its factors: the worst of them, with two rules about blanks and about many small misses.

A blank counts only where the kind requires the reading. A reading that was given but cannot settle its factor counts
always: otherwise moving it towards the ideal, from unsettled to close, could make the whole worse.
"""

from collections.abc import Sequence

from webapp.fit.findings import Finding, Note, Verdict
from webapp.fit.judge import RANK

DEMANDING_FROM = 3
TOO_MANY_CLOSE = 3
BLANKS = frozenset({
    "no_reading", "light_not_said", "flow_not_said", "tank_size_not_said", "tankmates_not_said", "neighbours_not_said",
    "neighbour_unknown", "neighbour_gap_not_said", "pumps_not_said", "space_not_said", "feeding_not_said",
    "age_not_said", "swings_not_said", "question_open",
})  # fmt: skip


COULD_TURN_IT = frozenset({"tankmates", "neighbours", "feeding"})
"""Blanks of these are named beside a good answer: nobody asked for them, and a bad one would turn it."""


def is_blank(finding: Finding) -> bool:
    """Not known for want of anything to judge, not for an error too wide."""
    return finding.verdict == "not_known" and finding.reasons[0].code in BLANKS


def counts(finding: Finding) -> bool:
    """Whether the finding is held against the whole."""
    return finding.verdict != "not_known" or finding.required or not is_blank(finding)


def at_best_close(finding: Finding) -> bool:
    """Close, or unsettled with its best estimate outside the ideal: no better instrument can make it 'suits'."""
    if finding.verdict == "close":
        return finding.reasons[0].code != "matters_little"
    if finding.verdict != "not_known" or finding.estimate is None or finding.band is None:
        return False
    if finding.reasons[0].code == "zero_not_seen":
        return False
    return not finding.band.ideal_low <= finding.estimate.mid <= finding.band.ideal_high


def whole(findings: Sequence[Finding], hardiness: int) -> tuple[Verdict, tuple[Note, ...]]:
    """The verdict on the whole, and why: the worst factor that counts; three close are too many from hardiness 3 up.

    Source: our own rule.
    """
    verdict: Verdict = max((f.verdict for f in findings if counts(f)), key=RANK.__getitem__, default="suits")
    close = sorted(finding.factor for finding in findings if at_best_close(finding))
    reasons = []
    many = hardiness >= DEMANDING_FROM and len(close) >= TOO_MANY_CLOSE
    if many and RANK[verdict] < RANK["change_first"]:
        verdict = "change_first"
    if many and verdict == "change_first":
        values = {"n": len(close), "factors": tuple(close), "hardiness": hardiness}
        reasons.append(Note("whole_three_close", values))
    beside = _beside(findings) if RANK[verdict] < RANK["not_known"] else ()
    if verdict == "suits":
        return verdict, (Note("whole_suits"), *beside)
    deciding = sorted(f.factor for f in findings if f.verdict == verdict and counts(f))
    if deciding and verdict != "not_known":
        reasons.insert(0, Note("whole_worst", {"verdict": verdict, "factors": tuple(deciding)}))
    unknown = [f for f in findings if f.verdict == "not_known" and counts(f)]
    for code, group in (
        ("whole_required_missing", [f for f in unknown if is_blank(f)]),
        ("whole_unsettled", [f for f in unknown if not is_blank(f)]),
    ):
        if group:
            reasons.append(Note(code, {"factors": tuple(sorted(f.factor for f in group))}))
    left = sorted(f.factor for f in findings if any(note.code == "leave_it" for note in f.advice))
    if left and verdict == "close":
        reasons.append(Note("whole_leave_it", {"factors": tuple(left)}))
    return verdict, (*reasons, *beside)


def _beside(findings: Sequence[Finding]) -> tuple[Note, ...]:
    """What a good answer does not rest on: values asked about, and blanks that could turn it."""
    passed = [finding for finding in findings if not counts(finding)]
    asked = [f.factor for f in passed if f.reasons[0].code == "question_open"]
    blank = [f.factor for f in passed if f.factor in COULD_TURN_IT]
    return tuple(
        Note(code, {"factors": tuple(sorted(factors))})
        for code, factors in (("whole_asked", asked), ("whole_left_out", blank))
        if factors
    )
