"""Who would eat whom: one factor for all tankmates, judged by the worst pair."""

from webapp.fit.findings import Finding, Note
from webapp.fit.judge import worst
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Basis, Profile

_BASIS = Basis("common_practice", note="per pair of kinds; individuals differ")


def judge_tankmates(prepared: PreparedTank, profile: Profile, required: bool) -> Finding:
    """'never' keeps it out while that animal stays; 'risk' is close. A blank is not known.

    Source: common practice, pair by pair; see the table of tankmates.
    """
    mates = prepared.tank.tankmates
    if mates is None:
        return Finding(
            "tankmates", "not_known", (Note("tankmates_not_said"),), required, basis=(_BASIS,),
            advice=(Note("name_tankmates"),),
        )  # fmt: skip
    if not mates:
        return Finding("tankmates", "suits", (Note("no_tankmates"),), required, basis=(_BASIS,))
    verdicts, reasons, advice = [], [], []
    for mate in sorted(set(mates)):
        found = [
            (profile.nipped_by.get(mate), "would_be_eaten", "may_be_nipped"),
            (profile.catches.get(mate), "would_eat", "may_catch"),
        ]
        pairs = [(severity, sure if severity == "never" else maybe) for severity, sure, maybe in found if severity]
        if not pairs:
            continue
        never = any(severity == "never" for severity, _ in pairs)
        verdicts.append("not_here" if never else "close")
        reasons.extend(Note(code, {"tankmate": mate}) for _, code in pairs)
        advice.append(Note("remove_tankmate" if never else "watch_tankmate", {"tankmate": mate}))
    if not reasons:
        reasons.append(Note("tankmates_fine", {"n": len(set(mates))}))
    return Finding("tankmates", worst(tuple(verdicts)), tuple(reasons), required, basis=(_BASIS,), advice=tuple(advice))
