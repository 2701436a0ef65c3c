"""The chemistry and warmth of the water against the kind's bands: one finding a factor."""

from webapp.fit.findings import Finding, Note
from webapp.fit.judge import RANK, Judgement, judge, reason, shown
from webapp.fit.methods import METHODS, finer, finest_for
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Band, Profile
from webapp.fit.readings import Estimate, unit_of
from webapp.fit.requires import builds_no_skeleton
from webapp.fit.zero import judge_zero
from webapp.science.interval import Interval

FACTORS = ("temp", "salinity", "alk", "ca", "mg", "ph", "no3", "po4")
BUILDING = frozenset({"ca", "mg"})
NUTRIENTS = frozenset({"no3", "po4"})


def judge_water(prepared: PreparedTank, profile: Profile, required: frozenset[str]) -> list[Finding]:
    """A finding for every water factor that the profile has a band for, save blanks that would tell nothing."""
    bands = profile.bands
    factors = [factor for factor in FACTORS if factor in bands]
    if builds_no_skeleton(profile):
        known = prepared.given | prepared.asked | required
        factors = [factor for factor in factors if factor not in BUILDING or factor in known]
    return [_one(factor, bands[factor], prepared, profile, factor in required) for factor in factors]


def _one(factor: str, band: Band, prepared: PreparedTank, profile: Profile, required: bool) -> Finding:
    estimates = prepared.readings.estimates.get(factor)
    if not estimates:
        asked = factor in prepared.asked
        advice = [Note("give_reading", {"method": METHODS[factor][0].key})] if required else []
        return Finding(
            factor, "not_known", (Note("question_open" if asked else "no_reading"),), required, band=band,
            unit=unit_of(factor), basis=(band.basis,),
            advice=(Note("answer_question"),) if asked else tuple(advice),
        )  # fmt: skip
    judged = [(_judge(factor, estimate, band, profile), estimate) for estimate in estimates]
    if _apart([judgement for (judgement, _), _ in judged], estimates):
        best = min(judged, key=lambda pair: _badness(pair[0][0], pair[1], band))[1]
        return _opposed(factor, best, estimates, band, required)
    (judgement, note), estimate = max(judged, key=lambda pair: _badness(pair[0][0], pair[1], band))
    reasons = [note, *estimate.notes, *_disagreement(estimate, estimates)]
    advice = _advice(factor, judgement, estimate, band, note)
    if factor == "ph" and prepared.ph_cause and estimate.interval.mid < band.ideal_low:
        reasons.extend(prepared.ph_cause.reasons)
        advice = [*prepared.ph_cause.advice, *(n for n in advice if n.code.startswith("test"))]
    return Finding(
        factor, judgement.verdict, tuple(reasons), required, judgement.near_edge, shown(estimate.interval), band,
        unit_of(factor), None, (band.basis, estimate.method.basis), tuple(advice),
    )  # fmt: skip


def _judge(factor: str, estimate: Estimate, band: Band, profile: Profile) -> tuple[Judgement, Note]:
    if factor in NUTRIENTS:
        zero = judge_zero(factor, estimate, band, profile)
        if zero:
            return zero
    judgement = judge(estimate.interval, band)
    if factor in BUILDING and builds_no_skeleton(profile) and judgement.verdict != "suits":
        inside = band.ideal_low <= estimate.interval.mid <= band.ideal_high
        verdict = "suits" if inside else "close"
        values = {
            "value": estimate.interval.mid,
            "low": max(0.0, estimate.interval.low),
            "high": estimate.interval.high,
        }
        return Judgement(verdict, "matters_little", inside, judgement.share_outside), Note("matters_little", values)
    return judgement, reason(judgement, estimate.interval, band)


def _badness(judgement: Judgement, estimate: Estimate, band: Band) -> tuple[int, float, float]:
    c = estimate.interval.mid
    return RANK[judgement.verdict], judgement.share_outside, max(band.ideal_low - c, c - band.ideal_high, 0.0)


def _disagreement(used: Estimate, estimates: tuple[Estimate, ...]) -> list[Note]:
    """Readings that differ by more than their errors allow; two forms of one unsure kit are not two readings."""
    notes = []
    for other in estimates:
        if other is used or any(note.code == "form_unknown" for note in other.notes):
            continue
        a, b = used.interval, other.interval
        both = ((a.high - a.mid) ** 2 + (b.high - b.mid) ** 2) ** 0.5
        if abs(a.mid - b.mid) > both:
            notes.append(Note("readings_disagree", {"used_value": a.mid, "other_value": b.mid}))
    return notes


def _apart(judgements: list[Judgement], estimates: tuple[Estimate, ...]) -> bool:
    """Whether one reading refuses the animal and another would have it: both can't be right, nothing may be dosed.

    Two forms of one unsure kit are not two readings: the worse holds.
    """
    verdicts = {judgement.verdict for judgement in judgements}
    unsure = any(note.code == "form_unknown" for estimate in estimates for note in estimate.notes)
    return "change_first" in verdicts and bool(verdicts & {"suits", "close"}) and not unsure


def _opposed(factor: str, best: Estimate, estimates: tuple[Estimate, ...], band: Band, required: bool) -> Finding:
    """Not known, over all that was read. The best of the readings is its middle: no third test finds better."""
    spans = [estimate.interval for estimate in estimates]
    low, high = min(span.low for span in spans), max(span.high for span in spans)
    middles = [span.mid for span in spans]
    note = Note("readings_oppose", {"low": min(middles), "high": max(middles)})
    return Finding(
        factor, "not_known", (note,), required, False, shown(Interval(low, best.interval.mid, high)), band,
        unit_of(factor), None, (band.basis,), (Note("third_test"),),
    )  # fmt: skip


def _advice(factor: str, judgement: Judgement, estimate: Estimate, band: Band, note: Note) -> list[Note]:
    c = estimate.interval.mid
    if judgement.verdict == "not_known":
        return [_test_again(factor, estimate, band, note)]
    if judgement.verdict == "suits" or note.code == "matters_little":
        return []
    if factor in NUTRIENTS and c < band.ideal_low:
        return [Note("feed_more_or_export_less")]
    if factor == "ph" and c > band.ideal_high:
        return [Note("ph_high")]
    if factor in BUILDING and judgement.verdict == "close" and c > band.ideal_high:
        return [Note("thins_out")]
    if c > band.ideal_high:
        return [Note("lower_slowly", {"target": band.ideal_high})]
    return [Note("raise_slowly", {"target": band.ideal_low})]


def _test_again(factor: str, estimate: Estimate, band: Band, note: Note) -> Note:
    """The coarsest kit that would settle it: with d to the nearest limit its half-range must be under 2 d.

    On the limit itself none would; then the finest is named, and no more is promised of it.
    """
    c, half = estimate.interval.mid, estimate.interval.high - estimate.interval.mid
    if note.code == "zero_not_seen":
        seeing = [method for method in METHODS[factor] if 0 < method.sees < estimate.method.sees]
        best = max(seeing, key=lambda method: method.sees, default=None)
    else:
        need = 2 * min(abs(c - band.limit_low), abs(band.limit_high - c))
        best = finer(factor, min(half, need), c)
        if best is None and (finest := finest_for(factor, c)).half_range(c) < half:
            return Note("test_finer", {"method": finest.key, "half_range": finest.half_range(c)})
    if best is None or best.key == estimate.method.key:
        return Note("test_again_same_day")
    return Note("test_again", {"method": best.key, "half_range": best.half_range(c)})
