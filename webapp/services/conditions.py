"""A rule of the shop as its conditions, each met, not met or not known, with the numbers it was judged by."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta, tzinfo
from typing import Any

Look = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Condition:
    """One condition. met: None when nobody looked yet. values: the numbers of its sentence (`words.conditions`)."""

    code: str
    met: bool | None
    values: dict[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class RuleState:
    """A rule and where it stands."""

    conditions: tuple[Condition, ...]

    @property
    def met(self) -> bool:
        """Whether every condition is met; what is not known is not met."""
        return all(one.met for one in self.conditions)

    @property
    def open(self) -> tuple[Condition, ...]:
        """What still stands in the way."""
        return tuple(one for one in self.conditions if not one.met)


def days_between(earlier: datetime, later: datetime) -> float:
    """Days, with their fraction."""
    return (later - earlier) / timedelta(days=1)


def moment(look: Look) -> datetime:
    """When a look took place."""
    return datetime.fromisoformat(look["at"])


def looks_since(checks: Sequence[Look], since: datetime) -> list[Look]:
    """The looks from a moment on, oldest first."""
    return [look for look in checks if moment(look) >= since]


def last_of(looks: Sequence[Look], key: str) -> Any:
    """What the last look that speaks of `key` said, None when none does."""
    return next((look[key] for look in reversed(looks) if key in look), None)


def clean_looks(looks: Sequence[Look], gap_days: float) -> int:
    """How many looks found no pest since one was found, counting only those `gap_days` after the one counted before."""
    counted: list[datetime] = []
    for look in looks:
        if look.get("pest_free") is False or look.get("bitten") or look.get("slime"):
            counted = []
        elif look.get("pest_free") and (not counted or days_between(counted[-1], moment(look)) >= gap_days):
            counted.append(moment(look))
    return len(counted)


def days_open(looks: Sequence[Look], now: datetime, window_days: float, zone: tzinfo) -> int:
    """On how many days of the window, today included, it was seen fully open and not seen shut later that day."""
    today = now.astimezone(zone).date()
    by_day: dict[date, bool] = {}
    for look in looks:
        if "open" in look:
            by_day[moment(look).astimezone(zone).date()] = look["open"]
    return sum(is_open for day, is_open in by_day.items() if 0 <= (today - day).days < window_days)
