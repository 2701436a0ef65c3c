"""Who works here, and signing in. Failed tries are counted in the database, so they hold over restarts."""

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session
from werkzeug.security import check_password_hash, generate_password_hash

from webapp.errors import BadInput, NotFound
from webapp.services.recording import Author
from webapp.services.recording import now as present_moment
from webapp.storage.base import new_id
from webapp.storage.shop import Attempt, Person, StaffSession

ROLES = ("owner", "staff", "counter")
LEAST_SECRET = 6
FREE_TRIES = 5
#: Waits after the free tries, in minutes; the last one repeats.
WAITS_MIN = (1, 5, 15, 60)
SESSION_IDLE = timedelta(days=30)
_NOBODY = generate_password_hash(secrets.token_hex(16))


@dataclass(frozen=True, slots=True)
class SignIn:
    """The outcome of a try: a token to keep in the cookie, or a sentence."""

    token: str = ""
    problem: str = ""
    retry_after_s: int = 0


@dataclass(frozen=True, slots=True)
class Check:
    """The outcome of a try: the person, or a sentence; retry_after_s while tries have to wait."""

    person: Person | None = None
    problem: str = ""
    retry_after_s: int = 0


def add_person(session: Session, name: str, secret: str, role: str, now: datetime) -> str:
    """A new person; returns the id. Raises BadInput when the name is taken or the secret too short."""
    name = " ".join(name.split())
    if not name or len(name) > 60:
        raise BadInput("Give a name of 1 to 60 letters.", "person")
    if role not in ROLES:
        raise BadInput("Choose owner, staff or counter.", "role")
    if session.scalar(select(Person.id).where(Person.name == name)):
        raise BadInput(f"There is already a {name} here. Add an initial.", "person")
    person = Person(id=new_id(), name=name, role=role, secret_hash=_hashed(secret), active=True, created_at=now)
    session.add(person)
    return person.id


def set_secret(session: Session, name: str, secret: str) -> None:
    """A new PIN or password for somebody; every device of theirs is signed out and failed tries are forgotten."""
    person = session.scalar(select(Person).where(Person.name == name))
    if person is None:
        raise NotFound(f"Nobody here is called {name}.")
    person.secret_hash = _hashed(secret)
    for row in session.scalars(select(StaffSession).where(StaffSession.person_id == person.id)):
        row.ended_at = row.ended_at or present_moment()
    attempt = session.get(Attempt, _attempt_key(name))
    if attempt is not None:
        session.delete(attempt)


def set_active(session: Session, person_id: str, active: bool) -> None:
    """Let somebody in, or no longer. The last active owner cannot be shut out."""
    person = session.get(Person, person_id)
    if person is None:
        raise NotFound("There is no such person here.")
    if not active and person.role == "owner" and len(_owners(session)) == 1:
        raise BadInput("This is the only owner left. Make somebody else an owner first.")
    person.active = active


def people(session: Session) -> list[tuple[str, str, str, bool]]:
    """(id, name, role, active) of everybody, by name."""
    return [
        tuple(row)
        for row in session.execute(select(Person.id, Person.name, Person.role, Person.active).order_by(Person.name))
    ]


def sign_in(
    session: Session, name: str, secret: str, device: str, now: datetime, device_id: str | None = None
) -> SignIn:
    """Try to sign in. Never raises for a wrong secret: the try must be kept."""
    check = check_secret(session, name, secret, now, device_id)
    if check.person is None:
        return SignIn(problem=check.problem, retry_after_s=check.retry_after_s)
    token = secrets.token_urlsafe(32)
    session.add(
        StaffSession(
            digest=digest_of(token), person_id=check.person.id, device_id=device_id, device=device[:60],
            created_at=now, seen_at=now,
        )
    )  # fmt: skip
    return SignIn(token=token)


def check_secret(session: Session, name: str, secret: str, now: datetime, device_id: str | None = None) -> Check:
    """Whose PIN this is. The answer and its time are the same whether the name or the secret was wrong. Tries on a
    known device (`device_id`) are counted for that device alone, so that a stranger's guesses cannot lock it out."""
    name = " ".join(name.split())[:60]
    key = f"device:{device_id}" if device_id else _attempt_key(name)
    attempt = session.get(Attempt, key)
    if attempt is not None and attempt.blocked_until is not None and attempt.blocked_until > now:
        wait = int((attempt.blocked_until - now).total_seconds()) + 1
        return Check(problem=f"Too many tries. Wait {_minutes(wait)} and try again.", retry_after_s=wait)
    person = session.scalar(select(Person).where(Person.name == name, Person.active))
    if check_password_hash(person.secret_hash if person else _NOBODY, secret) and person is not None:
        if attempt is not None:
            session.delete(attempt)
        return Check(person)
    if attempt is None:
        attempt = Attempt(key=key, failures=0, last_at=now)
        session.add(attempt)
    attempt.failures += 1
    attempt.last_at = now
    over = attempt.failures - FREE_TRIES
    if over >= 0:
        attempt.blocked_until = now + timedelta(minutes=WAITS_MIN[min(over, len(WAITS_MIN) - 1)])
    return Check(problem="The name or the PIN is not right. Try again, or ask the owner for a new PIN.")


def author_for(session: Session, token: str, now: datetime) -> Author | None:
    """Who holds this token, or None when it is unknown, ended or idle for too long."""
    row = session.execute(
        select(Person.id, Person.name, Person.role, StaffSession.device, StaffSession.seen_at)
        .join(StaffSession, StaffSession.person_id == Person.id)
        .where(StaffSession.digest == digest_of(token), StaffSession.ended_at.is_(None), Person.active)
    ).one_or_none()
    if row is None or now - row.seen_at > SESSION_IDLE:
        return None
    return Author(row.id, row.name, row.role, row.device)


def bind_session(session: Session, token: str, device_id: str) -> None:
    """This session is held on that device."""
    session.flush()
    row = session.get(StaffSession, digest_of(token))
    if row is not None:
        row.device_id = device_id


def signed_in_at(session: Session, token: str) -> datetime | None:
    """When the PIN of this session was given."""
    row = session.get(StaffSession, digest_of(token))
    return row.created_at if row is not None else None


def sign_out(session: Session, token: str, now: datetime) -> None:
    """End the session of this token, here and not only in the cookie."""
    row = session.get(StaffSession, digest_of(token))
    if row is not None:
        row.ended_at = now


def _owners(session: Session) -> list[str]:
    return list(session.scalars(select(Person.id).where(Person.role == "owner", Person.active)))


def _hashed(secret: str) -> str:
    if len(secret) < LEAST_SECRET:
        raise BadInput(f"A PIN or password needs at least {LEAST_SECRET} characters.", "secret")
    if len(secret) > 200:
        raise BadInput("A PIN or password may have at most 200 characters.", "secret")
    if len(set(secret)) < 3:
        raise BadInput("That PIN is too easy to guess. Use at least three different characters.", "secret")
    return generate_password_hash(secret)


def _attempt_key(name: str) -> str:
    return f"name:{name.casefold()}"


def digest_of(token: str) -> str:
    """What is kept of a token, and how a session is named where that gives nothing away."""
    return hashlib.sha256(token.encode()).hexdigest()


def _minutes(seconds: int) -> str:
    return f"{seconds} seconds" if seconds < 90 else f"{round(seconds / 60)} minutes"
