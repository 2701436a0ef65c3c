"""A nitrate or phosphate of nothing: what it means depends on what the kit can see, and on who starves first.

Reef corals need some of both: a long-running public aquarium grew 57 species well at 0.3 mg/L nitrate and 0.06 mg/L
phosphate, far above reef water, so nothing at all is not the goal.
"""

from webapp.fit.findings import Note
from webapp.fit.judge import Judgement
from webapp.fit.profile import Band, Profile
from webapp.fit.readings import Estimate
from webapp.fit.requires import hungry

MUST_SEE = {"no3": 0.5, "po4": 0.02}
"""mg/L that a method must be able to see before its zero weighs (common practice)."""


def judge_zero(factor: str, estimate: Estimate, band: Band, profile: Profile) -> tuple[Judgement, Note] | None:
    """The verdict on a reading of `factor` (a key of MUST_SEE) that is zero, or that its method cannot tell from zero.

    None for a reading that the method sees, and where the band takes zero as ideal.

    Source: common practice; our own rule.
    """
    value, sees = estimate.interval.mid, estimate.method.sees
    if value >= band.ideal_low:
        return None
    if sees > MUST_SEE[factor] and value < sees:
        note = Note("zero_not_seen", {"sees": sees})
        return Judgement("not_known", note.code, False, 0.0), note
    if value > 0:
        return None
    if hungry(profile):
        note = Note("zero_nutrient_hungry", {"ideal_low": band.ideal_low})
        return Judgement("change_first", note.code, False, 1.0), note
    note = Note("zero_nutrient", {"ideal_low": band.ideal_low})
    return Judgement("close", note.code, False, 0.0), note
