"""The door for what was done without signal: each event judged by itself, kept once, answered with its outcome."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import Refused
from webapp.schemas.events import EVENT_KINDS
from webapp.services.devices import Signed, was_signed_in
from webapp.services.recording import CLOCK_SKEW, Author, NewEvent, checked
from webapp.storage import history
from webapp.storage.event import Event

ACCEPTED, KNOWN, REFUSED = "accepted", "known", "refused"
OUR_FAULT = "This could not be kept here, which is our fault, not yours. It stays on the phone: tell the owner."


@dataclass(frozen=True, slots=True)
class Sent:
    """One event as a device sends it. handle: the session in which it was done."""

    id: str
    kind: str
    subject_id: str
    payload: dict[str, Any]
    occurred_at: datetime
    deed_id: str
    handle: str


@dataclass(frozen=True, slots=True)
class Reply:
    """What became of one event: 'accepted', 'known' (it was here already) or 'refused' with a reason."""

    id: str
    state: str
    reason: str = ""


class Authors:
    """Who did what, by the sessions kept here for one device: never by what was sent."""

    def __init__(self, session: Session, device_id: str, present: Author):
        """present: who is signed in on the device now, and has just proven it."""
        self._session, self._device_id, self._present = session, device_id, present
        self._found: dict[str, Signed | None] = {}

    def of(self, handle: str, when: datetime) -> Author:
        """The person signed in on the device then. Raises Refused.

        What somebody did after their session had ended counts once they have signed in here again.
        """
        if handle not in self._found:
            self._found[handle] = was_signed_in(self._session, self._device_id, handle)
        signed = self._found[handle]
        if signed is None or not (signed.covers(when, CLOCK_SKEW) or signed.author.id == self._present.id):
            raise Refused("Nobody was signed in on this device then. Send it again in your own name if it is right.")
        return signed.author


def take(session: Session, authors: Authors, sent: Sequence[Sent], now: datetime) -> list[Reply]:
    """Keep every event that can be kept; one that cannot never holds up the others. A reply for each, in order."""
    here = history.known(session, [one.id for one in sent])
    subjects = _subjects_here(session, sent)
    fresh: dict[str, Event] = {}
    replies: list[Reply] = []
    for one in sent:
        before = here.get(one.id) or fresh.get(one.id)
        try:
            if before is not None:
                _same(before, one)
                replies.append(Reply(one.id, KNOWN))
                continue
            event = NewEvent(one.kind, one.subject_id, one.payload, one.occurred_at, one.id)
            author = authors.of(one.handle, one.occurred_at)
            fresh[one.id] = checked(session, author, event, one.id, one.deed_id, now, fresh, subjects)
            replies.append(Reply(one.id, ACCEPTED))
        except Refused as error:
            replies.append(Reply(one.id, REFUSED, str(error)))
    broken = _keep(session, list(fresh.values()))
    return [replace(reply, state=REFUSED, reason=OUR_FAULT) if reply.id in broken else reply for reply in replies]


def _keep(session: Session, events: list[Event]) -> set[str]:
    """Keep the events together; when that breaks, each by itself. Returns the ids of those that broke."""
    try:
        with session.begin_nested():
            history.take(session, events)
        return set()
    except Exception:  # whatever one event breaks must not cost the others
        if len(events) == 1:
            return {events[0].id}
    return set().union(*(_keep(session, [_again(event)]) for event in events))


def _again(event: Event) -> Event:
    """The event for another try: the session has let go of the first."""
    names = (column.key for column in Event.__table__.columns if column.key != "seq")
    return Event(**{name: getattr(event, name) for name in names})


def _subjects_here(session: Session, sent: Sequence[Sent]) -> set[tuple[str, str]]:
    """(kind, id) of the subjects spoken of that exist."""
    ids = {one.subject_id for one in sent if one.kind in EVENT_KINDS and EVENT_KINDS[one.kind].subject_kind}
    query = select(Event.subject_kind, Event.subject_id).where(Event.subject_id.in_(ids)).distinct()
    return {(kind, subject) for kind, subject in session.execute(query)}


def _same(before: Event, one: Sent) -> None:
    """Raises Refused when another event came under the same id."""
    speaks_of_another = bool(EVENT_KINDS[before.kind].subject_kind) and before.subject_id != one.subject_id
    if before.kind != one.kind or before.deed_id != one.deed_id or speaks_of_another:
        raise Refused("Something else was kept here under the same id. Do it again.")
