"""The history: one row for each thing that happened. Rows are only ever added."""

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.storage.base import ID, Base, UtcDateTime


class Event(Base):
    """One thing that happened to one subject.

    `seq` is the order of arrival here; the order of happening is (occurred_at, id). Events of one deed share `deed_id`.
    """

    __tablename__ = "event"
    __table_args__ = (Index("ix_event_subject", "subject_id", "occurred_at", "id"),)

    seq: Mapped[int] = mapped_column(primary_key=True, autoincrement=True)
    id: Mapped[str] = mapped_column(ID, unique=True)
    kind: Mapped[str] = mapped_column(String(24))
    subject_kind: Mapped[str] = mapped_column(String(12))
    subject_id: Mapped[str] = mapped_column(ID)
    deed_id: Mapped[str] = mapped_column(ID, index=True)
    occurred_at: Mapped[datetime] = mapped_column(UtcDateTime)
    received_at: Mapped[datetime] = mapped_column(UtcDateTime)
    author_id: Mapped[str | None] = mapped_column(ID)
    author_name: Mapped[str] = mapped_column(String(60))
    device: Mapped[str] = mapped_column(String(60), default="")
    payload: Mapped[dict[str, Any]] = mapped_column(JSON)
