"""The moment that the rules judge, and what they answer."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta, tzinfo
from typing import Any

from sqlalchemy import Select
from sqlalchemy.orm import Session

from webapp.fit.profile import Profile
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import load_shop, revision
from webapp.services.thresholds import load_thresholds

CAP = 100
"""A rule lists and counts up to this many; beyond it says 'more than'. So a rule never costs more in a larger shop."""


@dataclass(frozen=True, slots=True)
class Day:
    """What every rule is given: the database, the shop's thresholds and profiles, the moment and the shop's zone."""

    session: Session
    memory: Memory
    revision: int
    limits: Mapping[str, float]
    profiles: Mapping[str, Profile]
    now: datetime
    zone: tzinfo

    def before(self, key: str, hours: bool = False) -> datetime:
        """The moment that lies the threshold `key` (days, or hours) before now."""
        return self.now - (timedelta(hours=self.limits[key]) if hours else timedelta(days=self.limits[key]))


@dataclass(frozen=True, slots=True)
class Due:
    """One thing that needs a hand. subject: specimen, tank, rack, pest, shipment or sale; values: for its sentence."""

    subject: str
    id: str
    name: str
    code: str = ""
    values: Mapping[str, Any] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Found:
    """What one rule found; `more`: there are more than these."""

    rule: str
    due: tuple[Due, ...]
    more: bool = False


def begin(session: Session, memory: Memory, now: datetime) -> Day:
    """The day as it stands at `now`."""
    at = revision(session)
    kinds = newest_profiles(session, memory, at)
    return Day(session, memory, at, load_thresholds(session), kinds, now, load_shop(session).zone)


def fetch(day: Day, query: Select) -> tuple[list[Any], bool]:
    """The first CAP rows, and whether there are more."""
    rows = day.session.execute(query.limit(CAP + 1)).all()
    return rows[:CAP], len(rows) > CAP


def days_since(day: Day, moment: datetime) -> float:
    """Days, with their fraction."""
    return (day.now - moment) / timedelta(days=1)
