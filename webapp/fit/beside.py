"""What is said beside the verdict: dangers to people, papers, and what nobody can know from readings."""

from webapp.fit.findings import Finding, Note
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Profile
from webapp.fit.specimen import Specimen

FEW_READINGS = 3
_HANDLING = ("sharp", "sting", "terpene")


def safety_of(profile: Profile, *, doses: bool, work: bool) -> tuple[Note, ...]:
    """Dangers to people, the worst first. `doses`: a plan holds chemicals; `work`: a plan puts hands into the tank."""
    notes = []
    if profile.toxic:
        notes.append(Note("safety_toxic", {"note": profile.toxicity_note}))
    elif profile.stings:
        notes.append(Note("safety_stings", {"note": profile.toxicity_note}))
    elif any(word in profile.toxicity_note for word in _HANDLING):
        notes.append(Note("safety_handling", {"note": profile.toxicity_note}))
    if doses:
        notes.append(Note("safety_dosing"))
    if work:
        notes.append(Note("safety_electricity"))
    return tuple(notes)


def paperwork_of(profile: Profile) -> tuple[Note, ...]:
    """Papers for a journey across a border: beside the verdict, not part of it."""
    listed = profile.cites.strip()
    return (Note("paper_cites", {"appendix": listed}),) if listed in ("I", "II", "III") else ()


def unknowable_for(prepared: PreparedTank, specimen: Specimen, findings: tuple[Finding, ...]) -> tuple[Note, ...]:
    """What readings cannot tell."""
    notes = [Note("unknown_pests"), Note("unknown_past")]
    watched = {
        str(note.values["tankmate"])
        for finding in findings
        if finding.factor == "tankmates"
        for note in finding.reasons
        if note.code in ("may_be_nipped", "may_catch")
    }
    if watched:
        notes.append(Note("unknown_temper", {"tankmates": tuple(sorted(watched))}))
    if prepared.size.guessed and (prepared.lighting.field is not None or prepared.streaming.field is not None):
        notes.append(Note("unknown_size"))
    if prepared.lighting.field is not None:
        notes.append(Note("unknown_shadow"))
    if prepared.streaming.field is not None:
        notes.append(Note("unknown_flow_pattern"))
    if all(used.n < FEW_READINGS for used in specimen.used_to.values()):
        notes.append(Note("unknown_used_to"))
    return tuple(notes)
