"""Slots in a count: where the photos show each plug to stand, against where the books have it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from webapp.services.places import free_slots, get_rack
from webapp.services.stocktaking import Line, Outcome
from webapp.tags.slots import Point, Slot, slots_in_photo


@dataclass(frozen=True, slots=True)
class Slots:
    """`told`: the slot that the photos show, by specimen id, of those that the books have elsewhere or in no slot.

    `shifted`: those of this rack that stand in another slot of it. `free`: slots to choose from.
    """

    told: dict[str, str] = field(default_factory=dict)
    shifted: list[Line] = field(default_factory=list)
    free: list[str] = field(default_factory=list)


def tell_slots(session: Session, outcome: Outcome, photos: Sequence[Mapping[str, Point]]) -> Slots:
    """What the photos of a rack say of its slots. `photos`: the middle of each tag by code, a photo each."""
    if not outcome.place.rack_id:
        return Slots()
    rack = get_rack(session, outcome.place.rack_id)
    lines = {one.code: one for one in (*outcome.here, *outcome.elsewhere) if one.code}
    noted = {code: slot for one in outcome.here if (code := one.code) and (slot := _as_pair(one.slot))}
    seen: dict[str, set[Slot]] = {}
    for middles in photos:
        ours = {code: middle for code, middle in middles.items() if code in lines}
        for code, slot in slots_in_photo(ours, noted, rack.rows, rack.columns).items():
            seen.setdefault(code, set()).add(slot)
    sure = {code: _as_text(*slots) for code, slots in seen.items() if len(slots) == 1}  # two photos may disagree
    told = {lines[code].id: slot for code, slot in sure.items() if noted.get(code) != _as_pair(slot)}
    shifted = [one for one in outcome.here if one.id in told]
    vacant = {one.slot for one in outcome.missing} | {one.slot for one in shifted}
    free = {*free_slots(session, rack), *vacant, *told.values()}
    return Slots(told, shifted, [slot for slot in rack.slots if slot in free])


def _as_pair(slot: str) -> Slot | None:
    return (ord(slot[0]) - ord("A"), int(slot[1:]) - 1) if slot[1:].isdigit() else None


def _as_text(slot: Slot) -> str:
    return f"{chr(ord('A') + slot[0])}{slot[1] + 1}"
