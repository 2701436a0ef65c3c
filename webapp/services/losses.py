"""What died, at which stage and of what; by mother, method, supplier, tank and kind; and which rates deserve a look."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime, time, timedelta
from itertools import compress
from typing import Any

from sqlalchemy import ColumnElement, func, select
from sqlalchemy.orm import Session

from webapp.services.shop import load_shop
from webapp.storage.care import ShipmentRow
from webapp.storage.event import Event
from webapp.storage.place import TankRow
from webapp.storage.present_looks import BY_ITSELF
from webapp.storage.present_specimen import CREATING, GONE
from webapp.storage.specimen import SpecimenRow

MONTH = timedelta(days=30)
#: What losses are told by, in the order of the page.
BY = ("kind", "mother", "method", "supplier", "tank")
FEWEST = 5
"""Of fewer a single death says nothing about a day."""
MOST_DAYS = 30


@dataclass(frozen=True, slots=True)
class Group:
    """How many of a group began and how many of them died. `key`: of the kind, mother, shipment, supplier or tank."""

    key: str
    name: str
    pieces: int
    lost: int
    batches: int = 0
    subject: str = "specimen"

    @property
    def pct(self) -> float:
        """The share that died, percent."""
        return 100 * self.lost / self.pieces if self.pieces else 0.0


@dataclass(frozen=True, slots=True)
class Loss:
    """One animal that died."""

    id: str
    name: str
    code: str
    at: datetime
    stage: str
    cause: str
    value_cents: int | None


@dataclass(frozen=True, slots=True)
class WorkDay:
    """What was cut or taken in on one day of the shop by one person, and how much of it died since.

    day: its first moment on the shop's clock. names: of the strains, so that nobody thinks of the person first.
    deserves_a_look: the share is above that of a bad batch, and there were enough of them to say so.
    """

    day: datetime
    author: str
    names: tuple[str, ...]
    pieces: int
    lost: int
    deserves_a_look: bool

    @property
    def pct(self) -> float:
        """The share that died, percent."""
        return 100 * self.lost / self.pieces


@dataclass(frozen=True, slots=True)
class Losses:
    """The losses since a moment. `month_pct`: of what stood in the shop, in the last 30 days."""

    since: datetime
    losses: list[Loss]
    stages: dict[str, int]
    causes: dict[str, int]
    groups: dict[str, list[Group]]
    stock: int
    month_lost: int
    dead_on_arrival: int
    value_cents: int = 0
    days: list[WorkDay] = field(default_factory=list)
    worth_a_look: list[Group] = field(default_factory=list)

    @property
    def month_pct(self) -> float:
        """Share of what stood here 30 days ago or came since that died within them, percent."""
        return 100 * self.month_lost / (self.stock + self.month_lost) if self.stock + self.month_lost else 0.0


def losses(session: Session, limits: Mapping[str, float], since: datetime, now: datetime) -> Losses:
    """Everything that died since a moment; the groups count what began since then."""
    S = SpecimenRow
    dead = list(
        session.execute(
            select(S.id, S.name, S.code, S.status_since, S.loss_stage, S.loss_cause, S.price_cents, S.cost_cents)
            .where(SpecimenRow.status == "lost", SpecimenRow.status_since >= since)
            .order_by(SpecimenRow.status_since.desc(), SpecimenRow.id)
        )
    )
    told = [
        Loss(row.id, row.name, row.code or "", row.status_since, row.loss_stage, row.loss_cause,
             row.price_cents if row.price_cents is not None else row.cost_cents)
        for row in dead
    ]  # fmt: skip
    stock = session.scalar(select(func.count()).where(SpecimenRow.status.not_in(GONE))) or 0
    arrived_dead = _arrived_dead(session, since)
    return Losses(
        since, told, _counted(one.stage for one in told), _counted(one.cause for one in told),
        _grouped(session, since, arrived_dead), stock, sum(one.at >= now - MONTH for one in told),
        arrived_dead.total(), sum(one.value_cents or 0 for one in told), _work_days(session, limits, since),
        [*bad_batches(session, limits, now), *bad_shipments(session, limits, now)],
    )  # fmt: skip


def bad_batches(session: Session, limits: Mapping[str, float], now: datetime) -> list[Group]:
    """Batches (frags cut from one mother at one moment) with a death in the last 30 days and more than allowed in all.

    `key` is the mother's id.
    """
    S = SpecimenRow
    recent = (
        select(S.mother_id, S.started_at).where(S.status == "lost", S.status_since >= now - MONTH).distinct().subquery()
    )
    rows = session.execute(
        select(S.mother_id, func.min(S.name), func.count(), func.count().filter(S.status == "lost"))
        .join(recent, (recent.c.mother_id == S.mother_id) & (recent.c.started_at == S.started_at))
        .group_by(S.mother_id, S.started_at)
        .order_by(S.started_at.desc(), S.mother_id.desc())
    )
    groups = (Group(mother_id, name, count, int(lost)) for mother_id, name, count, lost in rows)
    return [one for one in groups if one.pct > limits["loss_batch_pct"]]


def bad_shipments(session: Session, limits: Mapping[str, float], now: datetime) -> list[Group]:
    """Shipments opened in the last 30 days of which more than allowed arrived dead or died here."""
    S = SpecimenRow
    died = (
        select(S.shipment_id, func.count())
        .where(S.shipment_id.is_not(None), S.status == "lost")
        .group_by(S.shipment_id)
    )
    dead_here = dict(session.execute(died).all())
    found = []
    for row in session.scalars(select(ShipmentRow).where(ShipmentRow.opened_at >= now - MONTH)):
        dead = sum(line.get("dead") or 0 for line in row.lines)
        pieces = dead + sum(line.get("alive") or 0 for line in row.lines)
        lost = dead + dead_here.get(row.id, 0)
        group = Group(row.id, row.supplier, pieces, lost, subject="shipment")
        if group.pct > limits["loss_batch_pct"]:
            found.append(group)
    return found


def mothers_in_question(session: Session, limits: Mapping[str, float], now: datetime) -> list[Group]:
    """Mothers with a dead frag in the last 30 days of whose last batches each lost more than allowed.

    `pieces` and `lost` are of those batches; `batches` says how many they are.
    """
    S = SpecimenRow
    needed = int(limits["scrap_mother_batches"])
    recent = session.scalars(select(S.mother_id).where(*_died_lately(now)).distinct())
    batches: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for mother_id, _at, _name, count, lost in _batches(session, sorted(recent)):
        batches[mother_id].append((count, int(lost)))
    found = []
    for mother_id, all_of_her in batches.items():
        last = all_of_her[:needed]
        if len(last) == needed and all(100 * lost / count > limits["scrap_mother_pct"] for count, lost in last):
            mother = session.get(SpecimenRow, mother_id)
            if mother is not None and mother.status not in GONE:
                found.append(Group(mother_id, mother.name, sum(c for c, _ in last), sum(x for _, x in last), needed))
    return found


def _died_lately(now: datetime) -> tuple[ColumnElement[bool], ...]:
    """Frags that died within the last 30 days."""
    S = SpecimenRow
    return (S.status == "lost", S.status_since >= now - MONTH, S.mother_id.is_not(None))


def _batches(session: Session, mothers: list[str]) -> list[Any]:
    """(mother, moment, a name, pieces, dead) of every batch of these mothers, the newest first."""
    S = SpecimenRow
    found: list[Any] = []
    for first in range(0, len(mothers), 500):
        found += session.execute(
            select(S.mother_id, S.started_at, func.min(S.name), func.count(), func.count().filter(S.status == "lost"))
            .where(S.mother_id.in_(mothers[first : first + 500]))
            .group_by(S.mother_id, S.started_at)
        ).all()
    return sorted(found, key=lambda row: (row[1], row[0]), reverse=True)


def _grouped(session: Session, since: datetime, arrived_dead: Counter[str]) -> dict[str, list[Group]]:
    """By every way of counting, from one look at all that began since a moment. What arrived dead is its supplier's."""
    S = SpecimenRow
    rows = session.connection().execute(  # plain rows: there are many of them
        select(S.profile_key, S.mother_id, S.method, S.supplier, S.tank_id, S.name, S.status == "lost")
        .where(S.started_at >= since)
    ).all()  # fmt: skip
    *columns, strains, dead = zip(*rows, strict=True) if rows else [()] * 7
    names: dict[str, dict[str, str]] = {
        "mother": _first_names(columns[BY.index("mother")], strains),
        "tank": dict(session.execute(select(TankRow.id, TankRow.name)).all()),
    }
    found = {}
    for by, column in zip(BY, columns, strict=True):
        pieces, lost = Counter(column), Counter(compress(column, dead))
        if by == "supplier":
            pieces, lost = pieces + arrived_dead, lost + arrived_dead
        groups = [Group(key, names.get(by, {}).get(key, key), pieces[key], lost[key]) for key in lost if key]
        found[by] = sorted(groups, key=lambda one: (-one.pct, one.name, one.key))
    return found


def _first_names(mothers: Iterable[str | None], strains: Iterable[str]) -> dict[str, str]:
    """Mother -> the first of the names of hers, by the alphabet."""
    found: dict[str, str] = {}
    for mother, name in set(zip(mothers, strains, strict=True)):
        if mother and (mother not in found or name < found[mother]):
            found[mother] = name
    return found


def _work_days(session: Session, limits: Mapping[str, float], since: datetime) -> list[WorkDay]:
    """Days of work since a moment of which something died, the latest first: one look at the batches that lost any."""
    S, zone = SpecimenRow, load_shop(session).zone
    began = select(S.started_at).where(S.status == "lost", S.started_at >= since).distinct()
    hit = sorted({moment.astimezone(zone).date() for moment in session.scalars(began)})[-MOST_DAYS:]
    if not hit:
        return []
    began_together = (
        select(S.started_at, S.name, func.min(S.id).label("first"), func.count().label("pieces"),
               func.count().filter(S.status == "lost").label("lost"))
        .where(S.started_at >= datetime.combine(hit[0], time.min, zone), S.method != BY_ITSELF)
        .group_by(S.started_at, S.name)
        .subquery()
    )  # fmt: skip
    noted_by = (
        select(Event.author_name)
        .where(Event.subject_id == began_together.c.first, Event.kind.in_(CREATING))
        .order_by(Event.occurred_at)
        .limit(1)
        .scalar_subquery()
    )
    batches = session.execute(select(began_together, noted_by))  # who noted the first of them noted all of them
    days = set(hit)
    made: dict[tuple[datetime, str], list[Any]] = defaultdict(lambda: [set(), 0, 0])
    for moment, name, _first, pieces, lost, author in batches:
        day = moment.astimezone(zone).date()
        if day not in days:
            continue
        one = made[datetime.combine(day, time.min, zone), author or ""]
        one[0].add(name)
        one[1] += pieces
        one[2] += lost
    limit = limits["loss_batch_pct"]
    found = [
        WorkDay(day, author, tuple(sorted(names)), pieces, lost, pieces >= FEWEST and 100 * lost / pieces > limit)
        for (day, author), (names, pieces, lost) in made.items()
        if lost
    ]
    return sorted(found, key=lambda one: (one.day, one.author), reverse=True)


def _counted(values: object) -> dict[str, int]:
    return dict(Counter(values).most_common())  # type: ignore[arg-type]


def _arrived_dead(session: Session, since: datetime) -> Counter[str]:
    """Supplier -> how many of what was ordered since a moment arrived dead."""
    found: Counter[str] = Counter()
    for supplier, lines in session.execute(select(ShipmentRow.supplier, ShipmentRow.lines).where(
        ShipmentRow.ordered_at >= since
    )):  # fmt: skip
        found[supplier] += sum(line.get("dead") or 0 for line in lines)
    return +found
