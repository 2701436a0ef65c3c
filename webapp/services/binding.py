"""Tags and what they stand for: made blank, bound, bound anew, replaced, retired; each deed an event."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.intake import check_place
from webapp.services.recording import Author, NewEvent, record
from webapp.services.tagging import binding, fresh_codes, live_code
from webapp.storage.base import derived_id
from webapp.storage.event import Event
from webapp.storage.folding import in_order, undone_ids
from webapp.storage.history import happened
from webapp.storage.place import RackRow, TankRow
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow, TagRow
from webapp.tags.codes import is_valid, normalise

MOST_BLANKS = 1000
MOST_CANDIDATES = 12
_TABLES: dict[str, type[SpecimenRow] | type[TankRow] | type[RackRow]] = {
    "specimen": SpecimenRow,
    "tank": TankRow,
    "rack": RackRow,
}


@dataclass(frozen=True, slots=True)
class Target:
    """Something a tag can stand for. `code` is its live tag now; `detail` tells it from its like."""

    kind: str
    id: str
    name: str
    detail: str
    code: str | None
    gone: bool = False


@dataclass(frozen=True, slots=True)
class TagEvent:
    """One thing that happened to a tag; `what` is the name of what it was bound to."""

    kind: str
    at: datetime
    author: str
    deed_id: str
    stands: bool
    values: dict[str, Any]
    what: str = ""


@dataclass(frozen=True, slots=True)
class Tag:
    """A tag now and before. state: unknown, blank, live or retired."""

    code: str
    state: str
    target: Target | None
    printed_host: str
    in_conflict: bool
    story: list[TagEvent]


def checked_code(typed: str) -> str:
    """The code as it is kept. Raises BadInput for what is no whole code."""
    code = normalise(typed)
    if not is_valid(code):
        raise BadInput(f"'{typed[:20]}' is not a whole code. Type the seven characters on the tag.", "code")
    return code


def get_tag(session: Session, typed: str) -> Tag:
    """The tag with this code, also one that is not known here yet. Raises BadInput."""
    code = checked_code(typed)
    row = session.get(TagRow, code)
    if row is None:
        return Tag(code, "unknown", None, "", False, [])
    target = find_target(session, row.target_kind, row.target_id) if row.target_id else None
    return Tag(code, row.state, target, row.printed_host, bool(row.conflicts), _story(session, code))


def make_blanks(session: Session, author: Author, deed_id: str, count: int) -> list[str]:
    """Codes for tags that are printed ahead. The same deed makes the same ones."""
    if not 1 <= count <= MOST_BLANKS:
        raise BadInput(f"Print 1 to {MOST_BLANKS} blank tags at a time.", "count")
    made = codes_of_deed(session, deed_id, ("tag_made",))
    if made:
        return made
    codes = fresh_codes(session, count, deed_id)
    record(session, author, [NewEvent("tag_made", code) for code in codes], deed_id)
    return codes


def codes_of_deed(session: Session, deed_id: str, kinds: tuple[str, ...] = ("tag_made", "bound")) -> list[str]:
    """The codes that a deed made or bound, in its own order."""
    rows = select(Event.subject_id).where(Event.deed_id == deed_id, Event.kind.in_(kinds)).order_by(Event.seq)
    return list(dict.fromkeys(session.scalars(rows)))


def bind(
    session: Session, author: Author, deed_id: str, typed: str, kind: str, target_id: str, instead_of: str = ""
) -> None:
    """Make a tag stand for something; the tag that it carried before retires. Raises BadInput for a tag in use.

    `instead_of`: the id of what the tag stands for now, when somebody chose to bind it to something else.
    """
    tag = get_tag(session, typed)
    target = find_target(session, kind, target_id)
    if tag.state == "live" and tag.target and tag.target.id not in (target_id, instead_of):
        raise BadInput(
            f"{tag.code} stands for {tag.target.name} {tag.target.detail}. Two never share a tag: "
            "free it first, or choose to bind it to something else.", "code",
        )  # fmt: skip
    event = binding(tag.code, kind, target_id)
    if tag.state == "live" and instead_of and instead_of != target_id:
        event.payload["instead_of"] = instead_of
    events = [event]
    before = live_code(session, target_id)
    if before and before != tag.code:
        events.append(NewEvent("tag_retired", before, {"reason": f"replaced by {tag.code}"}))
    if not (tag.state == "live" and tag.target and tag.target.id == target.id):
        record(session, author, events, deed_id)


def tag_all(session: Session, author: Author, deed_id: str, target_ids: Sequence[str]) -> None:
    """A tag of its own for each of these that has none. Raises NotFound."""
    bare = [one for one in target_ids if live_code(session, one) is None]
    codes = fresh_codes(session, len(bare), deed_id)
    events = [binding(code, _kind_of(session, one), one) for code, one in zip(codes, bare, strict=True)]
    if events:
        record(session, author, events, deed_id)


def _kind_of(session: Session, target_id: str) -> str:
    found = next((kind for kind, table in _TABLES.items() if session.get(table, target_id) is not None), None)
    if found is None:
        raise NotFound("There is no such specimen, tank or rack here.")
    return found


def bind_new(session: Session, author: Author, deed_id: str, typed: str, given: dict[str, Any]) -> str:
    """A new specimen under a tag that is blank or retired; returns its id. `given`: the payload of 'arrived'."""
    code = checked_code(typed)
    specimen_id = derived_id(deed_id, "specimen", 0)
    if session.get(SpecimenRow, specimen_id) is None:
        if get_tag(session, code).state == "live":
            raise BadInput(f"{code} is in use. Free it first.", "code")
        check_place(session, given)
        record(
            session, author, [NewEvent("arrived", specimen_id, given), binding(code, "specimen", specimen_id)], deed_id
        )
    return specimen_id


def replace(session: Session, author: Author, deed_id: str, typed_old: str, typed_new: str) -> None:
    """A new tag takes the place of an old one, which retires and still opens the same card."""
    old, new = get_tag(session, typed_old), get_tag(session, typed_new)
    if old.state != "live" or old.target is None:
        raise BadInput(f"{old.code} stands for nothing now, so there is nothing to replace.", "code")
    if new.code == old.code:
        raise BadInput("That is the same tag. Type the code of the new one.", "by")
    bind(session, author, deed_id, new.code, old.target.kind, old.target.id)


def retire(session: Session, author: Author, deed_id: str, typed: str, reason: str) -> None:
    """Take a tag out of use. What it stood for stays known."""
    tag = get_tag(session, typed)
    if tag.state not in ("blank", "live"):
        raise BadInput(f"{tag.code} is not in use.", "code")
    record(session, author, [NewEvent("tag_retired", tag.code, {"reason": reason})], deed_id)


def free(session: Session, author: Author, deed_id: str, typed: str) -> None:
    """Make a tag blank again, to be bound at its next scan."""
    tag = get_tag(session, typed)
    if tag.state not in ("live", "retired"):
        raise BadInput(f"{tag.code} is blank already.", "code")
    record(session, author, [NewEvent("unbound", tag.code)], deed_id)


def find_target(session: Session, kind: str, target_id: str) -> Target:
    """A specimen, tank or rack that a tag can stand for. Raises NotFound."""
    row = session.get(_TABLES[kind], target_id) if kind in _TABLES else None
    if row is None:
        raise NotFound("There is no such specimen, tank or rack here.")
    return _target(session, kind, row)


def candidates(session: Session, words: str) -> list[Target]:
    """What a tag may be bound to, those never labelled first. `words`: of its name, code, rack or slot."""
    query = (
        select(SpecimenRow)
        .outerjoin(TagRow, TagRow.code == SpecimenRow.code)
        .outerjoin(RackRow, RackRow.id == SpecimenRow.rack_id)
        .where(SpecimenRow.status.not_in(GONE))
        .order_by(TagRow.printed_host != "", SpecimenRow.started_at.desc(), SpecimenRow.slot, SpecimenRow.id)
        .limit(MOST_CANDIDATES)
    )
    found: list[Target] = []
    for word in words.split()[:5]:
        query = query.where(
            or_(
                SpecimenRow.name.icontains(word, autoescape=True),
                SpecimenRow.code.startswith(normalise(word), autoescape=True),
                SpecimenRow.slot == word.upper(),
                RackRow.name.icontains(word, autoescape=True),
            )
        )
    found += [_target(session, "specimen", row) for row in session.scalars(query)]
    for kind in ("rack", "tank"):
        table = _TABLES[kind]
        places = select(table).where(table.closed_at.is_(None)).order_by(table.name).limit(MOST_CANDIDATES)
        places = places.where(table.name.icontains(words.strip(), autoescape=True)) if words.strip() else places
        found += [_target(session, kind, row) for row in session.scalars(places)]
    return found


def _target(session: Session, kind: str, row: SpecimenRow | TankRow | RackRow) -> Target:
    detail, gone = kind, False
    if isinstance(row, SpecimenRow):
        rack = session.get(RackRow, row.rack_id) if row.rack_id else None
        tank = session.get(TankRow, row.tank_id) if row.tank_id else None
        place = rack or tank
        detail, gone = f"{place.name if place else ''} {row.slot}".strip(), row.status in GONE
    tag = session.get(TagRow, row.code) if row.code else None
    return Target(kind, row.id, row.name, detail, row.code if tag is not None and tag.state == "live" else None, gone)


def _story(session: Session, code: str) -> list[TagEvent]:
    """Newest first, undone ones included."""
    events = in_order(happened(session, code))
    gone = undone_ids(events)
    story = []
    for event in events:
        what = ""
        if event.kind == "bound":
            row = session.get(_TABLES[event.payload["target_kind"]], event.payload["target_id"])
            what = row.name if row is not None else ""
        stands = event.id not in gone and event.kind != "undone"
        values = event.payload
        if event.kind == "printed":
            values = values | {"host": values["host"].removesuffix(":80")}
        story.append(TagEvent(event.kind, event.occurred_at, event.author_name, event.deed_id, stands, values, what))
    return story[::-1]
