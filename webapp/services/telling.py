"""The history of a specimen as facts to be told: kinds, moments, names in place of ids. `words` makes sentences."""

import json
from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime
from typing import Any, NamedTuple

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.services.memory import Memory
from webapp.storage.folding import CORRECTION, UNDO, Happened, in_order, standing, undone_ids
from webapp.storage.history import happened
from webapp.storage.place import RackRow, TankRow
from webapp.storage.specimen import SpecimenRow

#: Names of all tanks and of all racks, by id.
Places = tuple[dict[str, str], dict[str, str]]
_SHOWN_AS = {"tank_id": "tank", "rack_id": "rack", "mother_id": "mother"}


class Told(NamedTuple):
    """One thing that happened. stands: it was neither undone nor is it an undo."""

    event_id: str
    deed_id: str
    kind: str
    at: datetime
    values: dict[str, Any]
    author: str = ""
    stands: bool = True


def public_story(places: Places, lines: str | None, mother: str) -> list[Told]:
    """What customers read, oldest first, from a story as it is kept; `mother` is what to call its mother."""
    tanks, racks = places
    story = []
    for kind, at, values in json.loads(lines or "[]"):
        if "tank_id" in values:
            values["tank"] = tanks.get(values["tank_id"], "")
        if "rack_id" in values:
            values["rack"] = racks.get(values["rack_id"], "")
        if "mother_id" in values:
            values["mother"] = mother
        story.append(Told("", "", kind, datetime.fromisoformat(at), values))
    return story


def staff_story(session: Session, memory: Memory, revision: int, specimen_id: str) -> list[Told]:
    """Everything, newest first, with who did it, undone deeds and corrections included."""
    places = place_names(session, memory, revision)
    events = in_order(happened(session, specimen_id))
    gone = undone_ids(events)
    corrected = {event.id: event for event in standing(events)}
    story = [
        Told(
            event.id, event.deed_id, event.kind, event.occurred_at,
            _values(session, places, events, gone, corrected.get(event.id, event)), event.author_name,
            event.id not in gone and event.kind not in (UNDO, CORRECTION),
        )
        for event in events
    ]  # fmt: skip
    return story[::-1]


def _values(
    session: Session, places: Places, events: list[Happened], gone: set[str], event: Happened
) -> dict[str, Any]:
    """What is told of an event; of a correction what it changed, of an undo what it took back."""
    target = next((one for one in events if one.id == event.payload.get("event_id")), None)
    if target is None or event.kind not in (UNDO, CORRECTION):
        return _named(session, places, event)
    if event.kind == UNDO:
        return {"undid": (target.kind, _values(session, places, events, gone, target))}
    earlier = [
        one for one in events[: events.index(event)]
        if one.kind == CORRECTION and one.payload["event_id"] == target.id and one.id not in gone
    ]  # fmt: skip
    was = dict(target.payload)
    for one in earlier:
        was |= one.payload["changes"]
    old, new = (
        _named(session, places, replace(target, payload=payload)) for payload in (was, was | event.payload["changes"])
    )
    changed = [
        (key, old.get(key), new.get(key))
        for key in (_SHOWN_AS.get(key, key) for key in event.payload["changes"])
        if old.get(key) != new.get(key)
    ]
    return {"changed": changed, "reason": event.payload.get("reason") or ""}


def _named(session: Session, places: Places, event: Happened) -> dict[str, Any]:
    values, (tanks, racks) = dict(event.payload), places
    if values.get("tank_id"):
        values["tank"] = tanks.get(values["tank_id"], "")
    if values.get("rack_id"):
        values["rack"] = racks.get(values["rack_id"], "")
    for key, name in (("mother_id", "mother"), ("into", "other"), ("piece", "other")):
        if values.get(key):
            values[name] = specimen_names(session, [values[key]]).get(values[key], "")
    if "pieces" in values:
        values["pieces"] = len(values["pieces"])
    return values


def place_names(session: Session, memory: Memory, revision: int) -> Places:
    """Names of all tanks and of all racks, by id."""

    def read() -> Places:
        return (
            dict(session.execute(select(TankRow.id, TankRow.name)).all()),
            dict(session.execute(select(RackRow.id, RackRow.name)).all()),
        )

    return memory.get(revision, "place names", read)


def specimen_names(session: Session, ids: Iterable[str]) -> dict[str, str]:
    """What to call each specimen: its name and code."""
    rows = session.execute(
        select(SpecimenRow.id, SpecimenRow.name, SpecimenRow.code).where(SpecimenRow.id.in_(list(ids)))
    )
    return {row.id: f"{row.name} {row.code}" if row.code else row.name for row in rows}
