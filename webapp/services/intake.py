"""Specimens that enter the stock: bought in or entered by hand."""

from datetime import datetime
from typing import Any

from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.services.places import check_slots, free_from, get_rack, get_tank
from webapp.services.recording import Author, NewEvent, record
from webapp.services.tagging import binding, fresh_codes
from webapp.storage.base import derived_id
from webapp.storage.specimen import SpecimenRow


def take_in(
    session: Session, author: Author, deed_id: str, given: dict[str, Any], count: int = 1, at: datetime | None = None
) -> list[str]:
    """One or several alike, each with its own code; returns their ids. `given`: payload of 'arrived'; `at`: when."""
    if not 1 <= count <= 200:
        raise BadInput("Take in 1 to 200 at a time.", "count")
    ids = [derived_id(deed_id, "specimen", number) for number in range(count)]
    if session.get(SpecimenRow, ids[0]) is not None:
        return ids
    check_place(session, given)
    _ids, events = arrivals(session, deed_id, given, count, at, _slots(session, given, count))
    record(session, author, events, deed_id)
    return ids


def arrivals(
    session: Session, deed_id: str, given: dict[str, Any], count: int, at: datetime | None, slots: list[str]
) -> tuple[list[str], list[NewEvent]]:
    """The ids and the events of so many alike, each with a code and its slot ('' for none); not recorded yet."""
    ids = [derived_id(deed_id, "specimen", number) for number in range(count)]
    events: list[NewEvent] = []
    for specimen_id, code, slot in zip(ids, fresh_codes(session, count, deed_id), slots, strict=True):
        arrived = NewEvent("arrived", specimen_id, given | {"slot": slot}, at)
        events += [arrived, binding(code, "specimen", specimen_id, at)]
    return ids, events


def _slots(session: Session, given: dict[str, Any], count: int) -> list[str]:
    """A slot for each: the one given, and for several the free ones from there on; '' for each where none is given."""
    first = given.get("slot") or ""
    if count == 1 or not first:
        return [first] * count
    rack = get_rack(session, given["rack_id"])
    free = free_from(session, rack, first)
    if len(free) < count:
        raise BadInput(f"{rack.name} has {len(free)} free slots from {first} on, and {count} need a place.", "slot")
    return free[:count]


def check_place(session: Session, place: dict[str, Any]) -> None:
    """Raises BadInput or NotFound when tank, rack and slot do not belong together."""
    tank = get_tank(session, place["tank_id"])
    if tank.closed:
        raise BadInput(f"{tank.name} is closed. Choose another tank.", "tank_id")
    if place.get("rack_id"):
        rack = get_rack(session, place["rack_id"])
        if rack.tank_id != tank.id:
            raise BadInput(f"{rack.name} stands in {rack.tank_name}, not in {tank.name}.", "rack_id")
        check_slots(rack, [place.get("slot") or ""])
    elif place.get("slot"):
        raise BadInput("A slot needs a rack. Choose the rack, or leave the slot empty.", "slot")
