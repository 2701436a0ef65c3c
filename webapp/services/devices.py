"""Phones and computers that staff work with: known by a token of their own, listed, renamed, shut out."""

import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.people import SESSION_IDLE, digest_of
from webapp.services.recording import Author, deeds_here
from webapp.services.tagging import fresh_codes
from webapp.storage.base import new_id
from webapp.storage.shop import Device, Person, ReservedCode, StaffSession

#: A deed may be promised this many codes, and a device this many such deeds.
CODES_A_DEED, DEEDS_A_DEVICE = 24, 4


@dataclass(frozen=True, slots=True)
class Known:
    """A device. people: names of those signed in there. skew_s: how far its clock runs ahead, when last seen."""

    id: str
    name: str
    created_at: datetime
    seen_at: datetime
    skew_s: float | None
    revoked: bool
    people: list[str]


@dataclass(frozen=True, slots=True)
class Signed:
    """Who was signed in on a device, from when until when."""

    author: Author
    since: datetime
    until: datetime

    def covers(self, moment: datetime, allowance: timedelta) -> bool:
        """Whether the moment lies in that time, clocks being a little off."""
        return self.since - allowance <= moment <= self.until + allowance


def register(session: Session, name: str, now: datetime) -> tuple[str, str]:
    """A device seen for the first time; returns its id and the token it keeps."""
    token = secrets.token_urlsafe(32)
    device = Device(id=new_id(), digest=digest_of(token), name=name[:60] or "device", created_at=now, seen_at=now)
    session.add(device)
    session.flush()
    return device.id, token


def device_for(session: Session, token: str | None) -> Known | None:
    """The device that holds this token, unless it is shut out."""
    row = session.scalar(select(Device).where(Device.digest == digest_of(token))) if token else None
    return None if row is None or row.revoked_at is not None else _known(row, [])


def devices(session: Session) -> list[Known]:
    """Every device, the latest seen first."""
    open_here = session.execute(
        select(StaffSession.device_id, Person.name)
        .join(Person, Person.id == StaffSession.person_id)
        .where(StaffSession.ended_at.is_(None), Person.active)
        .order_by(Person.name)
    ).all()
    rows = session.scalars(select(Device).order_by(Device.revoked_at.is_not(None), Device.seen_at.desc()))
    return [_known(row, sorted({name for device, name in open_here if device == row.id})) for row in rows]


def rename(session: Session, device_id: str, name: str) -> None:
    """Call a device something that people recognise."""
    clean = " ".join(name.split())
    if not 1 <= len(clean) <= 60:
        raise BadInput("Give the device a name of 1 to 60 letters.", "name")
    device = _device(session, device_id)
    device.name = clean
    session.execute(update(StaffSession).where(StaffSession.device_id == device_id).values(device=clean))


def revoke(session: Session, device_id: str, now: datetime) -> None:
    """Shut a device out: everybody is signed out there, and what it still holds is taken only after a new sign-in."""
    device = _device(session, device_id)
    device.revoked_at = device.revoked_at or now
    open_there = (StaffSession.device_id == device_id) & StaffSession.ended_at.is_(None)
    session.execute(update(StaffSession).where(open_there).values(ended_at=now))


def heard_from(session: Session, device_id: str, digest: str, skew_s: float, now: datetime) -> None:
    """A device sent something: it and its session stay alive; how far its clock is off is kept."""
    session.execute(update(Device).where(Device.id == device_id).values(seen_at=now, skew_s=skew_s))
    session.execute(update(StaffSession).where(StaffSession.digest == digest).values(seen_at=now))


def was_signed_in(session: Session, device_id: str, handle: str) -> Signed | None:
    """The session with this handle, if it is this device's. One that has ended still counts for the time before."""
    row = session.execute(
        select(Person.id, Person.name, Person.role, StaffSession)
        .join(Person, Person.id == StaffSession.person_id)
        .where(StaffSession.digest == handle, StaffSession.device_id == device_id)
    ).one_or_none()
    if row is None:
        return None
    kept: StaffSession = row[3]
    until = kept.ended_at or kept.seen_at + SESSION_IDLE
    return Signed(Author(row[0], row[1], row[2], kept.device), kept.created_at, until)


def promise_codes(session: Session, device_id: str, now: datetime) -> dict[str, list[str]]:
    """Deeds that this device may do without signal, each with the codes it will draw: {deed id: codes}.

    A deed that was done is not in the list; new ones take its place. Codes are drawn from the deed's id, so nothing
    but the promise has to be kept.
    """
    kept: dict[str, list[str]] = {}
    promised = select(ReservedCode).where(ReservedCode.device_id == device_id)
    for row in session.scalars(promised.order_by(ReservedCode.deed_id, ReservedCode.place)):
        kept.setdefault(row.deed_id, []).append(row.code)
    done = deeds_here(session, kept)
    open_deeds = {deed: codes for deed, codes in kept.items() if deed not in done}
    while len(open_deeds) < DEEDS_A_DEVICE:
        deed = new_id()
        codes = fresh_codes(session, CODES_A_DEED, deed)
        session.add_all(
            ReservedCode(code=code, deed_id=deed, device_id=device_id, place=place, reserved_at=now)
            for place, code in enumerate(codes)
        )
        session.flush()
        open_deeds[deed] = codes
    return open_deeds


def _device(session: Session, device_id: str) -> Device:
    device = session.get(Device, device_id)
    if device is None:
        raise NotFound("There is no such device here.")
    return device


def _known(row: Device, people: list[str]) -> Known:
    return Known(row.id, row.name, row.created_at, row.seen_at, row.skew_s, row.revoked_at is not None, people)
