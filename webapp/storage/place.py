"""The present of tanks, racks and their readings, derived from events."""

from datetime import datetime

from sqlalchemy import Index, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.storage.base import ID, Base, UtcDateTime


class TankRow(Base):
    """A body of water. Lengths in centimetres, volume in litres (net, as the shop says)."""

    __tablename__ = "tank"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    name: Mapped[str] = mapped_column(String(60))
    purpose: Mapped[str] = mapped_column(String(20), default="display")
    volume_l: Mapped[float | None]
    length_cm: Mapped[float | None]
    width_cm: Mapped[float | None]
    height_cm: Mapped[float | None]
    light_hours: Mapped[float | None]
    note: Mapped[str] = mapped_column(String(400), default="")
    code: Mapped[str | None] = mapped_column(String(8))
    opened_at: Mapped[datetime] = mapped_column(UtcDateTime)
    closed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class RackRow(Base):
    """A frag rack in a tank: rows are letters from A, columns numbers from 1. counted_*: its last count."""

    __tablename__ = "rack"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    tank_id: Mapped[str] = mapped_column(ID, index=True)
    name: Mapped[str] = mapped_column(String(60))
    rows: Mapped[int]
    columns: Mapped[int]
    depth_cm: Mapped[float | None]
    counted_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    counted_expected: Mapped[int | None]
    counted_missing: Mapped[int | None]
    code: Mapped[str | None] = mapped_column(String(8))
    opened_at: Mapped[datetime] = mapped_column(UtcDateTime)
    closed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)


class ReadingRow(Base):
    """One measured quantity: as typed (`typed`, `unit`, `method`) and in the canonical unit (`value`).

    rack_id is '' for the whole tank, else the rack it was measured at (light, flow).
    """

    __tablename__ = "reading"
    __table_args__ = (Index("ix_reading_tank", "tank_id", "quantity", "taken_at"),)

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    tank_id: Mapped[str] = mapped_column(ID)
    rack_id: Mapped[str] = mapped_column(ID, default="")
    quantity: Mapped[str] = mapped_column(String(16))
    value: Mapped[float]
    typed: Mapped[float]
    unit: Mapped[str] = mapped_column(String(16))
    method: Mapped[str] = mapped_column(String(32), default="")
    taken_at: Mapped[datetime] = mapped_column(UtcDateTime)
