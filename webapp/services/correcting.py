"""Mistakes put right without rewriting history: a wrong kind, a wrong parent, a wrong reading."""

from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.recording import Author, NewEvent, record
from webapp.services.updating import get_row
from webapp.storage.event import Event
from webapp.storage.folding import standing
from webapp.storage.history import happened
from webapp.storage.present_specimen import CREATING
from webapp.storage.specimen import SpecimenRow


def correct_kind(
    session: Session, author: Author, deed_id: str, specimen_id: str, profile_key: str, name: str, with_frags: bool
) -> int:
    """Put the kind and name right, for its frags and theirs too when asked. Returns how many were corrected."""
    ids = [specimen_id, *(_descendants(session, specimen_id) if with_frags else ())]
    changes = {"profile_key": profile_key, "name": name.strip()}
    if not changes["name"]:
        raise BadInput("Give it a name.", "name")
    record(session, author, [_correction(session, one, changes) for one in ids], deed_id)
    return len(ids)


def correct_mother(session: Session, author: Author, deed_id: str, specimen_id: str, mother_id: str) -> None:
    """Put the parent right. Raises BadInput when that would make it its own ancestor."""
    get_row(session, mother_id)
    if mother_id == specimen_id or mother_id in _descendants(session, specimen_id):
        raise BadInput("That would make it its own ancestor. Choose another mother colony.", "mother")
    record(session, author, [_correction(session, specimen_id, {"mother_id": mother_id})], deed_id)


def correct_reading(
    session: Session, author: Author, deed_id: str, reading_id: str, value: float, unit: str, method: str
) -> None:
    """Put a reading right; what was typed first stays in the history."""
    event = session.scalar(
        select(Event).where(Event.subject_id == reading_id, Event.kind == "reading").order_by(Event.seq).limit(1)
    )
    if event is None:
        raise NotFound("There is no such reading here.")
    changes = {"value": value, "unit": unit, "method": method}
    record(session, author, [NewEvent("corrected", "", {"event_id": event.id, "changes": changes})], deed_id)


def _correction(session: Session, specimen_id: str, changes: dict[str, Any]) -> NewEvent:
    for event in standing(happened(session, specimen_id)):
        if event.kind in CREATING:
            if "mother_id" in changes and event.kind == "arrived":
                raise BadInput("This one came from outside, so it has no mother colony here.", "mother")
            return NewEvent("corrected", "", {"event_id": event.id, "changes": changes})
    raise NotFound("There is no such specimen here.")


def _descendants(session: Session, specimen_id: str) -> list[str]:
    found: list[str] = []
    generation = [specimen_id]
    while generation:
        children = session.scalars(select(SpecimenRow.id).where(SpecimenRow.mother_id.in_(generation)))
        generation = [child for child in children if child not in found and child != specimen_id]
        found += generation
    return found
