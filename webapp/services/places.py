"""Tanks, racks and slots: setting them up, and what stands where."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.recording import Author, NewEvent, record
from webapp.services.tagging import binding, fresh_codes
from webapp.storage.base import derived_id
from webapp.storage.place import RackRow, TankRow
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow


@dataclass(frozen=True, slots=True)
class Tank:
    """A tank as it is now. Lengths in cm, volume in litres."""

    id: str
    name: str
    purpose: str
    volume_l: float | None
    length_cm: float | None
    width_cm: float | None
    height_cm: float | None
    light_hours: float | None
    note: str
    code: str | None
    closed: bool
    specimens: int = 0


@dataclass(frozen=True, slots=True)
class Rack:
    """A rack as it is now; depth_cm below the surface."""

    id: str
    tank_id: str
    tank_name: str
    name: str
    rows: int
    columns: int
    depth_cm: float | None
    code: str | None
    closed: bool

    @property
    def slots(self) -> list[str]:
        """Every slot, row by row: A1, A2, …"""
        return [f"{chr(65 + row)}{column}" for row in range(self.rows) for column in range(1, self.columns + 1)]


@dataclass(frozen=True, slots=True)
class Standing:
    """A specimen in its slot."""

    id: str
    name: str
    code: str | None
    status: str
    slot: str
    profile_key: str


def add_tank(session: Session, author: Author, deed_id: str, given: dict[str, Any], at: datetime | None = None) -> str:
    """A new tank with a code of its own; returns its id. `given`: the payload of 'tank_set'; `at`: since when (now)."""
    tank_id = derived_id(deed_id, "tank")
    if session.get(TankRow, tank_id) is None:
        _name_is_free(session, TankRow, given.get("name", ""), "")
        code = fresh_codes(session, 1, deed_id)[0]
        events = [NewEvent("tank_set", tank_id, given, at), binding(code, "tank", tank_id, at)]
        record(session, author, events, deed_id)
    return tank_id


def change_tank(
    session: Session, author: Author, deed_id: str, tank_id: str, given: dict[str, Any], at: datetime | None = None
) -> None:
    """Change what is known of a tank; only what is named in `given` changes."""
    get_tank(session, tank_id)
    if "name" in given:
        _name_is_free(session, TankRow, given["name"], tank_id)
    record(session, author, [NewEvent("tank_set", tank_id, given, at)], deed_id)


def close_tank(session: Session, author: Author, deed_id: str, tank_id: str) -> None:
    """Close a tank that nothing lives in any more."""
    if occupants(session, tank_id=tank_id):
        raise BadInput("Something still lives in this tank. Move it first.")
    record(session, author, [NewEvent("tank_closed", tank_id)], deed_id)


def add_rack(session: Session, author: Author, deed_id: str, given: dict[str, Any], at: datetime | None = None) -> str:
    """A new rack with a code of its own; returns its id. `given`: the payload of 'rack_set'; `at`: since when (now)."""
    get_tank(session, given["tank_id"])
    rack_id = derived_id(deed_id, "rack")
    if session.get(RackRow, rack_id) is None:
        _name_is_free(session, RackRow, given.get("name", ""), "")
        code = fresh_codes(session, 1, deed_id)[0]
        events = [NewEvent("rack_set", rack_id, given, at), binding(code, "rack", rack_id, at)]
        record(session, author, events, deed_id)
    return rack_id


def change_rack(session: Session, author: Author, deed_id: str, rack_id: str, given: dict[str, Any]) -> None:
    """Change a rack; only what is named in `given` changes."""
    get_rack(session, rack_id)
    if "name" in given:
        _name_is_free(session, RackRow, given["name"], rack_id)
    record(session, author, [NewEvent("rack_set", rack_id, given)], deed_id)


def close_rack(session: Session, author: Author, deed_id: str, rack_id: str) -> None:
    """Close a rack that nothing stands on any more."""
    if occupants(session, rack_id=rack_id):
        raise BadInput("Something still stands on this rack. Move it first.")
    record(session, author, [NewEvent("rack_closed", rack_id)], deed_id)


def tanks(session: Session, closed: bool = False) -> list[Tank]:
    """The open tanks (or all), by name, with the number of specimens in each."""
    counts = dict(
        session.execute(
            select(SpecimenRow.tank_id, func.count())
            .where(SpecimenRow.status.not_in(GONE))
            .group_by(SpecimenRow.tank_id)
        ).all()
    )
    query = select(TankRow).order_by(TankRow.name)
    rows = session.scalars(query if closed else query.where(TankRow.closed_at.is_(None)))
    return [_tank(row, counts.get(row.id, 0)) for row in rows]


def racks(session: Session, tank_id: str | None = None, closed: bool = False) -> list[Rack]:
    """The open racks (or all) of one tank or of all, by tank and name."""
    query = (
        select(RackRow, TankRow.name).join(TankRow, TankRow.id == RackRow.tank_id).order_by(TankRow.name, RackRow.name)
    )
    if tank_id is not None:
        query = query.where(RackRow.tank_id == tank_id)
    if not closed:
        query = query.where(RackRow.closed_at.is_(None))
    return [_rack(row, name) for row, name in session.execute(query)]


def get_tank(session: Session, tank_id: str) -> Tank:
    """One tank. Raises NotFound."""
    row = session.get(TankRow, tank_id)
    if row is None:
        raise NotFound("There is no such tank here.")
    here = select(func.count()).where(SpecimenRow.tank_id == tank_id, SpecimenRow.status.not_in(GONE))
    return _tank(row, session.scalar(here) or 0)


def get_rack(session: Session, rack_id: str) -> Rack:
    """One rack. Raises NotFound."""
    row = session.execute(
        select(RackRow, TankRow.name).join(TankRow, TankRow.id == RackRow.tank_id).where(RackRow.id == rack_id)
    ).one_or_none()
    if row is None:
        raise NotFound("There is no such rack here.")
    return _rack(*row)


def occupants(
    session: Session, tank_id: str | None = None, rack_id: str | None = None, most: int | None = None
) -> list[Standing]:
    """What stands in a tank or on a rack now, by slot; the first `most` of them, or all."""
    query = select(
        SpecimenRow.id,
        SpecimenRow.name,
        SpecimenRow.code,
        SpecimenRow.status,
        SpecimenRow.slot,
        SpecimenRow.profile_key,
    ).where(SpecimenRow.status.not_in(GONE))
    if tank_id is not None:
        query = query.where(SpecimenRow.tank_id == tank_id)
    if rack_id is not None:
        query = query.where(SpecimenRow.rack_id == rack_id)
    in_reading_order = (func.substr(SpecimenRow.slot, 1, 1), func.length(SpecimenRow.slot), SpecimenRow.slot)
    rows = session.execute(query.order_by(SpecimenRow.rack_id, *in_reading_order, SpecimenRow.name).limit(most))
    return [Standing(*row) for row in rows]


def free_slots(session: Session, rack: Rack) -> list[str]:
    """Slots of a rack that nothing stands in, in reading order."""
    taken = {here.slot for here in occupants(session, rack_id=rack.id)}
    return [slot for slot in rack.slots if slot not in taken]


def free_from(session: Session, rack: Rack, first: str) -> list[str]:
    """The free slots from `first` on; all of them where it is ''. Raises BadInput for a slot that the rack has not."""
    check_slots(rack, [first])
    before = rack.slots[: rack.slots.index(first)] if first else []
    return [slot for slot in free_slots(session, rack) if slot not in before]


def free_in(session: Session, purpose: str) -> int:
    """Free slots on the racks of all tanks of one purpose."""
    wanted = {tank.id for tank in tanks(session) if tank.purpose == purpose}
    return sum(len(free_slots(session, rack)) for rack in racks(session) if rack.tank_id in wanted)


def check_slots(rack: Rack, slots: Iterable[str]) -> None:
    """Raises BadInput when a slot is not on the rack."""
    unknown = [slot for slot in slots if slot and slot not in rack.slots]
    if unknown:
        raise BadInput(
            f"{rack.name} has no slot {unknown[0]}: its slots run from {rack.slots[0]} to {rack.slots[-1]}.", "slot"
        )


def _name_is_free(session: Session, table: type[TankRow] | type[RackRow], name: str, own_id: str) -> None:
    clean = " ".join(name.split())
    if not clean:
        raise BadInput("Give it a name.", "name")
    if session.scalar(select(table.id).where(table.name == clean, table.closed_at.is_(None), table.id != own_id)):
        raise BadInput(f"There is already one called {clean}. Choose another name.", "name")


def _tank(row: TankRow, specimens: int) -> Tank:
    return Tank(
        row.id, row.name, row.purpose, row.volume_l, row.length_cm, row.width_cm, row.height_cm, row.light_hours,
        row.note, row.code, row.closed_at is not None, specimens,
    )  # fmt: skip


def _rack(row: RackRow, tank_name: str) -> Rack:
    return Rack(
        row.id,
        row.tank_id,
        tank_name,
        row.name,
        row.rows,
        row.columns,
        row.depth_cm,
        row.code,
        row.closed_at is not None,
    )
