"""What is done to a tank: feeding, dosing, water changes, equipment, notes."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.services.places import get_tank
from webapp.services.recording import Author, NewEvent, record
from webapp.storage.base import derived_id
from webapp.storage.care import TendingRow

SHOWN = 30


@dataclass(frozen=True, slots=True)
class Tended:
    """One thing done to a tank. `given` is its payload less the place."""

    id: str
    kind: str
    done_at: datetime
    rack_id: str
    deed_id: str
    author_name: str
    given: Mapping[str, Any]


def tend(
    session: Session,
    author: Author,
    deed_id: str,
    kind: str,
    tank_id: str,
    given: Mapping[str, Any],
    at: datetime | None = None,
) -> None:
    """Record 'fed', 'dosed', 'water_changed', 'serviced' or 'tank_noted' of a tank. `at`: when it was done (now)."""
    get_tank(session, tank_id)
    record(session, author, [NewEvent(kind, derived_id(deed_id, "tending"), {"tank_id": tank_id} | given, at)], deed_id)


def tended(session: Session, tank_id: str, most: int = SHOWN) -> list[Tended]:
    """What was done to a tank, newest first."""
    rows = session.scalars(
        select(TendingRow)
        .where(TendingRow.tank_id == tank_id)
        .order_by(TendingRow.done_at.desc(), TendingRow.id)
        .limit(most)
    )
    return [Tended(row.id, row.kind, row.done_at, row.rack_id, row.deed_id, row.author_name, row.given) for row in rows]


def last_tended(session: Session) -> dict[tuple[str, str], datetime]:
    """When each kind of care was last given to each tank, by (tank id, kind)."""
    rows = session.execute(
        select(TendingRow.tank_id, TendingRow.kind, func.max(TendingRow.done_at)).group_by(
            TendingRow.tank_id, TendingRow.kind
        )
    )
    return {(tank_id, kind): at for tank_id, kind, at in rows}
