"""Counting: what a rack's tags in photos say of it, and a stocktake over every rack and tank.

A count is a number of deeds that share an id. Each place that is counted gives one event of its own and one for every
specimen: seen, missing, or moved here and seen.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.places import check_slots, get_rack, get_tank, racks, tanks
from webapp.services.recording import Author, NewEvent, record
from webapp.storage.place import RackRow, TankRow
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow, TagRow


@dataclass(frozen=True, slots=True)
class CountPlace:
    """Where one counts: a rack, or what stands in a tank on no rack. `key` is 'rack:ID' or 'tank:ID'."""

    key: str
    tank_id: str
    rack_id: str | None
    name: str
    expected: int = 0


@dataclass(frozen=True, slots=True)
class Line:
    """One specimen on a count's list. `place` is where the shop has it."""

    id: str
    name: str
    code: str | None
    slot: str
    place: str
    status: str
    price_cents: int | None


@dataclass(slots=True)
class Outcome:
    """The tags found, sorted out: here, elsewhere or gone by the books; and who should be here but was not seen.

    `others`: (code, what): tags of tanks and racks, blank ones, codes not known here.
    """

    place: CountPlace
    here: list[Line] = field(default_factory=list)
    missing: list[Line] = field(default_factory=list)
    elsewhere: list[Line] = field(default_factory=list)
    gone: list[Line] = field(default_factory=list)
    others: list[tuple[str, str]] = field(default_factory=list)


def find_place(session: Session, key: str) -> CountPlace:
    """The place behind a key. Raises NotFound."""
    kind, _, place_id = key.partition(":")
    if kind == "rack":
        rack = get_rack(session, place_id)
        return CountPlace(key, rack.tank_id, rack.id, f"{rack.tank_name}, {rack.name}")
    if kind == "tank":
        tank = get_tank(session, place_id)
        return CountPlace(key, tank.id, None, f"{tank.name}, on no rack")
    raise NotFound("Choose a rack or a tank to count.")


def all_places(session: Session) -> list[CountPlace]:
    """Every open rack, and every tank in which something stands on no rack, with how many should be there."""
    homes = select(SpecimenRow.tank_id, SpecimenRow.rack_id).where(SpecimenRow.status.not_in(GONE))
    standing = Counter((tank_id, rack_id) for tank_id, rack_id in session.execute(homes))
    found = [
        CountPlace(f"rack:{one.id}", one.tank_id, one.id, f"{one.tank_name}, {one.name}", standing[one.tank_id, one.id])
        for one in racks(session)
    ]
    for tank in tanks(session):
        loose = standing[tank.id, None]
        if loose:
            found.append(CountPlace(f"tank:{tank.id}", tank.id, None, f"{tank.name}, on no rack", loose))
    return found


def guess_place(session: Session, codes: Collection[str]) -> CountPlace:
    """Where the photo was taken: the one rack whose own tag is in it, else where most of its specimens should stand.

    Raises NotFound when nothing in it tells.
    """
    wanted = list(codes)
    own = list(
        session.scalars(select(TagRow.target_id).where(TagRow.code.in_(wanted), TagRow.target_kind == "rack"))
    )
    if len(own) == 1 and own[0]:
        return find_place(session, f"rack:{own[0]}")
    homes = (
        select(SpecimenRow.tank_id, SpecimenRow.rack_id)
        .join(TagRow, TagRow.target_id == SpecimenRow.id)
        .where(TagRow.code.in_(wanted), SpecimenRow.status.not_in(GONE))
    )
    at = Counter((tank_id, rack_id) for tank_id, rack_id in session.execute(homes))
    if not at:
        raise NotFound("No tag in this photo tells which rack it is. Choose the rack and take the photo again.")
    (tank_id, rack_id), _times = at.most_common(1)[0]
    return find_place(session, f"rack:{rack_id}" if rack_id else f"tank:{tank_id}")


def sort_out(session: Session, place: CountPlace, codes: Iterable[str]) -> Outcome:
    """What the tags found at a place say."""
    outcome = Outcome(place)
    seen: set[str] = set()
    for code in dict.fromkeys(codes):
        tag = session.get(TagRow, code)
        if tag is None or tag.target_kind != "specimen" or not tag.target_id:
            outcome.others.append((code, _what(session, tag)))
            continue
        row = session.get(SpecimenRow, tag.target_id)
        if row is None or row.id in seen:
            continue
        seen.add(row.id)
        line = _line(session, row)
        if row.status in GONE:
            outcome.gone.append(line)
        elif (row.tank_id, row.rack_id) == (place.tank_id, place.rack_id):
            outcome.here.append(line)
        else:
            outcome.elsewhere.append(line)
    outcome.missing = [_line(session, row) for row in _expected(session, place) if row.id not in seen]
    return outcome


def confirm(
    session: Session,
    author: Author,
    deed_id: str,
    count_id: str,
    place: CountPlace,
    codes: Sequence[str],
    by_eye: Collection[str] = (),
    moved: Mapping[str, str] | None = None,
    shifted: Mapping[str, str] | None = None,
) -> dict[str, int]:
    """Record a count of one place. `by_eye`: ids seen without a tag to read; `moved`: ids of elsewhere that stand here
    from now on, and `shifted`: ids of here in another slot, each with its slot ('' for none).

    Returns how many were seen, missing and moved. Raises BadInput for a count id of a wrong form, a slot that the rack
    does not have, or one for two.
    """
    if len(count_id) != 32:
        raise BadInput("Reload the page and count again.")
    moved, shifted = moved or {}, shifted or {}
    _check_slots(session, place, [*moved.values(), *shifted.values()])
    outcome = sort_out(session, place, codes)
    where = {"count": count_id, "tank_id": place.tank_id, "rack_id": place.rack_id}
    expected = len(outcome.here) + len(outcome.missing)
    events = [NewEvent("seen", one.id, where) for one in outcome.here]
    events += [NewEvent("seen", one.id, where | {"by_eye": True}) for one in outcome.missing if one.id in by_eye]
    for one in outcome.elsewhere:
        if one.id in moved:
            events += [NewEvent("moved", one.id, where | {"slot": moved[one.id]}), NewEvent("seen", one.id, where)]
    lost = [NewEvent("missing", one.id, where) for one in outcome.missing if one.id not in by_eye]
    tally = {
        "seen": expected - len(lost),
        "missing": len(lost),
        "moved": sum(event.kind == "moved" for event in events),
    }
    here = {one.id for one in outcome.here}
    within = {"tank_id": place.tank_id, "rack_id": place.rack_id}  # not of the count: it stands where it was expected
    events += [NewEvent("moved", one, within | {"slot": slot}) for one, slot in shifted.items() if one in here]
    kind, place_id = ("rack_counted", place.rack_id) if place.rack_id else ("tank_counted", place.tank_id)
    counted = NewEvent(kind, place_id, {"count": count_id, "expected": expected} | tally)
    record(session, author, [counted, *events, *lost], deed_id)
    return tally


def _check_slots(session: Session, place: CountPlace, slots: Sequence[str]) -> None:
    taken = [slot for slot in slots if slot]
    if taken and place.rack_id:
        check_slots(get_rack(session, place.rack_id), taken)
    twice = next((slot for slot in taken if taken.count(slot) > 1), "")
    if twice:
        raise BadInput(f"Two plugs cannot stand in {twice}. Choose another slot for one of them.", "slot")


def _expected(session: Session, place: CountPlace) -> list[SpecimenRow]:
    query = select(SpecimenRow).where(SpecimenRow.tank_id == place.tank_id, SpecimenRow.status.not_in(GONE))
    query = query.where(SpecimenRow.rack_id == place.rack_id if place.rack_id else SpecimenRow.rack_id.is_(None))
    return sorted(session.scalars(query), key=lambda row: (row.slot[:1], len(row.slot), row.slot, row.name))


def _line(session: Session, row: SpecimenRow) -> Line:
    rack = session.get(RackRow, row.rack_id) if row.rack_id else None
    tank = session.get(TankRow, row.tank_id) if row.tank_id else None
    names = [one.name for one in (tank, rack) if one is not None]
    return Line(row.id, row.name, row.code, row.slot, ", ".join(names), row.status, row.price_cents)


def _what(session: Session, tag: TagRow | None) -> str:
    if tag is None:
        return "not known here"
    if tag.target_id and tag.target_kind in ("tank", "rack"):
        row = session.get(TankRow if tag.target_kind == "tank" else RackRow, tag.target_id)
        return f"{tag.target_kind} {row.name}" if row is not None else tag.target_kind
    return tag.state
