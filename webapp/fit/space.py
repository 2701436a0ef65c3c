"""Free space: for the piece today, and for the animal it grows into."""

from webapp.fit.findings import Finding, Note, Verdict
from webapp.fit.judge import worse
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Basis, Profile

FRAG_CM = 3.0
"""Size taken for a piece that was not measured (common practice)."""
NOT_CUT_BACK = frozenset({"anemone", "clam"})
"""And the stony corals that lie free on the sand: one animal, one skeleton (common practice)."""
GROWS_FOR_YEARS = 0.5
"""Share of the grown size that is room enough for a kind that can be cut back."""
_BASIS = Basis("common_practice", note="clear width at the spot against the grown size")


def judge_space(prepared: PreparedTank, profile: Profile, size_cm: float | None) -> Finding:
    """Room at the spot, and whether the tank is as long as the grown animal where it cannot be cut back.

    Source: common practice (grown sizes are the profile's; 3 cm for a piece that was not measured).
    """
    free = prepared.tank.free_space_cm
    size = size_cm if size_cm is not None else FRAG_CM
    can_be_cut = not (profile.group in NOT_CUT_BACK or (profile.skeleton and profile.placement == "bottom"))
    adult = max(profile.adult_cm, size)
    verdict, reasons, advice = _at_the_spot(free, size, adult, can_be_cut)
    length = prepared.size.longest_cm
    if length is not None and adult > length:
        values = {"adult_cm": adult, "length_cm": length}
        if not can_be_cut:
            verdict = "not_here"
            reasons = [Note("too_big_for_tank", values)]
            advice = []
        elif verdict != "not_known":
            verdict = worse(verdict, "close")
            reasons.append(Note("outgrows_tank", values))
            advice = advice or [Note("plan_to_trim")]
    return Finding("space", verdict, tuple(reasons), unit="cm", basis=(_BASIS,), advice=tuple(advice))


def _at_the_spot(
    free: float | None, size: float, adult: float, can_be_cut: bool
) -> tuple[Verdict, list[Note], list[Note]]:
    if free is None:
        return "not_known", [Note("space_not_said", {"adult_cm": adult})], [Note("say_space")]
    if free < size:
        values = {"free_cm": free, "size_cm": size}
        return "change_first", [Note("space_too_small", values)], [Note("make_room", {"needs_cm": size})]
    if free < adult:
        values = {"free_cm": free, "adult_cm": adult, "size_cm": size}
        roomy = can_be_cut and free >= GROWS_FOR_YEARS * adult
        advice = Note("plan_to_trim" if can_be_cut else "plan_to_move")
        return "suits" if roomy else "close", [Note("space_for_now", values)], [advice]
    return "suits", [Note("space_fine", {"free_cm": free, "adult_cm": adult})], []
