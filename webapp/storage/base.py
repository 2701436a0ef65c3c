"""What every table shares: constraint names, UTC times, ids."""

import uuid
from datetime import UTC, datetime

from sqlalchemy import DateTime, MetaData, String, TypeDecorator
from sqlalchemy.orm import DeclarativeBase

NAMING = {
    "ix": "ix_%(column_0_N_label)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}

#: The length of an id: 32 hexadecimal digits, or a tag's code.
ID = String(32)


class Base(DeclarativeBase):
    """Names every constraint, because SQLite can only alter what has a name."""

    metadata = MetaData(naming_convention=NAMING)


class UtcDateTime(TypeDecorator[datetime]):
    """A moment. Takes aware datetimes only and gives UTC back; SQLite itself would forget the zone."""

    impl = DateTime
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: object) -> datetime | None:
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a moment needs a time zone")
        return value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(self, value: datetime | None, dialect: object) -> datetime | None:
        return None if value is None else value.replace(tzinfo=UTC)


def new_id() -> str:
    """A random id of 32 hexadecimal digits (UUID version 4)."""
    return uuid.uuid4().hex


def derived_id(seed: str, *parts: object) -> str:
    """The same id for the same seed and parts, so that a form sent twice makes the same events (UUID version 5)."""
    return uuid.uuid5(uuid.UUID(seed), "/".join(str(part) for part in parts)).hex
