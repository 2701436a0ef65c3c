"""Shipments of the invented shop: the order, the bags, what arrived alive or dead, the claim."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

from demo.diary import chance
from demo.strains import STRAIN, Strain
from webapp.services import receiving
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.thresholds import load_thresholds

if TYPE_CHECKING:
    from demo.lives import Lives

CITES = "CITES II, copy in the folder"


@dataclass(frozen=True, slots=True)
class Line:
    """A line: a strain of `demo.strains`, how many arrived dead (alive: its count), cost of each in cents.

    bag: °C, ppt, pH, litres as it was opened.
    """

    strain: str
    dead: int
    cost_cents: int
    source: str
    bag: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Delivery:
    """A shipment that was opened `days_ago`. freight: in euros. claimed: the dead were claimed the same day."""

    supplier: str
    invoice: str
    days_ago: int
    way_h: float
    box_temp_c: float
    claim_h: float
    freight: int
    claimed: bool
    lines: tuple[Line, ...]


DELIVERIES = (
    Delivery("a farm in the east", "order 31", 54, 27, 22.5, 24, 95, True, (
        Line("Chalk Ladder", 1, 1500, "F", (22.0, 33.5, 7.6, 0.8)),
        Line("Cellar Stair", 0, 2900, "W", (22.4, 33.0, 7.5, 1.5)),
        Line("Pebble Street", 0, 500, "", (22.1, 33.8, 7.6, 0.6)))),
    Delivery("a mariculture station", "order 36", 18, 19, 24.0, 24, 60, True, (
        Line("Tarn Steps", 0, 1600, "F", (23.6, 34.0, 7.8, 0.8)),
        Line("Drift Paling", 1, 700, "F", (23.8, 34.0, 7.7, 0.8)))),
    Delivery("a farm in the east", "order 38", 1, 26, 21.8, 48, 85, False, (
        Line("Sunday Loft", 0, 3100, "W", (21.5, 32.5, 7.4, 1.6)),
        Line("Corner Lantern", 1, 1900, "W", (21.7, 32.8, 7.4, 1.4)),
        Line("Seed Drawer", 0, 600, "", (21.6, 33.0, 7.5, 0.6)))),
)  # fmt: skip
#: Ordered and not here yet: kind, name, count, cents, source code.
AWAITED = (("tridacna_medium_light", "Linen Blind", 3, 3400, "F"), ("phymanthus", "Barber Pole", 2, 1500, ""))


def plan_deliveries(lives: "Lives") -> None:
    """Put every shipment into the diary."""
    for delivery in DELIVERIES:
        ordered = lives.diary.moment(delivery.days_ago + 12, 11)
        lives.diary.plan(ordered, _order(lives, delivery))
    lives.diary.plan(lives.diary.moment(5, 11), lambda at, deed: _awaited(lives, deed))


def _order(lives: "Lives", delivery: Delivery) -> Any:
    def ordered(_at: datetime, deed: str) -> None:
        session, author, diary = lives.diary.session, lives.diary.authors["Ilva"], lives.diary
        opened = diary.moment(delivery.days_ago, 10)
        given = {"supplier": delivery.supplier, "invoice": delivery.invoice, "papers": CITES,
                 "claim_h": delivery.claim_h, "freight_cents": delivery.freight * 100,
                 "expected_at": (opened - timedelta(hours=1)).isoformat()}  # fmt: skip
        shipment_id = receiving.set_shipment(session, author, deed, given)
        for number, line in enumerate(delivery.lines):
            strain = STRAIN[line.strain]
            told = {"profile_key": strain.key, "name": strain.name, "count": strain.count + line.dead,
                    "cost_cents": line.cost_cents, "origin": strain.origin, "source_code": line.source}  # fmt: skip
            receiving.add_line(session, author, diary.deed(deed, number), shipment_id, told)
        diary.plan(opened, lambda at, deed: _opened(lives, delivery, shipment_id, at, deed))

    return ordered


def _opened(lives: "Lives", delivery: Delivery, shipment_id: str, at: datetime, deed: str) -> None:
    session, author, diary = lives.diary.session, lives.diary.authors["Ilva"], lives.diary
    box = {"packed_at": (at - timedelta(hours=delivery.way_h)).isoformat(), "opened_at": at.isoformat(),
           "box_temp_c": delivery.box_temp_c}  # fmt: skip
    receiving.set_shipment(session, author, deed, box, shipment_id)
    for number, line in enumerate(delivery.lines):
        diary.plan(at + timedelta(minutes=20 + 35 * number), _unpacked(lives, delivery, shipment_id, line))
    end = at + timedelta(minutes=30 + 35 * len(delivery.lines))
    if delivery.claimed:
        dead = {"count": sum(line.dead for line in delivery.lines)}
        diary.plan(end, lambda _at, deed: receiving.tell(session, author, deed, shipment_id, "dead_claimed", dead))
    diary.plan(end, lambda _at, deed: receiving.tell(session, author, deed, shipment_id, "shipment_done", {}))


def _unpacked(lives: "Lives", delivery: Delivery, shipment_id: str, line: Line) -> Any:
    """The bag is measured, and what lives goes into quarantine."""

    def done(at: datetime, deed: str) -> None:
        session, author, strain = lives.diary.session, lives.diary.authors["Ilva"], STRAIN[line.strain]
        rules = newest_profiles(session, Memory(), revision(session)), load_thresholds(session)
        found = receiving.get_shipment(session, *rules, shipment_id)
        here = next(one for one in found.lines if one.name == strain.name)
        temp, ppt, ph, litres = line.bag
        bag = {"line": here.id, "tank_id": lives.tanks["Quarantine"], "bag_temp_c": temp, "bag_salinity_ppt": ppt,
               "bag_ph": ph, "bag_l": litres, "ammonia_smell": delivery.way_h > 24}  # fmt: skip
        receiving.tell(session, author, lives.diary.deed(deed, "bag"), shipment_id, "bag_measured", bag)
        counts, place = (strain.count, line.dead), {"tank_id": lives.tanks["Quarantine"], "rack_id": lives.racks["Q1"]}
        picture = lives.portraits.draw(strain) if line.dead else b""
        ids = receiving.take_line(session, author, deed, found, here, counts, place, at, picture, at)
        lives.ids.setdefault(strain.name, []).extend(ids)
        for number, specimen_id in enumerate(ids):
            _settles(lives, strain, number, specimen_id, at)

    return done


def _settles(lives: "Lives", strain: Strain, number: int, specimen_id: str, at: datetime) -> None:
    random = chance("delivered", strain.name, number)
    size = {"size_mm": strain.size_mm + random.randint(-4, 4), "heads": strain.heads}
    lives.later(at + timedelta(minutes=50), "measured", specimen_id, size)
    lives.portraits.take(lives.diary, strain, number, specimen_id, at + timedelta(hours=1))
    if strain.name == "Chalk Ladder" and number == 2:
        gone = {"cause": "tissue_loss", "stage": "quarantine", "note": "Bare from the base up within two days."}
        lives.later(at + timedelta(days=9), "lost", specimen_id, gone, "Ilva")
    lives.quarantine(strain, specimen_id, at, random)


def _awaited(lives: "Lives", deed: str) -> None:
    session, author = lives.diary.session, lives.diary.authors["Ilva"]
    given = {"supplier": "a hatchery in the south", "invoice": "order 40", "papers": CITES, "claim_h": 24,
             "expected_at": lives.diary.moment(1, 14).isoformat()}  # fmt: skip
    shipment_id = receiving.set_shipment(session, author, deed, given)
    for number, (key, name, count, cents, source) in enumerate(AWAITED):
        told = {"profile_key": key, "name": name, "count": count, "cost_cents": cents, "origin": "bought_in",
                "source_code": source}  # fmt: skip
        receiving.add_line(session, author, lives.diary.deed(deed, number), shipment_id, told)
