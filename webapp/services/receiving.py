"""A shipment from the order to the quarantine tank: lines, bags, what arrived alive or dead, the claim."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.fit.bag import BagLimits, BagPlan, bag_plan, free_ammonia
from webapp.fit.profile import Profile
from webapp.services.freight import freight_of
from webapp.services.intake import arrivals, check_place
from webapp.services.places import free_slots, get_rack, get_tank
from webapp.services.readings import latest
from webapp.services.recording import CLOCK_SKEW, Author, NewEvent, now, record
from webapp.services.updating import keep_photo
from webapp.storage.base import derived_id
from webapp.storage.care import ShipmentRow
from webapp.storage.specimen import SpecimenRow

USUAL_BAG_L = 0.5


@dataclass(frozen=True, slots=True)
class BagWater:
    """What a plan was worked out from: the tank's last readings (canonical units) by quantity, the bag's litres.

    free_in_bag, free_in_tank: shares (0 to 1) of total ammonia that are free NH3, None where a reading is missing.
    """

    tank_name: str
    read: Mapping[str, float]
    bag_l: float
    free_in_bag: float | None
    free_in_tank: float | None


@dataclass(frozen=True, slots=True)
class Line:
    """One line. bag: as measured, or None. alive, dead: None until it was opened. plan: what to do with the bag."""

    id: str
    kind: Profile
    name: str
    count: int
    cost_cents: int | None
    papers: str
    as_on_papers: str
    source_code: str
    origin: str
    bag: Mapping[str, Any] | None
    alive: int | None
    dead: int | None
    specimens: list[str]
    photo_id: str | None
    plan: BagPlan | None
    water: BagWater | None = None

    @property
    def missing(self) -> int:
        """How many fewer than ordered were in the bag; negative when there were more."""
        return self.count - (self.alive or 0) - (self.dead or 0)


@dataclass(frozen=True, slots=True)
class Shipment:
    """A shipment. lines: in the order in which to open the bags. claim_until: end of the supplier's window."""

    id: str
    supplier: str
    invoice: str
    papers: str
    note: str
    ordered_at: datetime
    expected_at: datetime | None
    packed_at: datetime | None
    opened_at: datetime | None
    done_at: datetime | None
    box_temp_c: float | None
    claim_h: float
    claimed: int
    lines: list[Line]
    freight_cents: int | None = None

    @property
    def transit_h(self) -> float | None:
        """Hours from packing to opening."""
        if self.packed_at is None or self.opened_at is None:
            return None
        return (self.opened_at - self.packed_at) / timedelta(hours=1)

    @property
    def claim_until(self) -> datetime | None:
        """Until when what is dead can be claimed."""
        return self.opened_at + timedelta(hours=self.claim_h) if self.opened_at else None

    @property
    def dead(self) -> int:
        """How many arrived dead."""
        return sum(line.dead or 0 for line in self.lines)

    @property
    def alive(self) -> int:
        """How many arrived alive."""
        return sum(line.alive or 0 for line in self.lines)

    @property
    def dead_pct(self) -> float | None:
        """Share that arrived dead, percent."""
        return 100 * self.dead / (self.dead + self.alive) if self.dead + self.alive else None

    @property
    def cost_cents(self) -> int:
        """What all of it costs by the order."""
        return sum((line.cost_cents or 0) * line.count for line in self.lines)

    @property
    def freight_each_cents(self) -> float | None:
        """The freight over the animals that arrived alive; None before any did, or with none said."""
        return self.freight_cents / self.alive if self.freight_cents and self.alive else None


def set_shipment(
    session: Session,
    author: Author,
    deed_id: str,
    given: Mapping[str, Any],
    shipment_id: str = "",
    at: datetime | None = None,
) -> str:
    """A new shipment, or changes to one; returns its id. `given`: the payload of 'shipment_set'."""
    if not shipment_id and not (given.get("supplier") or "").strip():
        raise BadInput("Say who sends it.", "supplier")
    packed, opened = given.get("packed_at"), given.get("opened_at")
    for key, moment in (("packed_at", packed), ("opened_at", opened)):
        if moment and datetime.fromisoformat(moment) > now() + CLOCK_SKEW:
            raise BadInput("That is still to come. Look at the day and the time.", key)
    if packed and opened and packed >= opened:
        raise BadInput("It was packed before it was opened. Look at the two times.", "packed_at")
    shipment_id = shipment_id or derived_id(deed_id, "shipment")
    record(session, author, [NewEvent("shipment_set", shipment_id, dict(given), at)], deed_id)
    return shipment_id


def add_line(session: Session, author: Author, deed_id: str, shipment_id: str, given: Mapping[str, Any]) -> str:
    """One more line; returns its id. `given`: the payload of 'shipment_line' less the id."""
    line = derived_id(deed_id, "line")
    record(session, author, [NewEvent("shipment_line", shipment_id, {"line": line} | given)], deed_id)
    return line


def tell(
    session: Session, author: Author, deed_id: str, shipment_id: str, kind: str, payload: Mapping[str, Any]
) -> None:
    """'line_dropped', 'bag_measured', 'dead_claimed' or 'shipment_done'."""
    record(session, author, [NewEvent(kind, shipment_id, dict(payload))], deed_id)


def take_line(
    session: Session,
    author: Author,
    deed_id: str,
    shipment: Shipment,
    line: Line,
    counts: tuple[int, int],
    place: Mapping[str, Any],
    now: datetime,
    photo: bytes = b"",
    at: datetime | None = None,
) -> list[str]:
    """What was in the bag, alive and dead, as one deed; the living go into quarantine, a tag each. Returns their ids.

    `photo`: of the dead, or b''. A box that nobody noted as opened is open now: the hours to claim in begin.
    Raises BadInput when nothing was in it or the place is wrong.
    """
    alive, dead = counts
    if alive + dead == 0:
        raise BadInput("Count what was in the bag: alive, dead, or both.", "alive")
    photo_id = keep_photo(session, deed_id, photo, now) if photo else None
    ids: list[str] = []
    events: list[NewEvent] = []
    if alive:
        given = {
            "profile_key": line.kind.key, "name": line.name, "origin": line.origin, "status": "quarantine",
            "supplier": shipment.supplier, "cost_cents": line.cost_cents,
            "papers": papers_of(shipment.papers, line.papers, line.as_on_papers, line.source_code),
            "shipment_id": shipment.id,
        } | dict(place)  # fmt: skip
        check_place(session, given)
        ids, events = arrivals(session, deed_id, given, alive, at, _slots(session, place, alive))
        if session.get(SpecimenRow, ids[0]) is not None:
            return ids
    told = {"line": line.id, "alive": alive, "dead": dead, "specimens": ids, "photo_id": photo_id}
    if shipment.opened_at is None:
        events.append(NewEvent("shipment_set", shipment.id, {"opened_at": (at or now).isoformat()}, at))
    record(session, author, [NewEvent("line_arrived", shipment.id, told, at), *events], deed_id)
    return ids


def get_shipment(
    session: Session, profiles: Mapping[str, Profile], limits: Mapping[str, float], shipment_id: str
) -> Shipment:
    """One shipment. Raises NotFound."""
    row = session.get(ShipmentRow, shipment_id)
    if row is None:
        raise NotFound("There is no such shipment here.")
    return replace(_shipment(session, row, profiles, limits), freight_cents=freight_of(session, shipment_id))


def shipments(
    session: Session, profiles: Mapping[str, Profile], limits: Mapping[str, float], is_done: bool = False
) -> list[Shipment]:
    """Those not unpacked yet, or those that are; the newest first."""
    done = ShipmentRow.done_at.is_not(None) if is_done else ShipmentRow.done_at.is_(None)
    rows = session.scalars(select(ShipmentRow).where(done).order_by(ShipmentRow.ordered_at.desc(), ShipmentRow.id))
    return [_shipment(session, row, profiles, limits) for row in rows]


def bag_limits(limits: Mapping[str, float]) -> BagLimits:
    """The shop's thresholds as the plan takes them."""
    named = {"cold_c": "bag_cold_c", "hot_c": "bag_hot_c"}
    return BagLimits(**{one.name: limits[named.get(one.name, one.name)] for one in fields(BagLimits)})


def _shipment(
    session: Session, row: ShipmentRow, profiles: Mapping[str, Profile], limits: Mapping[str, float]
) -> Shipment:
    made = Shipment(
        row.id, row.supplier, row.invoice, row.papers, row.note, row.ordered_at, row.expected_at, row.packed_at,
        row.opened_at, row.done_at, row.box_temp_c, row.claim_h or limits["doa_window_h"], row.claimed, [],
    )  # fmt: skip
    for given in row.lines:
        if not given["dropped"]:
            made.lines.append(_line(session, given, profiles[given["profile_key"]], made.transit_h, limits))
    # The most fragile first; what can poison is opened last, with gloves and eye protection (common practice).
    made.lines.sort(key=lambda line: (line.kind.toxic, -line.kind.hardiness, line.name, line.id))
    return made


def _line(
    session: Session, given: Mapping[str, Any], kind: Profile, transit_h: float | None, limits: Mapping[str, float]
) -> Line:
    bag, plan, water = given["bag"], None, None
    if bag is not None:
        water = _water(session, bag)
        plan = bag_plan(
            bag.get("bag_temp_c"), bag.get("bag_salinity_ppt"), water.read.get("temp"), water.read.get("salinity"),
            water.bag_l, transit_h, bag_limits(limits),
        )  # fmt: skip
    return Line(
        given["line"], kind, given["name"], given["count"], given.get("cost_cents"), given.get("papers") or "",
        given.get("as_on_papers") or "", given.get("source_code") or "", given["origin"], bag, given["alive"],
        given["dead"], given["specimens"], given.get("photo_id"), plan, water,
    )  # fmt: skip


def _water(session: Session, bag: Mapping[str, Any]) -> BagWater:
    last = latest(session, bag["tank_id"])
    read = {quantity: last[quantity, ""].value for quantity in ("temp", "salinity", "ph") if (quantity, "") in last}
    own = {"temp": bag.get("bag_temp_c"), "salinity": bag.get("bag_salinity_ppt")}
    known = read | {quantity: value for quantity, value in own.items() if value is not None}
    return BagWater(
        get_tank(session, bag["tank_id"]).name, read, bag.get("bag_l") or USUAL_BAG_L,
        free_ammonia(bag.get("bag_ph"), known.get("temp"), known.get("salinity")),
        free_ammonia(read.get("ph"), read.get("temp"), read.get("salinity")),
    )  # fmt: skip


def papers_of(of_shipment: str, of_line: str, as_on_papers: str, source_code: str) -> str:
    """The papers of an animal of a line, in one line of text."""
    parts = [of_line or of_shipment, as_on_papers, source_code and f"source {source_code}"]
    return ", ".join(part for part in parts if part)[:120]


def _slots(session: Session, place: Mapping[str, Any], count: int) -> list[str]:
    """The next free slots of the rack, '' for those that find none."""
    free = free_slots(session, get_rack(session, place["rack_id"])) if place.get("rack_id") else []
    return (free + [""] * count)[:count]
