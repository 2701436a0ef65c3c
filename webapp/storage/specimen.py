"""The present of specimens and their tags, derived from events."""

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from webapp.storage.base import ID, Base, UtcDateTime


class SpecimenRow(Base):
    """Where a specimen is now and how it is. `lived`: its homes, [tank_id, rack_id or '', from, to or None] (ISO, UTC).

    cut_at: when it was cut from its mother; last_cut_at: when it was cut itself. trouble: what the last looks saw, or
    ''; looked_at: the last look; holds_seen_at: the last look that saw it hold, None once it was loose. checks, dips,
    sizes: as in present_looks. sale_number: of the sale it went with. open_conflicts: how many there are.
    """

    __tablename__ = "specimen"
    __table_args__ = (
        Index("ix_specimen_place", "tank_id", "rack_id", "slot"),
        Index("ix_specimen_batch", "mother_id", "started_at"),
        Index("ix_specimen_state", "status", "status_since"),
        Index("ix_specimen_cut", "status", "cut_at"),
        Index("ix_specimen_strain", "status", "name"),
        Index("ix_specimen_suiting", "status", "profile_key", "tank_id", "code", "held_until"),
        Index("ix_specimen_trouble", "status", "trouble"),
        Index("ix_specimen_looked", "status", "looked_at"),
        Index("ix_specimen_kinds", "tank_id", "profile_key", "status"),
    )

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    profile_key: Mapped[str] = mapped_column(String(60), index=True)
    name: Mapped[str] = mapped_column(String(80))
    status: Mapped[str] = mapped_column(String(16), index=True)
    code: Mapped[str | None] = mapped_column(String(8), index=True)
    mother_id: Mapped[str | None] = mapped_column(ID)
    origin: Mapped[str] = mapped_column(String(20), default="")
    method: Mapped[str] = mapped_column(String(40), default="")
    supplier: Mapped[str] = mapped_column(String(80), default="")
    papers: Mapped[str] = mapped_column(String(120), default="")
    cost_cents: Mapped[int | None]
    tank_id: Mapped[str | None] = mapped_column(ID)
    rack_id: Mapped[str | None] = mapped_column(ID)
    slot: Mapped[str] = mapped_column(String(8), default="")
    size_mm: Mapped[float | None]
    heads: Mapped[int | None]
    price_cents: Mapped[int | None]
    photo_id: Mapped[str | None] = mapped_column(ID)
    hold_word: Mapped[str] = mapped_column(String(40), default="")
    held_until: Mapped[datetime | None] = mapped_column(UtcDateTime, index=True)
    deposit_cents: Mapped[int | None]
    started_at: Mapped[datetime] = mapped_column(UtcDateTime)
    ended_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    status_since: Mapped[datetime] = mapped_column(UtcDateTime)
    last_event_at: Mapped[datetime] = mapped_column(UtcDateTime)
    area_mm2: Mapped[float | None]
    seen_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    missing_since: Mapped[datetime | None] = mapped_column(UtcDateTime, index=True)
    cut_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    last_cut_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    trouble: Mapped[str] = mapped_column(String(12), default="", server_default="")
    looked_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    holds_seen_at: Mapped[datetime | None] = mapped_column(UtcDateTime)
    sale_number: Mapped[int | None]
    loss_cause: Mapped[str] = mapped_column(String(16), default="", server_default="")
    loss_stage: Mapped[str] = mapped_column(String(12), default="", server_default="")
    open_conflicts: Mapped[int] = mapped_column(default=0, server_default="0", index=True)
    shipment_id: Mapped[str | None] = mapped_column(ID, index=True)
    checks: Mapped[list[Any]] = mapped_column(JSON, default=list, server_default="[]")
    dips: Mapped[list[Any]] = mapped_column(JSON, default=list, server_default="[]")
    sizes: Mapped[list[Any]] = mapped_column(JSON, default=list, server_default="[]")
    lived: Mapped[list[Any]] = mapped_column(JSON)
    conflicts: Mapped[list[Any]] = mapped_column(JSON)


class StoryRow(Base):
    """What customers may read of a specimen's history. `lines`: JSON, as in present_story; decoded only by its card."""

    __tablename__ = "story"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    lines: Mapped[str] = mapped_column(Text)


class TagRow(Base):
    """One code and what it stands for now. state: blank, live or retired.

    printed_host and printed_side_mm: the address on the label printed last, and the side of its symbol.
    """

    __tablename__ = "tag"
    __table_args__ = (Index("ix_tag_target", "target_id"),)

    code: Mapped[str] = mapped_column(String(8), primary_key=True)
    state: Mapped[str] = mapped_column(String(8))
    target_kind: Mapped[str] = mapped_column(String(12), default="")
    target_id: Mapped[str | None] = mapped_column(ID)
    printed_host: Mapped[str] = mapped_column(String(64), default="")
    printed_side_mm: Mapped[float | None]
    conflicts: Mapped[list[Any]] = mapped_column(JSON)


class Photo(Base):
    """A picture as WebP, without location or camera data, and its thumbnail."""

    __tablename__ = "photo"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    webp: Mapped[bytes] = mapped_column(deferred=True)
    thumb: Mapped[bytes] = mapped_column(deferred=True)
    width: Mapped[int]
    height: Mapped[int]
    taken_at: Mapped[datetime] = mapped_column(UtcDateTime)


class RulerPhoto(Base):
    """A photo with a tag in it while somebody measures, kept for a day. `ruler`: what was worked out of the tag."""

    __tablename__ = "ruler_photo"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    specimen_id: Mapped[str] = mapped_column(ID)
    webp: Mapped[bytes] = mapped_column(deferred=True)
    thumb: Mapped[bytes] = mapped_column(deferred=True)
    width: Mapped[int]
    height: Mapped[int]
    ruler: Mapped[dict[str, Any]] = mapped_column(JSON)
    taken_at: Mapped[datetime] = mapped_column(UtcDateTime)


class CountPhotoRow(Base):
    """A photo of a rack while its count is confirmed, kept for a day at most. `tags`: [code, corners] of each."""

    __tablename__ = "count_photo"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    jpeg: Mapped[bytes] = mapped_column(deferred=True)
    width: Mapped[int]
    height: Mapped[int]
    tags: Mapped[list[Any]] = mapped_column(JSON)
    foreign: Mapped[int]
    misread: Mapped[int]
    taken_at: Mapped[datetime] = mapped_column(UtcDateTime)
