"""What a stocktake found: place by place, specimen by specimen, and the difference from the books."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import NotFound
from webapp.services.stocktaking import CountPlace, all_places, find_place
from webapp.services.tables import csv_text
from webapp.storage.event import Event
from webapp.storage.folding import UNDO, Happened, undone_ids
from webapp.storage.specimen import SpecimenRow

_PLACES = ("rack_counted", "tank_counted")
_FOUND = ("seen", "missing", "moved")
_HEADER = ("place", "slot now", "code", "name", "found", "price", "state now")


@dataclass(frozen=True, slots=True)
class PlaceCounted:
    """One place of a count. `variance` is how many more stand there than the books said."""

    place: CountPlace
    at: datetime
    author: str
    expected: int
    seen: int
    missing: int
    moved: int

    @property
    def variance(self) -> int:
        """Found less expected."""
        return self.seen + self.moved - self.expected


@dataclass(frozen=True, slots=True)
class Found:
    """One specimen in a count. found: seen, by eye, missing or moved. Money in cents."""

    id: str
    name: str
    code: str | None
    found: str
    place: str
    slot: str
    price_cents: int | None
    status: str


@dataclass(frozen=True, slots=True)
class Report:
    """A stocktake so far."""

    count_id: str
    begun: datetime | None
    places: list[PlaceCounted]
    left: list[CountPlace]
    lines: list[Found]

    def total(self, what: str) -> int:
        """The sum over all places: expected, seen, missing, moved or variance."""
        return sum(getattr(one, what) for one in self.places)

    @property
    def missing_cents(self) -> int:
        """What those not seen would have brought, by their prices."""
        return sum(one.price_cents or 0 for one in self.lines if one.found == "missing")


def report(session: Session, count_id: str) -> Report:
    """The stocktake of this id, empty when nothing is counted yet. What was counted twice counts as last found."""
    events = _standing(session, count_id)
    latest = {event.subject_id: event for event in events if event.kind in _PLACES}
    places = [_place(session, event) for event in latest.values()]
    done = {one.place.key for one in places}
    left = [one for one in all_places(session) if one.key not in done]
    return Report(count_id, min((one.at for one in places), default=None), places, left, _lines(session, events))


def past_counts(session: Session, most: int = 20) -> list[tuple[str, datetime, int]]:
    """(id, begun, places) of stocktakes, the newest first."""
    found: dict[str, tuple[datetime, set[str]]] = {}
    rows = session.execute(
        select(Event.payload, Event.occurred_at, Event.subject_id).where(Event.kind.in_(_PLACES)).order_by(Event.seq)
    )
    for payload, at, place_id in rows:
        begun, places = found.get(payload["count"], (at, set()))
        found[payload["count"]] = (min(begun, at), places | {place_id})
    listed = [(count_id, begun, len(places)) for count_id, (begun, places) in found.items()]
    return sorted(listed, key=lambda one: one[1], reverse=True)[:most]


def report_csv(found: Report, decimals: int = 2) -> str:
    """Every specimen of the report as a table."""
    rows = [
        (one.place, one.slot, one.code, one.name, one.found, _money(one.price_cents, decimals), one.status)
        for one in found.lines
    ]
    return csv_text(_HEADER, rows)


def _money(cents: int | None, decimals: int) -> str | None:
    return None if cents is None else f"{cents / 100:.{decimals}f}"


def _standing(session: Session, count_id: str) -> list[Event]:
    """The count's events that were not undone, in order of happening."""
    query = select(Event).where(Event.kind.in_((*_PLACES, *_FOUND)), Event.payload["count"].as_string() == count_id)
    events = list(session.scalars(query.order_by(Event.occurred_at, Event.id)))
    gone = undone_ids(_undos(session, [event.id for event in events]))
    return [event for event in events if event.id not in gone]


def _undos(session: Session, ids: Sequence[str]) -> Iterable[Happened]:
    """Undos of these events, and undos of those undos."""
    found: dict[str, Happened] = {}
    asked: set[str] = set()
    wanted = list(ids)
    while wanted:
        asked.update(wanted)
        rows: list[Any] = []
        for start in range(0, len(wanted), 500):
            part = wanted[start : start + 500]
            rows += session.execute(
                select(Event.id, Event.kind, Event.occurred_at, Event.payload).where(
                    Event.kind == UNDO, Event.payload["event_id"].as_string().in_(part)
                )
            )
        found |= {row.id: Happened(*row) for row in rows}
        wanted = [row.id for row in rows if row.id not in asked]
    return found.values()


def _place(session: Session, event: Event) -> PlaceCounted:
    given = event.payload
    try:
        place = find_place(session, f"{event.subject_kind}:{event.subject_id}")
    except NotFound:  # the rack's own first entry was undone since
        place = CountPlace(f"{event.subject_kind}:{event.subject_id}", "", None, "a place that is gone")
    numbers = (given[key] for key in ("expected", "seen", "missing", "moved"))
    return PlaceCounted(place, event.occurred_at, event.author_name, *numbers)


def _lines(session: Session, events: Sequence[Event]) -> list[Found]:
    found: dict[str, tuple[str, dict[str, Any]]] = {}
    for event in events:
        if event.kind not in _FOUND:
            continue
        word = "by eye" if event.payload.get("by_eye") else event.kind
        before = found.get(event.subject_id)
        if before and before[0] == "moved" and word == "seen" and before[1]["rack_id"] == event.payload["rack_id"]:
            continue  # moved here says more than seen here; both are of one deed
        if before and word == "moved" and before[0] == "seen":
            found.pop(event.subject_id)
        found[event.subject_id] = (word, event.payload)
    names = {one.key: one.name for one in all_places(session)}
    lines = []
    for specimen_id, (word, where) in found.items():
        row = session.get(SpecimenRow, specimen_id)
        if row is not None:
            key = f"rack:{where['rack_id']}" if where.get("rack_id") else f"tank:{where['tank_id']}"
            place = names.get(key) or find_place(session, key).name
            lines.append(Found(row.id, row.name, row.code, word, place, row.slot, row.price_cents, row.status))
    return sorted(lines, key=lambda one: (one.found != "missing", one.place, len(one.slot), one.slot, one.name))
