"""Quarantine: when it may end by rule, and when to dip again."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from webapp.fit.profile import Profile
from webapp.science.flatworm import stretched_days
from webapp.services.conditions import Condition, RuleState, clean_looks, days_between, last_of, looks_since
from webapp.storage.specimen import SpecimenRow

STAY = {
    "corallimorph": "quarantine_soft_days", "zoanthid": "quarantine_soft_days", "soft": "quarantine_soft_days",
    "gorgonian": "quarantine_soft_days", "lps": "quarantine_lps_days", "anemone": "quarantine_lps_days",
    "sps": "quarantine_sps_days", "clam": "quarantine_clam_days",
}  # fmt: skip
NEVER_DIPPED = ("clam", "anemone")


@dataclass(frozen=True, slots=True)
class DipPlan:
    """The next dip of a series and the temperature it is computed for. number: 2 or 3; hatch_days: there."""

    due_at: datetime
    number: int
    temp_c: float
    hatch_days: float


def may_leave(row: SpecimenRow, profile: Profile, limits: Mapping[str, float], now: datetime) -> RuleState:
    """The state of the rule for one specimen in quarantine since `row.status_since`."""
    began = row.status_since
    looks = looks_since(row.checks, began)
    days, needed = days_between(began, now), limits[STAY[profile.group]]
    clean = clean_looks(looks, limits["clean_check_gap_days"])
    counted = {"count": clean, "needed": limits["clean_checks"], "gap": limits["clean_check_gap_days"]}
    bitten = last_of(looks, "bitten")
    conditions = [
        Condition("nothing_wrong", not row.trouble, {"trouble": row.trouble}),
        Condition("days_in", days >= needed, {"days": days, "needed": needed, "until": began + timedelta(days=needed)}),
        Condition("clean", clean >= limits["clean_checks"], counted),
        Condition("not_bitten", None if bitten is None else not bitten),
        Condition("open_now", last_of(looks, "open")),
    ]
    if (row.cut_at or row.last_cut_at) is not None:
        conditions.append(Condition("edge_closed", last_of(row.checks, "edge_closed")))
    return RuleState(tuple(conditions))


def next_dip(row: SpecimenRow, limits: Mapping[str, float], temp_c: float) -> DipPlan | None:
    """The next dip of the series that the last `repeat` dips began, at this tank's temperature; None after the third.

    A pause longer than a generation begins a new series.
    """
    series: list[datetime] = []
    for text, _dip, repeat in row.dips:
        at = datetime.fromisoformat(text)
        if not repeat:
            continue
        if series and days_between(series[-1], at) > _days(limits, limits["generation_days_27"], temp_c):
            series = []
        series.append(at)
    if not series or len(series) > 2:
        return None
    wanted = limits["dip_repeat_first_days" if len(series) == 1 else "dip_repeat_second_days"]
    due = series[0] + timedelta(days=_days(limits, wanted, temp_c))
    return DipPlan(due, len(series) + 1, temp_c, _days(limits, limits["hatch_days_27"], temp_c))


def dip_cautions(row: SpecimenRow, profile: Profile, limits: Mapping[str, float], now: datetime) -> list[str]:
    """Codes of what speaks against dipping this one now: 'never_dipped', 'bleached', 'fresh_cut'."""
    found = ["never_dipped"] if profile.group in NEVER_DIPPED else []
    if row.trouble == "bleached":
        found.append("bleached")
    cut = max((at for at in (row.cut_at, row.last_cut_at) if at is not None), default=None)
    if cut is not None and now - cut < timedelta(hours=limits["fresh_cut_h"]):
        found.append("fresh_cut")
    return found


def _days(limits: Mapping[str, float], days_at_27: float, temp_c: float) -> float:
    generations = {key: limits[key] for key in ("generation_days_27", "generation_days_24")}
    return stretched_days(days_at_27, temp_c, **generations)
