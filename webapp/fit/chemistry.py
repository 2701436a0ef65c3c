"""What animals do to each other through the water and the pumps: terpenes, and intakes that draw an anemone in."""

from webapp.fit.findings import Finding, Note
from webapp.fit.judge import worst
from webapp.fit.prepared import PreparedTank
from webapp.fit.profile import Basis, Profile

SMALL_TANK_L = 200.0
TERPENES = "terpenes"
"""What a profile's handling note names where the kind gives them off."""
_BASIS = Basis(
    "common_practice", note="under 200 litres a leather needs activated carbon beside small-polyped stony coral"
)
_PUMPS = Basis("common_practice", note="anemones walk, and intakes shred them")


def gives_terpenes(profile: Profile) -> bool:
    """Whether this kind gives off terpenes (leather corals)."""
    return TERPENES in profile.toxicity_note


def minds_terpenes(profile: Profile) -> bool:
    """Whether this kind is known to suffer from them: small-polyped stony corals."""
    return profile.group == "sps"


def judge_chemistry(prepared: PreparedTank, profile: Profile) -> list[Finding]:
    """One finding where a leather and a small-polyped stony coral would share the water; else none.

    Source: common practice (200 litres, carbon).
    """
    others = [prepared.kinds[n.key] for n in prepared.tank.neighbours or () if n.key in prepared.kinds]
    pairs = [
        other
        for other in others
        if (gives_terpenes(profile) and minds_terpenes(other)) or (gives_terpenes(other) and minds_terpenes(profile))
    ]
    if not pairs:
        return []
    volume, carbon = prepared.size.volume_l, prepared.tank.carbon
    fine = bool(carbon) or (volume is not None and volume >= SMALL_TANK_L)
    code = "chemistry_fine" if fine else "leather_and_stony"
    reasons = tuple(
        Note(code, {"neighbour": key, "volume_l": volume, "carbon": carbon}) for key in sorted({p.key for p in pairs})
    )
    advice = (Note("down_current"),) if fine else (Note("use_carbon"), Note("down_current"))
    return [Finding("chemistry", worst(("suits" if fine else "close",)), reasons, basis=(_BASIS,), advice=advice)]


def judge_pumps(prepared: PreparedTank, profile: Profile) -> list[Finding]:
    """For anemones only, which must have it said: whether pump intakes are covered.

    Source: common practice.
    """
    if profile.group != "anemone":
        return []
    is_open = prepared.tank.open_pumps
    if is_open is None:
        return [
            Finding(
                "pumps", "not_known", (Note("pumps_not_said"),), True, basis=(_PUMPS,), advice=(Note("cover_pumps"),)
            )
        ]  # fmt: skip
    if is_open:
        return [
            Finding(
                "pumps", "change_first", (Note("pumps_open"),), True, basis=(_PUMPS,), advice=(Note("cover_pumps"),)
            )
        ]
    return [Finding("pumps", "suits", (Note("pumps_covered"),), True, basis=(_PUMPS,))]
