"""Ready for sale by rule: what was cut has healed, holds, opens, is clean and large enough."""

from collections.abc import Mapping
from datetime import UTC, datetime, tzinfo

from webapp.fit.profile import Profile
from webapp.services.conditions import Condition, Look, RuleState, clean_looks, days_between, days_open, last_of
from webapp.services.conditions import looks_since as since
from webapp.storage.specimen import SpecimenRow

#: Stony kinds that must spread over their plug by themselves, as soft ones must hold by themselves.
ENCRUSTERS = frozenset({"montipora_encrusting", "cyphastrea", "leptastrea"})


def is_free_living(profile: Profile) -> bool:
    """It lies on the sand and never holds on."""
    return profile.attach_days == (0, 0)


def must_hold_by_itself(profile: Profile) -> bool:
    """Soft kinds and encrusters; a glued stony piece is judged by its healed cut instead."""
    return not is_free_living(profile) and (not profile.skeleton or profile.key in ENCRUSTERS)


def ready_for_sale(
    row: SpecimenRow, profile: Profile, limits: Mapping[str, float], now: datetime, zone: tzinfo = UTC
) -> RuleState:
    """The state of the rule for one specimen. limits: the shop's thresholds. What was never cut has no cut to heal."""
    looks = since(row.checks, row.cut_at or row.started_at)
    conditions = [Condition("nothing_wrong", not row.trouble, {"trouble": row.trouble})]
    if row.cut_at is not None:
        conditions += _healed(row, profile, looks, now)
    if not is_free_living(profile):
        conditions.append(Condition("holds", last_of(looks, "holds")))
    opened = days_open(looks, now, limits["open_window_days"], zone)
    seen = {"days": opened, "needed": limits["open_days"], "of": limits["open_window_days"]}
    conditions.append(Condition("opens", opened >= limits["open_days"], seen))
    clean = clean_looks(looks, limits["sale_pest_gap_days"])
    counted = {"count": clean, "needed": limits["sale_pest_checks"], "gap": limits["sale_pest_gap_days"]}
    conditions.append(Condition("clean", clean >= limits["sale_pest_checks"], counted))
    conditions += _by_group(row, profile, looks, limits)
    return RuleState((*conditions, *_large_enough(row, profile, limits)))


def _healed(row: SpecimenRow, profile: Profile, looks: list[Look], now: datetime) -> list[Condition]:
    found = [Condition("edge_closed", last_of(looks, "edge_closed"))]
    if must_hold_by_itself(profile):
        assert row.cut_at is not None
        days, needed = days_between(row.cut_at, now), profile.attach_days[0]
        found.append(Condition("days_since_cut", days >= needed, {"days": days, "needed": needed}))
    return found


def _by_group(row: SpecimenRow, profile: Profile, looks: list[Look], limits: Mapping[str, float]) -> list[Condition]:
    if profile.group == "lps":
        return [Condition("ate", True if any(look.get("ate") for look in looks) else last_of(looks, "ate"))]
    if profile.group == "sps" and row.cut_at is not None:
        grown = last_of(looks, "new_tissue_mm")
        needed = limits["new_tissue_mm"]
        return [Condition("new_tissue", None if grown is None else grown >= needed, {"mm": grown, "needed": needed})]
    return []


def _large_enough(row: SpecimenRow, profile: Profile, limits: Mapping[str, float]) -> list[Condition]:
    rule = {
        "sps": ("size_mm", "least_sps_mm"), "lps": ("heads", "least_lps_heads"),
        "zoanthid": ("heads", "least_zoanthid_heads"),
        "corallimorph": ("size_mm", "least_mushroom_mm"), "soft": ("size_mm", "least_soft_mm"),
        "gorgonian": ("size_mm", "least_soft_mm"),
    }.get(profile.group)  # fmt: skip
    if rule is None:
        return []
    size, needed = getattr(row, rule[0]), limits[rule[1]]
    return [Condition(f"large_{rule[0]}", None if size is None else size >= needed, {"size": size, "needed": needed})]
