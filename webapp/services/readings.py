"""Readings of tanks and racks: logging a set, the latest of each, the run of one quantity."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.places import get_tank
from webapp.services.recording import Author, NewEvent, record
from webapp.storage.base import derived_id
from webapp.storage.place import ReadingRow

#: What a shop logs, in the order of its form. Light and flow are read at a rack.
LOGGED = ("temp", "salinity", "alk", "ca", "mg", "ph", "no3", "po4", "ammonia", "nitrite")
AT_RACK = ("par", "flow_speed")


@dataclass(frozen=True, slots=True)
class Latest:
    """The last reading of a quantity: canonical value, and as typed."""

    id: str
    quantity: str
    value: float
    typed: float
    unit: str
    method: str
    taken_at: datetime
    rack_id: str = ""


def log_readings(
    session: Session,
    author: Author,
    deed_id: str,
    tank_id: str,
    readings: Sequence[dict[str, Any]],
    taken_at: datetime | None = None,
) -> int:
    """Record a set of readings as one deed. Each: quantity, value, unit, method; rack_id or temp_c where they
    matter."""
    get_tank(session, tank_id)
    if not readings:
        raise BadInput("Nothing was filled in. Give at least one reading.")
    events = [
        NewEvent("reading", derived_id(deed_id, "reading", number), {"tank_id": tank_id} | reading, taken_at)
        for number, reading in enumerate(readings)
    ]
    record(session, author, events, deed_id)
    return len(events)


def latest(session: Session, tank_id: str) -> dict[tuple[str, str], Latest]:
    """The last reading of each quantity of a tank, by (quantity, rack id or '')."""
    newest = (
        select(ReadingRow.quantity, ReadingRow.rack_id, func.max(ReadingRow.taken_at).label("taken_at"))
        .where(ReadingRow.tank_id == tank_id)
        .group_by(ReadingRow.quantity, ReadingRow.rack_id)
        .subquery()
    )
    rows = session.scalars(
        select(ReadingRow)
        .join(
            newest,
            (ReadingRow.quantity == newest.c.quantity)
            & (ReadingRow.rack_id == newest.c.rack_id)
            & (ReadingRow.taken_at == newest.c.taken_at),
        )
        .where(ReadingRow.tank_id == tank_id)
        .order_by(ReadingRow.id)
    )
    return {(row.quantity, row.rack_id): _latest(row) for row in rows}


def get_reading(session: Session, reading_id: str) -> Latest:
    """One reading as it stands now, corrections and all. Raises NotFound."""
    row = session.get(ReadingRow, reading_id)
    if row is None:
        raise NotFound("There is no such reading here.")
    return _latest(row)


def run_of(session: Session, tank_id: str, quantity: str, since: datetime) -> list[Latest]:
    """Every reading of one quantity since a moment, oldest first."""
    rows = session.scalars(
        select(ReadingRow)
        .where(ReadingRow.tank_id == tank_id, ReadingRow.quantity == quantity, ReadingRow.taken_at >= since)
        .order_by(ReadingRow.taken_at)
    )
    return [_latest(row) for row in rows]


def _latest(row: ReadingRow) -> Latest:
    return Latest(row.id, row.quantity, row.value, row.typed, row.unit, row.method, row.taken_at, row.rack_id)
