"""The care card behind a code: what a customer sees first."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, bindparam, select
from sqlalchemy.orm import Session, aliased

from webapp.fit.profile import Profile
from webapp.fit.specimen import Specimen, UsedTo
from webapp.services.memory import Memory
from webapp.services.pests import stopped_tanks
from webapp.services.profiles import newest_profiles
from webapp.services.telling import Told, place_names, public_story
from webapp.services.used_to import light_hours, used_to
from webapp.storage.place import RackRow, TankRow
from webapp.storage.shop import Clock
from webapp.storage.specimen import SpecimenRow, StoryRow, TagRow


@dataclass(frozen=True, slots=True)
class Found:
    """What a code stands for. kind: specimen, tank, rack, blank, retired or unknown. `revision` is the database's;
    `row` the present of a specimen, read along with it."""

    kind: str
    code: str
    revision: int
    target_id: str | None = None
    held_until: datetime | None = None
    row: Any = None


@dataclass(frozen=True, slots=True)
class Card:
    """The public fields of a specimen and no others. Money in cents, sizes in millimetres."""

    id: str
    code: str
    name: str
    profile: Profile
    status: str
    on_hold: bool
    is_stopped: bool
    price_cents: int | None
    photo_id: str | None
    size_mm: float | None
    heads: int | None
    mother_name: str
    mother_code: str
    origin: str
    tank_name: str
    rack_name: str
    slot: str
    started_at: datetime
    days_here: float
    days_since_end: float
    used_to: dict[str, UsedTo]
    light_hours: float | None
    story: list[Told]
    tank_id: str | None = None
    sizes_mm: tuple[tuple[datetime, float], ...] = ()

    def is_past(self, sold_tag_days: int) -> bool:
        """Whether it was sold so long ago that its tag no longer tells walk-ins what it is; 0 days never."""
        return self.status == "sold" and 0 < sold_tag_days < self.days_since_end

    @property
    def specimen(self) -> Specimen:
        """As the fit check takes it."""
        cut = int(self.days_here) if self.origin == "own" else None
        return Specimen(self.profile, self.size_mm / 10 if self.size_mm else None, self.used_to, cut)


_Mother = aliased(SpecimenRow)
_FOUND = (
    select(
        Clock.revision, TagRow.state, TagRow.target_kind, TagRow.target_id,
        SpecimenRow.id, SpecimenRow.name, SpecimenRow.profile_key, SpecimenRow.status, SpecimenRow.held_until,
        SpecimenRow.price_cents, SpecimenRow.photo_id, SpecimenRow.size_mm, SpecimenRow.heads, SpecimenRow.origin,
        SpecimenRow.slot, SpecimenRow.started_at, SpecimenRow.ended_at, SpecimenRow.lived, SpecimenRow.tank_id,
        SpecimenRow.code, SpecimenRow.trouble, SpecimenRow.sizes,
        _Mother.name.label("mother_name"), _Mother.code.label("mother_code"),
        TankRow.name.label("tank_name"), RackRow.name.label("rack_name"), StoryRow.lines.label("story"),
    )
    .select_from(Clock)
    .outerjoin(TagRow, TagRow.code == bindparam("code"))
    .outerjoin(SpecimenRow, SpecimenRow.id == TagRow.target_id)
    .outerjoin(_Mother, _Mother.id == SpecimenRow.mother_id)
    .outerjoin(TankRow, TankRow.id == SpecimenRow.tank_id)
    .outerjoin(RackRow, RackRow.id == SpecimenRow.rack_id)
    .outerjoin(StoryRow, StoryRow.id == SpecimenRow.id)
)  # fmt: skip


def find(session: Session | Connection, code: str) -> Found:
    """What a code stands for here; `code` is normalised already."""
    row = session.execute(_FOUND, {"code": code}).first()
    assert row is not None, "the clock has its row from the first migration on"
    if row.state is None:
        return Found("unknown", code, row.revision)
    if row.state == "live" or (row.state == "retired" and row.target_id):
        return Found(row.target_kind, code, row.revision, row.target_id, row.held_until, row if row.id else None)
    return Found(row.state, code, row.revision)


def card(session: Session, memory: Memory, found: Found, now: datetime) -> Card | None:
    """The card of the specimen that was found; None when its creation was undone."""
    row = found.row
    if row is None:
        return None
    profile = newest_profiles(session, memory, found.revision)[row.profile_key]
    ended = row.ended_at or now
    mother = " ".join(filter(None, (row.mother_name, row.mother_code)))
    return Card(
        id=row.id, code=row.code or found.code, name=row.name, profile=profile, status=row.status,
        on_hold=row.held_until is not None and row.held_until > now,
        is_stopped=row.status == "for_sale" and _is_stopped(session, memory, found.revision, row.tank_id, row.trouble),
        price_cents=row.price_cents, photo_id=row.photo_id, size_mm=row.size_mm, heads=row.heads,
        mother_name=row.mother_name or "", mother_code=row.mother_code or "", origin=row.origin,
        tank_name=row.tank_name or "", rack_name=row.rack_name or "", slot=row.slot,
        started_at=row.started_at, days_here=(ended - row.started_at).total_seconds() / 86400,
        days_since_end=(now - ended).total_seconds() / 86400,
        used_to=used_to(session, memory, found.revision, row.lived, ended),
        light_hours=light_hours(session, memory, found.revision, row.tank_id),
        story=public_story(place_names(session, memory, found.revision), row.story, mother), tank_id=row.tank_id,
        sizes_mm=tuple((datetime.fromisoformat(size[0]), size[1]) for size in row.sizes or () if size[1] is not None),
    )  # fmt: skip


def _is_stopped(session: Session, memory: Memory, revision: int, tank_id: str | None, trouble: str) -> bool:
    """Whether what is for sale is not sold just now; why is the shop's own business."""
    return bool(trouble) or tank_id in stopped_tanks(session, memory, revision)
