"""One specimen as staff see it: everything that is known."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.fit.profile import Profile
from webapp.fit.specimen import UsedTo
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.telling import Told, place_names, specimen_names, staff_story
from webapp.services.updating import get_row
from webapp.services.used_to import used_to
from webapp.storage.specimen import SpecimenRow, TagRow
from webapp.tags.codes import is_valid, normalise


@dataclass(frozen=True, slots=True)
class Panel:
    """The present and the history of a specimen. Money in cents, sizes in millimetres."""

    id: str
    code: str | None
    name: str
    profile: Profile
    status: str
    status_since: datetime
    started_at: datetime
    origin: str
    supplier: str
    papers: str
    cost_cents: int | None
    price_cents: int | None
    size_mm: float | None
    heads: int | None
    photo_id: str | None
    hold_word: str
    held_until: datetime | None
    missing_since: datetime | None
    tank_id: str | None
    rack_id: str | None
    tank_name: str
    rack_name: str
    slot: str
    mother_id: str | None
    mother_name: str
    frags: int
    conflicts: list[dict[str, Any]]
    used_to: dict[str, UsedTo]
    story: list[Told]

    @property
    def is_gone(self) -> bool:
        """Sold, dead or joined to another."""
        return self.status in ("sold", "lost", "merged")


def panel(session: Session, memory: Memory, specimen_id: str, now: datetime) -> Panel:
    """The panel of one specimen. Raises NotFound."""
    row = get_row(session, specimen_id)
    at = revision(session)
    tanks, racks = place_names(session, memory, at)
    held = row.held_until if row.held_until and row.held_until > now else None
    frags = session.scalar(select(func.count()).select_from(SpecimenRow).where(SpecimenRow.mother_id == row.id)) or 0
    return Panel(
        id=row.id, code=row.code, name=row.name, profile=newest_profiles(session, memory, at)[row.profile_key],
        status=row.status, status_since=row.status_since, started_at=row.started_at, origin=row.origin,
        supplier=row.supplier, papers=row.papers, cost_cents=row.cost_cents, price_cents=row.price_cents,
        size_mm=row.size_mm, heads=row.heads, photo_id=row.photo_id, hold_word=row.hold_word if held else "",
        held_until=held, missing_since=row.missing_since,
        tank_id=row.tank_id, rack_id=row.rack_id, tank_name=tanks.get(row.tank_id or "", ""),
        rack_name=racks.get(row.rack_id or "", ""), slot=row.slot, mother_id=row.mother_id,
        mother_name=specimen_names(session, [row.mother_id]).get(row.mother_id, "") if row.mother_id else "",
        frags=frags, conflicts=row.conflicts, used_to=used_to(session, memory, at, row.lived, row.ended_at or now),
        story=staff_story(session, memory, at, row.id),
    )  # fmt: skip


def specimen_by_code(session: Session, typed: str) -> str:
    """The id of the specimen that a typed code stands for. Raises BadInput."""
    code = normalise(typed)
    if not code:
        raise BadInput("Scan the tag, or type the seven characters on it.")
    if not is_valid(code):
        raise BadInput(f"'{typed}' is not a whole code. Type the seven characters on the tag.")
    target = session.scalar(
        select(TagRow.target_id).where(
            TagRow.code == code, TagRow.target_kind == "specimen", TagRow.target_id.is_not(None)
        )
    )
    if target is None:
        raise BadInput(f"No specimen here carries {code}.")
    return target
