"""Holds that run now: by claim word, never by person."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow


@dataclass(frozen=True, slots=True)
class Hold:
    """One hold. `soon`: it runs out within the warning time. `trouble`: what the last look saw since."""

    specimen_id: str
    code: str
    name: str
    word: str
    until: datetime
    deposit_cents: int | None
    trouble: str
    soon: bool


def holds(session: Session, limits: dict[str, float], now: datetime) -> list[Hold]:
    """Every hold that runs at `now`, the first to run out first."""
    soon = now + timedelta(hours=limits["hold_warn_h"])
    rows = session.scalars(
        select(SpecimenRow)
        .where(SpecimenRow.held_until > now, SpecimenRow.status.not_in(GONE))
        .order_by(SpecimenRow.held_until, SpecimenRow.id)
    )
    return [
        Hold(row.id, row.code or "", row.name, row.hold_word, row.held_until, row.deposit_cents, row.trouble,
             row.held_until <= soon)
        for row in rows
        if row.held_until is not None
    ]  # fmt: skip


def check_length(hours: float, deposit_cents: int | None, limits: dict[str, float]) -> None:
    """Raises BadInput where a hold is longer than the shop keeps one, with or without a deposit."""
    if not deposit_cents and hours > limits["hold_h"]:
        raise BadInput(f"Without a deposit a hold lasts at most {limits['hold_h']:g} hours.", "hours")
    if hours > limits["hold_deposit_days"] * 24:
        raise BadInput(f"A hold lasts at most {limits['hold_deposit_days']:g} days.", "hours")
