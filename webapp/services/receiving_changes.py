"""A shipment that was noted wrongly: its supplier, invoice and papers, or a line of it, put right by corrections."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.receiving import Line, Shipment, papers_of
from webapp.services.recording import Author, NewEvent, record
from webapp.storage.folding import Happened, standing
from webapp.storage.history import happened

Changes = dict[str, Any]


def correct_shipment(
    session: Session, author: Author, deed_id: str, shipment: Shipment, given: Mapping[str, Any]
) -> None:
    """Put the order right: each key where it was said last. `given`: the payload of 'shipment_set'.

    No time given: none is expected, the shop's own window holds. What was taken in from it takes over its
    supplier and papers. Raises BadInput when nothing differs.
    """
    if not (given.get("supplier") or "").strip():
        raise BadInput("Say who sends it.", "supplier")
    said = [event for event in standing(happened(session, shipment.id)) if event.kind == "shipment_set"]
    changes: dict[str, Changes] = {}
    for key, value in ({"expected_at": None, "claim_h": None, "freight_cents": None} | dict(given)).items():
        last = next((event for event in reversed(said) if key in event.payload), said[0])
        was = last.payload.get(key)
        if not _same(key, was, value) and value != getattr(shipment, key):
            changes.setdefault(last.id, {})[key] = value
    events = [_correction(event_id, changed) for event_id, changed in changes.items()]
    for line in shipment.lines:
        papers = papers_of(given.get("papers") or "", line.papers, line.as_on_papers, line.source_code)
        events += _animals(session, line, {"supplier": given["supplier"], "papers": papers})
    _record(session, author, deed_id, events)


def correct_line(
    session: Session, author: Author, deed_id: str, shipment: Shipment, line: Line, given: Mapping[str, Any]
) -> None:
    """Put a line right; the animals taken in from it are put right with it. `given`: 'shipment_line' less the id.

    Raises BadInput when nothing differs.
    """
    said = standing(happened(session, shipment.id))
    first = next((one for one in said if one.kind == "shipment_line" and one.payload["line"] == line.id), None)
    if first is None:
        raise NotFound("There is no such line in this shipment.")
    changes = _differing(first, given)
    events = [_correction(first.id, changes)] if changes else []
    papers = papers_of(shipment.papers, given.get("papers") or "", given.get("as_on_papers") or "",
                       given.get("source_code") or "")  # fmt: skip
    told = {key: given.get(key) for key in ("profile_key", "name", "origin", "cost_cents")}
    _record(session, author, deed_id, [*events, *_animals(session, line, told | {"papers": papers})])


def _animals(session: Session, line: Line, wanted: Changes) -> Iterator[NewEvent]:
    """Corrections of the arrival of every animal that was taken in from a line."""
    for specimen_id in line.specimens:
        for event in standing(happened(session, specimen_id)):
            if event.kind == "arrived" and (changes := _differing(event, wanted)):
                yield _correction(event.id, changes)


def _same(key: str, was: Any, value: Any) -> bool:
    if key == "expected_at" and was and value:
        return datetime.fromisoformat(was) == datetime.fromisoformat(value)
    return was == value or not (was or value)


def _differing(event: Happened, given: Mapping[str, Any]) -> Changes:
    """What is said otherwise now; an empty box and a key never given are the same."""
    return {key: value for key, value in given.items() if not _same(key, event.payload.get(key), value)}


def _correction(event_id: str, changes: Changes) -> NewEvent:
    return NewEvent("corrected", "", {"event_id": event_id, "changes": changes})


def _record(session: Session, author: Author, deed_id: str, events: list[NewEvent]) -> None:
    if not events:
        raise BadInput("Nothing is different. Change what is wrong, then send it.")
    record(session, author, events, deed_id)
