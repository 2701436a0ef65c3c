"""A frag session: N new specimens from a mother colony, in one deed."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.places import check_slots, free_from, get_rack
from webapp.services.recording import Author, NewEvent, record
from webapp.services.tagging import binding, fresh_codes
from webapp.storage.base import derived_id
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow

MOST_PIECES = 200


@dataclass(frozen=True, slots=True)
class FragSession:
    """What staff say of a frag session. slots: '' or fewer than pieces lets the free slots be filled in order.

    size_mm, heads: of each piece; mother_size_mm, mother_heads: what is left of her, when it was measured.
    """

    mother_id: str
    method: str
    pieces: int
    rack_id: str
    first_slot: str = ""
    slots: tuple[str, ...] = ()
    size_mm: float | None = None
    heads: int | None = None
    price_cents: int | None = None
    mother_size_mm: float | None = None
    mother_heads: int | None = None
    note: str = ""


def frag(session: Session, author: Author, deed_id: str, said: FragSession, at: datetime | None = None) -> list[str]:
    """Record the session and return the ids of the new specimens, in slot order. Sent twice it is recorded once.

    `at`: when it was cut (now). Raises BadInput with what to change when there is no mother, no piece or no room.
    """
    mother = session.get(SpecimenRow, said.mother_id)
    if mother is None:
        raise NotFound("There is no such mother colony here.")
    if not 1 <= said.pieces <= MOST_PIECES:
        raise BadInput(f"Give a number of plugs from 1 to {MOST_PIECES}.", "pieces")
    ids = [derived_id(deed_id, "piece", number) for number in range(said.pieces)]
    if session.scalar(select(SpecimenRow.id).where(SpecimenRow.id == ids[0])):
        return ids
    if mother.status in GONE:
        raise BadInput(f"{mother.name} is not here any more, so nothing can be cut from it.")
    rack = get_rack(session, said.rack_id)
    slots = said.slots or tuple(free_from(session, rack, said.first_slot)[: said.pieces])
    check_slots(rack, slots)
    if len(slots) < said.pieces:
        raise BadInput(
            f"{rack.name} has {len(slots)} free slots from there on, and {said.pieces} plugs need a place. "
            "Choose another rack, or frag in two sessions.", "rack_id",
        )  # fmt: skip
    events = [NewEvent("cut", mother.id, _cut_payload(said, ids), at)]
    for specimen_id, slot, code in zip(ids, slots, fresh_codes(session, said.pieces, deed_id), strict=False):
        born = {
            "mother_id": mother.id, "method": said.method, "profile_key": mother.profile_key, "name": mother.name,
            "status": "healing", "tank_id": rack.tank_id, "rack_id": rack.id, "slot": slot,
            "size_mm": said.size_mm, "heads": said.heads, "price_cents": said.price_cents,
        }  # fmt: skip
        events += [NewEvent("born", specimen_id, born, at), binding(code, "specimen", specimen_id, at)]
    record(session, author, events, deed_id)
    return ids


def _cut_payload(said: FragSession, ids: list[str]) -> dict[str, object]:
    payload: dict[str, object] = {"method": said.method, "pieces": ids, "note": said.note}
    return payload | {"size_mm": said.mother_size_mm, "heads": said.mother_heads}
