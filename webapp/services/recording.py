"""Takes what happened into the history; refuses only for form, author or a target that does not exist."""

import uuid
from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from marshmallow import ValidationError
from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import Refused
from webapp.schemas.events import EVENT_KINDS, check_payload
from webapp.science.units import QUANTITIES, to_canonical
from webapp.services import authority
from webapp.storage import history
from webapp.storage.base import derived_id
from webapp.storage.event import Event

#: A clock may run this far ahead of ours before what it says is refused.
CLOCK_SKEW = timedelta(minutes=10)
_HAPPENED_AT: ContextVar[datetime | None] = ContextVar("happened_at", default=None)


@dataclass(frozen=True, slots=True)
class Author:
    """Who did it, as proven by the session: never taken from what was sent."""

    id: str | None
    name: str
    role: str = "staff"
    device: str = ""


@dataclass(frozen=True, slots=True)
class NewEvent:
    """An event to be recorded. `subject_id` is '' for kinds that speak of another event."""

    kind: str
    subject_id: str
    payload: dict[str, Any] = field(default_factory=dict)
    occurred_at: datetime | None = None
    id: str = ""


def new_deed() -> str:
    """An id for one deed; put into the form, it makes sending the form twice harmless."""
    return uuid.uuid4().hex


def now() -> datetime:
    """The present moment, UTC."""
    return datetime.now(UTC)


@contextmanager
def happening_at(moment: datetime) -> Iterator[None]:
    """What is recorded inside happened at that moment, where it says nothing else: a form filled in without signal."""
    token = _HAPPENED_AT.set(moment)
    try:
        yield
    finally:
        _HAPPENED_AT.reset(token)


def deeds_here(session: Session, deed_ids: Collection[str]) -> set[str]:
    """Those of the deeds of which something is recorded."""
    return set(session.scalars(select(Event.deed_id).where(Event.deed_id.in_(list(deed_ids))).distinct()))


def record(
    session: Session, author: Author, events: Sequence[NewEvent], deed_id: str | None = None, at: datetime | None = None
) -> str:
    """Record the events of one deed together and return the deed's id.

    Events without an id get one derived from the deed and their place in it, so the same deed sent again adds nothing.
    Raises Refused with a sentence that says which and why; then nothing of the deed is kept.
    """
    deed_id = deed_id or new_deed()
    received = at or now()
    ids = [event.id or derived_id(deed_id, number) for number, event in enumerate(events)]
    here = history.known(session, ids)
    fresh: dict[str, Event] = {}
    for event_id, event in zip(ids, events, strict=True):
        if event_id not in here:
            fresh[event_id] = checked(session, author, event, event_id, deed_id, received, fresh)
    history.take(session, list(fresh.values()))
    return deed_id


def undo(session: Session, author: Author, undone_deed: str, deed_id: str | None = None) -> str:
    """Undo a whole deed by one 'undone' event for each of its events. Undoing an undo brings the deed back."""
    rows = list(session.scalars(select(Event).where(Event.deed_id == undone_deed)))
    if not rows:
        raise Refused("There is nothing to undo: this deed is not known here.")
    events = [NewEvent("undone", "", {"event_id": row.id}) for row in rows]
    return record(session, author, events, deed_id)


def correct(
    session: Session,
    author: Author,
    event_id: str,
    changes: dict[str, Any],
    reason: str = "",
    deed_id: str | None = None,
) -> str:
    """Put right what an earlier event said, without rewriting it."""
    return record(
        session,
        author,
        [NewEvent("corrected", "", {"event_id": event_id, "changes": changes, "reason": reason})],
        deed_id,
    )


def checked(
    session: Session,
    author: Author,
    event: NewEvent,
    event_id: str,
    deed_id: str,
    received: datetime,
    fresh: dict[str, Event],
    here: Collection[tuple[str, str]] = (),
) -> Event:
    """The event as it will be kept. Raises Refused for its form, its author or a target that does not exist.

    fresh: what is kept together with it; here: (kind, id) of subjects that are known to exist.
    """
    kind = EVENT_KINDS.get(event.kind)
    if kind is None:
        raise Refused(f"'{event.kind}' is not a kind of event that this shop keeps.")
    payload = _shaped(event.kind, event.payload)
    subject_kind, subject_id = kind.subject_kind, event.subject_id
    if not subject_kind:
        target = fresh.get(payload["event_id"]) or _event(session, payload["event_id"])
        if target is None:
            raise Refused("What this speaks of has not arrived here yet. Send it again after the first.")
        subject_kind, subject_id = target.subject_kind, target.subject_id
        authority.check(author.role, event.kind, target.kind)
        if event.kind == "corrected":
            _shaped(target.kind, target.payload | payload["changes"])
    else:
        authority.check(author.role, event.kind)
        known = kind.creates or (subject_kind, subject_id) in here
        if not known and not _exists(session, subject_kind, subject_id, fresh):
            raise Refused(f"There is no such {subject_kind} here.")
    occurred = event.occurred_at or _HAPPENED_AT.get() or received
    if occurred > received + CLOCK_SKEW:
        raise Refused("This is dated in the future. Set the clock of the phone and send it again.")
    return Event(
        id=event_id, kind=event.kind, subject_kind=subject_kind, subject_id=subject_id, deed_id=deed_id,
        occurred_at=occurred, received_at=received, author_id=author.id, author_name=author.name,
        device=author.device, payload=payload,
    )  # fmt: skip


def _shaped(kind: str, payload: dict[str, Any]) -> dict[str, Any]:
    try:
        shaped = check_payload(kind, payload)
    except ValidationError as error:
        raise Refused(f"'{kind}' does not have the right form: {_sentence(error.messages)}.") from error
    if kind == "reading":
        _check_reading(shaped)
    return shaped


def _check_reading(payload: dict[str, Any]) -> None:
    quantity = QUANTITIES[payload["quantity"]]
    sample = {"temp_c": payload["temp_c"]} if payload.get("temp_c") is not None else {}
    try:
        value = to_canonical(quantity.name, payload["value"], payload["unit"], **sample)
    except ValueError as error:
        raise Refused(f"This {quantity.name} cannot be converted: {error}.") from error
    low, high = quantity.possible
    if not low <= value <= high:
        typed = f"{payload['value']:g} {quantity.units[payload['unit']].label}"
        raise Refused(f"A {quantity.name} of {typed} is not possible in a reef tank. Check the unit and the number.")


def _sentence(messages: Any) -> str:
    if isinstance(messages, dict):
        named = {str(key).removesuffix("_cents").replace("_", " "): value for key, value in messages.items()}
        return "; ".join(f"{name}: {_sentence(value)}" for name, value in named.items())
    return ", ".join(str(message).rstrip(".").lower() for message in messages)


def _event(session: Session, event_id: str) -> Event | None:
    return session.scalar(select(Event).where(Event.id == event_id))


def _exists(session: Session, kind: str, subject_id: str, fresh: dict[str, Event]) -> bool:
    if any(event.subject_id == subject_id and EVENT_KINDS[event.kind].creates for event in fresh.values()):
        return True
    return (
        session.scalar(select(Event.id).where(Event.subject_id == subject_id, Event.subject_kind == kind).limit(1))
        is not None
    )
