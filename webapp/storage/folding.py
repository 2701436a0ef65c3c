"""From a subject's events to those that stand: sorted, corrected, undone ones left out.

Pure functions over `Happened`. The total order is (occurred_at, id), so any order of arrival gives the same answer.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

#: Kinds that speak of another event of the same subject.
UNDO = "undone"
CORRECTION = "corrected"


@dataclass(frozen=True, slots=True)
class Happened:
    """An event as the folds see it."""

    id: str
    kind: str
    occurred_at: datetime
    payload: dict[str, Any]
    author_name: str = ""
    deed_id: str = ""


def in_order(events: Iterable[Happened]) -> list[Happened]:
    """Once each, in the order of happening."""
    return sorted({event.id: event for event in events}.values(), key=lambda event: (event.occurred_at, event.id))


def undone_ids(events: Iterable[Happened]) -> set[str]:
    """Ids of events that do not stand, because an undo that stands itself names them."""
    undoers: dict[str, list[str]] = {}
    for event in events:
        if event.kind == UNDO:
            undoers.setdefault(event.payload["event_id"], []).append(event.id)

    def is_undone(event_id: str, path: frozenset[str]) -> bool:
        return any(undo not in path and not is_undone(undo, path | {undo}) for undo in undoers.get(event_id, ()))

    return {event_id for event_id in undoers if is_undone(event_id, frozenset({event_id}))}


def standing(events: Iterable[Happened]) -> list[Happened]:
    """The events that count, in order, each with the latest correction of its payload applied."""
    ordered = in_order(events)
    gone = undone_ids(ordered)
    changes: dict[str, dict[str, Any]] = {}
    for event in ordered:
        if event.kind == CORRECTION and event.id not in gone:
            changes.setdefault(event.payload["event_id"], {}).update(event.payload["changes"])
    return [
        replace(event, payload=event.payload | changes[event.id]) if event.id in changes else event
        for event in ordered
        if event.id not in gone and event.kind not in (UNDO, CORRECTION)
    ]
