"""The present of sales, derived from events."""

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.storage.base import ID, Base, UtcDateTime


class SaleRow(Base):
    """A sale under its number. Nothing about the buyer.

    lines: one dict an animal (specimen_id, price_cents, asked_cents, reason, sheet). bag: how it was packed, or None.
    claims: one dict each (claim, specimen_id, trouble, readings, note, photo_id, at, outcome or '', amount_cents);
    returns: specimen_id, reason, refund_cents, at. open_claims: how many are not settled.
    """

    __tablename__ = "sale"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    number: Mapped[int] = mapped_column(index=True)
    made_at: Mapped[datetime] = mapped_column(UtcDateTime, index=True)
    deed_id: Mapped[str] = mapped_column(ID)
    author_name: Mapped[str] = mapped_column(String(60))
    total_cents: Mapped[int]
    talk: Mapped[bool]
    lines: Mapped[list[Any]] = mapped_column(JSON)
    bag: Mapped[dict[str, Any] | None] = mapped_column(JSON)
    claims: Mapped[list[Any]] = mapped_column(JSON)
    returns: Mapped[list[Any]] = mapped_column(JSON)
    open_claims: Mapped[int] = mapped_column(index=True)
