"""The present of what is done to tanks, of pests, of shipments; derived from events."""

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.storage.base import ID, Base, UtcDateTime


class TendingRow(Base):
    """One feeding, dose, water change, service or note of a tank. `given` is what was said of it."""

    __tablename__ = "tending"
    __table_args__ = (Index("ix_tending_tank", "tank_id", "done_at"),)

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    tank_id: Mapped[str] = mapped_column(ID)
    rack_id: Mapped[str] = mapped_column(ID, default="")
    kind: Mapped[str] = mapped_column(String(24))
    done_at: Mapped[datetime] = mapped_column(UtcDateTime)
    deed_id: Mapped[str] = mapped_column(ID)
    author_name: Mapped[str] = mapped_column(String(60))
    given: Mapped[dict[str, Any]] = mapped_column(JSON)


class PestRow(Base):
    """A finding. `looks`: [moment, clean, tank_id or ''] in order; treatments: [moment, what]. Open: no cleared_at."""

    __tablename__ = "pest"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    tank_id: Mapped[str] = mapped_column(ID, index=True)
    specimen_id: Mapped[str | None] = mapped_column(ID, index=True)
    pest: Mapped[str] = mapped_column(String(40))
    found_at: Mapped[datetime] = mapped_column(UtcDateTime)
    stops_sale: Mapped[bool]
    photo_id: Mapped[str | None] = mapped_column(ID)
    note: Mapped[str] = mapped_column(String(400))
    looks: Mapped[list[Any]] = mapped_column(JSON)
    treatments: Mapped[list[Any]] = mapped_column(JSON)
    cleared_at: Mapped[datetime | None] = mapped_column(UtcDateTime, index=True)


class ShipmentRow(Base):
    """A shipment. `lines`: one dict a line, in the order of the list, with what was in its bag once that was opened."""

    __tablename__ = "shipment"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    supplier: Mapped[str] = mapped_column(String(80))
    invoice: Mapped[str] = mapped_column(String(80))
    papers: Mapped[str] = mapped_column(String(120))
    note: Mapped[str] = mapped_column(String(400))
    ordered_at: Mapped[datetime] = mapped_column(UtcDateTime)
    expected_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    packed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    opened_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    done_at: Mapped[datetime | None] = mapped_column(UtcDateTime, index=True)
    box_temp_c: Mapped[float | None]
    claim_h: Mapped[float | None]
    claimed: Mapped[int]
    claimed_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    lines: Mapped[list[Any]] = mapped_column(JSON)
