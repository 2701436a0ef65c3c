"""How others of a kind did here: how many, the share alive after some days, and the water and light they live in."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.science.survival import share_alive
from webapp.services.memory import Memory
from webapp.services.used_to import used_to
from webapp.storage.specimen import SpecimenRow

AFTER_DAYS = (30, 90, 180)
ENOUGH = 5
"""Animals that must still be looked at on a day before a share is told."""
LOOK_BACK = timedelta(days=180)
SETTLED = timedelta(days=30)
"""Whoever lived here that long says something about the conditions it stands in."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """count: all that ever were here; died: of them. alive: (days, share 0..1) where enough were watched that long.

    lived_in: factor -> (low, high), the middle eight in ten of the readings of the last half year where its kind stands
    now, lowest to highest over the racks with one that has been here for a month; canonical units.
    """

    count: int = 0
    died: int = 0
    alive: tuple[tuple[int, float], ...] = ()
    lived_in: dict[str, tuple[float, float]] = field(default_factory=dict)


def evidence(session: Session, memory: Memory, revision: int, profile_key: str, now: datetime) -> Evidence:
    """The shop's own record of one kind, worked out once for a revision of the database."""
    key = ("own evidence", profile_key, now.date())
    return memory.get(revision, key, lambda: _evidence(session, memory, revision, profile_key, now))


def _evidence(session: Session, memory: Memory, revision: int, profile_key: str, now: datetime) -> Evidence:
    rows = session.execute(
        select(SpecimenRow.started_at, SpecimenRow.ended_at, SpecimenRow.status == "lost")
        .where(SpecimenRow.profile_key == profile_key)
    ).all()  # fmt: skip
    lives = [(((ended or now) - started).total_seconds() / 86400, died) for started, ended, died in rows]
    alive = tuple(
        (days, share)
        for days in AFTER_DAYS
        if sum(lasted >= days for lasted, _ in lives) >= ENOUGH and (share := share_alive(lives, days)) is not None
    )
    lived_in = _lived_in(session, memory, revision, profile_key, now)
    return Evidence(len(lives), sum(died for _, died in lives), alive, lived_in)


def _lived_in(
    session: Session, memory: Memory, revision: int, profile_key: str, now: datetime
) -> dict[str, tuple[float, float]]:
    places = session.execute(
        select(SpecimenRow.tank_id, func.coalesce(SpecimenRow.rack_id, ""))
        .where(SpecimenRow.profile_key == profile_key, SpecimenRow.ended_at.is_(None), SpecimenRow.tank_id.is_not(None))
        .where(SpecimenRow.started_at <= now - SETTLED)
        .distinct()
    ).all()
    since, found = (now - LOOK_BACK).isoformat(), {}
    for tank_id, rack_id in places:
        for factor, used in used_to(session, memory, revision, [(tank_id, rack_id, since, None)], now).items():
            low, high = found.get(factor, (used.low, used.high))
            found[factor] = min(low, used.low), max(high, used.high)
    return found
