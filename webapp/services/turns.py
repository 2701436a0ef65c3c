"""Who takes over a shared phone, also without signal: proven by the device and the PIN, checked here alone."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import Refused
from webapp.services.devices import Known
from webapp.services.people import check_secret
from webapp.services.recording import CLOCK_SKEW
from webapp.services.sealing import unsealed
from webapp.storage.shop import Person, StaffSession

#: Within a shift somebody takes over by name alone on a device where they gave their PIN; owners always give it.
SHIFT = timedelta(hours=12)
LONGEST_AWAY = timedelta(days=30)
TAKEN, NOT_TAKEN, NOT_YET = "accepted", "refused", "later"


@dataclass(frozen=True, slots=True)
class Turn:
    """Somebody took over without signal. handle: how the phone names what is done from then on; sealed: their PIN, or
    nothing when they took over by name alone."""

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
    """Who has signed in on a device before. until: takes over by name alone until then; None: by PIN."""

    id: str
    name: str
    until: datetime | None = None


def mates(session: Session, device_id: str, now: datetime) -> list[Mate]:
    """Everybody who may take over a device, by name."""
    rows = session.scalars(
        select(Person).join(StaffSession, StaffSession.person_id == Person.id)
        .where(StaffSession.device_id == device_id, Person.active).distinct().order_by(Person.name)
    )  # fmt: skip
    found = []
    for person in rows:
        until = _shift_until(session, device_id, person, now)
        found.append(Mate(person.id, person.name, until if until is not None and until > now else None))
    return found


def _shift_until(session: Session, device_id: str, person: Person, moment: datetime) -> datetime | None:
    """Until when somebody takes over a device by name alone: a shift from when they gave their PIN there, unless they
    signed out or were shut out before. What was begun by name alone does not make it longer."""
    if person.role == "owner":
        return None
    here = (StaffSession.device_id == device_id) & (StaffSession.person_id == person.id)
    rows = session.scalars(select(StaffSession).where(here, StaffSession.created_at <= moment + CLOCK_SKEW))
    ends = (min(row.created_at + SHIFT, row.ended_at or row.created_at + SHIFT) for row in rows)
    return max(ends, default=None)


def take_turn(session: Session, device: Known, turn: Turn, now: datetime) -> TurnReply:
    """Check the PIN of a turn; right, and what the phone names by its handle counts as that person's for a shift. A
    turn by name alone counts until the shift of the PIN before it is over.

    The handle is no token: it lets nobody in. Wrong PINs are counted for the device, as at the sign-in.
    """
    kept = session.get(StaffSession, turn.handle)
    if kept is not None:
        ours = kept.device_id == device.id and kept.person_id == turn.person_id
        return TurnReply(turn.handle, TAKEN if ours else NOT_TAKEN, "" if ours else "Sign in again.")
    since = min(turn.at, now)
    try:
        person = _asked(session, device, turn, now)
        if turn.sealed:
            refused = _checked(session, device, turn, person, now)
            if refused is not None:
                return refused
            until = since + SHIFT
        else:
            until = _by_name(session, device, person, since)
    except Refused as error:
        return TurnReply(turn.handle, NOT_TAKEN, str(error))
    session.add(
        StaffSession(digest=turn.handle, person_id=person.id, device_id=device.id, device=device.name,
                     created_at=since, seen_at=now, ended_at=until)
    )  # fmt: skip
    session.flush()
    return TurnReply(turn.handle, TAKEN)


def _asked(session: Session, device: Known, turn: Turn, now: datetime) -> Person:
    """The person who took over. Raises Refused."""
    person = session.get(Person, turn.person_id)
    here = select(StaffSession.digest).where(
        StaffSession.device_id == device.id, StaffSession.person_id == turn.person_id
    )
    if person is None or not person.active or session.scalar(here.limit(1)) is None:
        raise Refused("Only who has signed in on this device before can take over without signal.")
    if now - turn.at > LONGEST_AWAY:
        raise Refused("It is too long ago to check a PIN that was given then.")
    return person


def _checked(session: Session, device: Known, turn: Turn, person: Person, now: datetime) -> TurnReply | None:
    """What to reply when the PIN was not right or cannot be tried yet. Raises Refused."""
    check = check_secret(session, person.name, unsealed(session, turn.sealed, turn.label), now, device.id)
    if check.retry_after_s:
        return TurnReply(turn.handle, NOT_YET, check.problem)
    if check.person is None:
        return TurnReply(turn.handle, NOT_TAKEN, f"The PIN given for {person.name} then was not right.")
    return None


def _by_name(session: Session, device: Known, person: Person, since: datetime) -> datetime:
    """Until when a turn by name alone counts. Raises Refused."""
    until = _shift_until(session, device.id, person, since)
    if until is None or since > until + CLOCK_SKEW:
        settle = f"Sign in as {person.name}, and send it in that name."
        raise Refused(f"The PIN of {person.name} was needed to take over then. {settle}")
    return until
