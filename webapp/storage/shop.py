"""What is not history: people, their sessions, settings, profiles, issued sheets, the revision."""

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from webapp.storage.base import ID, Base, UtcDateTime


class Person(Base):
    """Someone who works here. role: owner, staff or counter. The secret is kept as a salted hash only."""

    __tablename__ = "person"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    name: Mapped[str] = mapped_column(String(60), unique=True)
    role: Mapped[str] = mapped_column(String(12))
    secret_hash: Mapped[str] = mapped_column(String(200))
    active: Mapped[bool] = mapped_column(default=True)
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)


class Device(Base):
    """A phone or computer that staff work with. Only a digest of its token is kept."""

    __tablename__ = "device"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    digest: Mapped[str] = mapped_column(String(64), unique=True)
    name: Mapped[str] = mapped_column(String(60))
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)
    seen_at: Mapped[datetime] = mapped_column(UtcDateTime)
    skew_s: Mapped[float | None]
    revoked_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class ReservedCode(Base):
    """A code promised to a deed that a device may do without signal; nobody else draws it."""

    __tablename__ = "reserved_code"

    code: Mapped[str] = mapped_column(String(8), primary_key=True)
    deed_id: Mapped[str] = mapped_column(ID, index=True)
    device_id: Mapped[str] = mapped_column(ForeignKey("device.id"), index=True)
    place: Mapped[int]
    reserved_at: Mapped[datetime] = mapped_column(UtcDateTime)


class StaffSession(Base):
    """A person signed in on a device. Only a digest of the token is kept."""

    __tablename__ = "staff_session"

    digest: Mapped[str] = mapped_column(String(64), primary_key=True)
    person_id: Mapped[str] = mapped_column(ForeignKey("person.id"), index=True)
    device_id: Mapped[str | None] = mapped_column(ForeignKey("device.id"), index=True)
    device: Mapped[str] = mapped_column(String(60))
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)
    seen_at: Mapped[datetime] = mapped_column(UtcDateTime)
    ended_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class Attempt(Base):
    """Failed tries under one key (a person's name, a device), kept here so that they hold over restarts."""

    __tablename__ = "attempt"

    key: Mapped[str] = mapped_column(String(120), primary_key=True)
    failures: Mapped[int]
    last_at: Mapped[datetime] = mapped_column(UtcDateTime)
    blocked_until: Mapped[datetime | None] = mapped_column(UtcDateTime)


class Setting(Base):
    """One setting of the shop."""

    __tablename__ = "setting"

    key: Mapped[str] = mapped_column(String(40), primary_key=True)
    value: Mapped[Any] = mapped_column(JSON)


class Clock(Base):
    """One row: a number that grows with every commit that changes what a card may show."""

    __tablename__ = "clock"

    id: Mapped[int] = mapped_column(primary_key=True)
    revision: Mapped[int]


class ProfileRow(Base):
    """A profile at one revision; rows are only ever added."""

    __tablename__ = "profile"
    __table_args__ = (UniqueConstraint("key", "revision"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(String(60))
    revision: Mapped[int]
    data: Mapped[dict[str, Any]] = mapped_column(JSON)
    reason: Mapped[str] = mapped_column(String(400))
    author_name: Mapped[str] = mapped_column(String(60))
    created_at: Mapped[datetime] = mapped_column(UtcDateTime)


class Sheet(Base):
    """A care sheet that staff issued, kept under its number as it was printed. No buyer's name."""

    __tablename__ = "sheet"

    number: Mapped[int] = mapped_column(primary_key=True)
    specimen_id: Mapped[str] = mapped_column(ID, index=True)
    profile_key: Mapped[str] = mapped_column(String(60))
    profile_revision: Mapped[int]
    issued_at: Mapped[datetime] = mapped_column(UtcDateTime)
    author_name: Mapped[str] = mapped_column(String(60))
    snapshot: Mapped[dict[str, Any]] = mapped_column(JSON)
