"""The stock: finding specimens by words, place, kind and state, sorted, a page at a time."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import ColumnElement, Select, func, or_, select
from sqlalchemy.orm import Session

from webapp.fit.profile import Profile
from webapp.storage.place import RackRow, TankRow
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow
from webapp.tags.codes import normalise

PAGE_SIZE = 50
MOST_ON_PAPER = 2000
"""So many lines are some forty sheets of paper; more of them nobody reads."""
SORTS = ("name", "place", "newest", "oldest", "price", "size")
STATES = (
    "here",
    "for_sale",
    "held",
    "healing",
    "quarantine",
    "mother",
    "kept",
    "sold",
    "lost",
    "conflict",
    "missing",
    "everything",
)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What to look for. words: any part of name, kind or code."""

    words: str = ""
    state: str = "here"
    tank_id: str = ""
    rack_id: str = ""
    group: str = ""
    sort: str = "name"
    page: int = 1


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the stock list. Money in cents, size in millimetres."""

    id: str
    code: str | None
    name: str
    profile_key: str
    status: str
    on_hold: bool
    price_cents: int | None
    size_mm: float | None
    heads: int | None
    photo_id: str | None
    tank_name: str
    rack_name: str
    slot: str
    started_at: datetime
    has_conflict: bool


@dataclass(frozen=True, slots=True)
class Stock:
    """One page of what was found, and how many there are in all."""

    items: list[Item]
    total: int
    page: int
    pages: int


def find_stock(
    session: Session,
    profiles: dict[str, Profile],
    wanted: Wanted,
    now: datetime,
    also: Sequence[ColumnElement[bool]] = (),
    size: int = PAGE_SIZE,
) -> Stock:
    """The specimens wanted, a page of `size`. An unknown sort or state falls back to the first of its list. also: more
    conditions."""
    conditions = [*_conditions(profiles, wanted, now), *also]
    total = session.scalar(select(func.count()).select_from(SpecimenRow).where(*conditions)) or 0
    pages = max(1, -(-total // size))
    page = min(max(1, wanted.page), pages)
    rows = session.execute(
        _sorted(_items(), wanted.sort).where(*conditions).limit(size).offset((page - 1) * size)
    )
    return Stock([_item(row, now) for row in rows], total, page, pages)


def for_sale(
    session: Session, profiles: dict[str, Profile], wanted: Wanted, now: datetime, stopped: Sequence[str] = ()
) -> Stock:
    """The public list: only what is for sale, on no hold, well, and in none of the `stopped` tanks."""
    public = Wanted(wanted.words, "for_sale", "", "", wanted.group, wanted.sort, wanted.page)
    well = [SpecimenRow.trouble == "", or_(SpecimenRow.tank_id.is_(None), SpecimenRow.tank_id.not_in(stopped))]
    return find_stock(session, profiles, public, now, well)


def matching_codes(session: Session, start: str, most: int = 8) -> list[tuple[str, str, str]]:
    """(code, name, status) of specimens whose code begins with what was typed."""
    start = normalise(start)
    if not start:
        return []
    rows = session.execute(
        select(SpecimenRow.code, SpecimenRow.name, SpecimenRow.status)
        .where(SpecimenRow.code.startswith(start, autoescape=True))
        .order_by(SpecimenRow.code)
        .limit(most)
    )
    return [tuple(row) for row in rows]


def _items() -> Select:
    return (
        select(SpecimenRow, TankRow.name, RackRow.name)
        .outerjoin(TankRow, TankRow.id == SpecimenRow.tank_id)
        .outerjoin(RackRow, RackRow.id == SpecimenRow.rack_id)
    )


def _conditions(profiles: dict[str, Profile], wanted: Wanted, now: datetime) -> list[ColumnElement[bool]]:
    held = SpecimenRow.held_until.is_not(None) & (SpecimenRow.held_until > now)
    by_state: dict[str, list[ColumnElement[bool]]] = {
        "here": [SpecimenRow.status.not_in(GONE)],
        "everything": [],
        "missing": [SpecimenRow.status.not_in(GONE), SpecimenRow.missing_since.is_not(None)],
        "held": [SpecimenRow.status.not_in(GONE), held],
        "for_sale": [SpecimenRow.status == "for_sale", ~held | SpecimenRow.held_until.is_(None)],
        "conflict": [func.json_array_length(SpecimenRow.conflicts) > 0],
    }
    state = wanted.state if wanted.state in STATES else STATES[0]
    conditions = by_state.get(state, [SpecimenRow.status == state])
    if wanted.tank_id:
        conditions.append(SpecimenRow.tank_id == wanted.tank_id)
    if wanted.rack_id:
        conditions.append(SpecimenRow.rack_id == wanted.rack_id)
    if wanted.group:
        conditions.append(
            SpecimenRow.profile_key.in_([key for key, kind in profiles.items() if kind.group == wanted.group])
        )
    for word in wanted.words.split():
        kinds = [
            key for key, kind in profiles.items()
            if word.casefold() in f"{kind.scientific} {kind.trade_name} {kind.group}".casefold()
        ]  # fmt: skip
        conditions.append(
            or_(
                SpecimenRow.name.icontains(word, autoescape=True),
                SpecimenRow.code.startswith(normalise(word), autoescape=True),
                SpecimenRow.profile_key.in_(kinds),
            )
        )
    return conditions


def _sorted(query: Select, sort: str) -> Select:
    orders = {
        "name": (SpecimenRow.name, SpecimenRow.code),
        "place": (TankRow.name, RackRow.name, func.length(SpecimenRow.slot), SpecimenRow.slot),
        "newest": (SpecimenRow.started_at.desc(), SpecimenRow.id),
        "oldest": (SpecimenRow.started_at, SpecimenRow.id),
        "price": (SpecimenRow.price_cents.is_(None), SpecimenRow.price_cents, SpecimenRow.name),
        "size": (SpecimenRow.size_mm.is_(None), SpecimenRow.size_mm.desc(), SpecimenRow.name),
    }
    return query.order_by(*orders.get(sort, orders[SORTS[0]]))


def _item(found: tuple[SpecimenRow, str | None, str | None], now: datetime) -> Item:
    row, tank_name, rack_name = found
    return Item(
        row.id, row.code, row.name, row.profile_key, row.status, row.held_until is not None and row.held_until > now,
        row.price_cents, row.size_mm, row.heads, row.photo_id, tank_name or "", rack_name or "", row.slot,
        row.started_at, bool(row.conflicts),
    )  # fmt: skip
