"""Who takes over a shared phone, also without signal: proven by the device and the PIN, checked here alone."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import Refused
from webapp.services.devices import Known
from webapp.services.people import check_secret
from webapp.services.sealing import unsealed
from webapp.storage.shop import Person, StaffSession

#: Within a shift somebody takes over by name alone on a device where they gave their PIN; owners always give it.
SHIFT = timedelta(hours=12)
LONGEST_AWAY = timedelta(days=30)
TAKEN, NOT_TAKEN, NOT_YET = "accepted", "refused", "later"


@dataclass(frozen=True, slots=True)
class Turn:
    """Somebody took over without signal. handle: how the phone names what is done from then on; sealed: their PIN."""

    handle: str
    person_id: str
    at: datetime
    sealed: str

    @property
    def label(self) -> str:
        """What the PIN was sealed for: another handle, another person cannot use it."""
        return f"{self.handle} {self.person_id}"


@dataclass(frozen=True, slots=True)
class TurnReply:
    """What became of it: 'accepted', 'refused' with a reason, or 'later' while tries on this device have to wait."""

    handle: str
    state: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Mate:
    """Who has signed in on a device before. handle, until: takes over by name alone until then; '', None: by PIN."""

    id: str
    name: str
    handle: str = ""
    until: datetime | None = None


def mates(session: Session, device_id: str, handles: dict[str, str], now: datetime) -> list[Mate]:
    """Everybody who may take over a device, by name. handles: {name: handle} of the sessions open on it."""
    rows = session.scalars(
        select(Person).join(StaffSession, StaffSession.person_id == Person.id)
        .where(StaffSession.device_id == device_id, Person.active).distinct().order_by(Person.name)
    )  # fmt: skip
    found = []
    for person in rows:
        kept = session.get(StaffSession, handles.get(person.name, ""))
        until = kept.created_at + SHIFT if kept is not None and kept.ended_at is None else now
        by_name = kept is not None and person.role != "owner" and until > now
        found.append(Mate(person.id, person.name, *((kept.digest, until) if by_name and kept is not None else ())))
    return found


def take_turn(session: Session, device: Known, turn: Turn, now: datetime) -> TurnReply:
    """Check the PIN of a turn; right, and what the phone names by its handle counts as that person's for a shift.

    The handle is no token: it lets nobody in. Wrong PINs are counted for the device, as at the sign-in.
    """
    kept = session.get(StaffSession, turn.handle)
    if kept is not None:
        ours = kept.device_id == device.id and kept.person_id == turn.person_id
        return TurnReply(turn.handle, TAKEN if ours else NOT_TAKEN, "" if ours else "Sign in again.")
    try:
        person, secret = _asked(session, device, turn, now)
    except Refused as error:
        return TurnReply(turn.handle, NOT_TAKEN, str(error))
    check = check_secret(session, person.name, secret, now, device.id)
    if check.retry_after_s:
        return TurnReply(turn.handle, NOT_YET, check.problem)
    if check.person is None:
        return TurnReply(turn.handle, NOT_TAKEN, f"The PIN given for {person.name} then was not right.")
    since = min(turn.at, now)
    session.add(
        StaffSession(digest=turn.handle, person_id=person.id, device_id=device.id, device=device.name,
                     created_at=since, seen_at=now, ended_at=since + SHIFT)
    )  # fmt: skip
    session.flush()
    return TurnReply(turn.handle, TAKEN)


def _asked(session: Session, device: Known, turn: Turn, now: datetime) -> tuple[Person, str]:
    """The person and the PIN that was typed. Raises Refused."""
    person = session.get(Person, turn.person_id)
    here = select(StaffSession.digest).where(
        StaffSession.device_id == device.id, StaffSession.person_id == turn.person_id
    )
    if person is None or not person.active or session.scalar(here.limit(1)) is None:
        raise Refused("Only who has signed in on this device before can take over without signal.")
    if now - turn.at > LONGEST_AWAY:
        raise Refused("It is too long ago to check a PIN that was given then.")
    return person, unsealed(session, turn.sealed, turn.label)
