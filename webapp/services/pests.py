"""Pests and diseases: findings, who shared the water since, whether sale stops, when to look again, when it is over."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import NotFound
from webapp.science.flatworm import stretched_days
from webapp.services.conditions import Condition, RuleState, clean_looks, moment
from webapp.services.exposure import Exposure, exposure_of
from webapp.services.memory import Memory
from webapp.services.places import get_tank
from webapp.services.readings import latest
from webapp.services.recording import Author, NewEvent, record
from webapp.services.thresholds import load_thresholds
from webapp.storage.base import derived_id
from webapp.storage.care import PestRow
from webapp.storage.event import Event
from webapp.storage.place import RackRow, TankRow
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow

#: Those for which the sale of everything in that water stops unless somebody decides otherwise (common practice).
STOPS_SALE = frozenset({"acropora_flatworm", "montipora_nudibranch", "goniopora_nudibranch", "brown_jelly"})
#: Looked for as their eggs hatch; the time was measured for Acropora flatworms only and stands in for the others.
LAYS_EGGS = frozenset(
    {"acropora_flatworm", "montipora_nudibranch", "goniopora_nudibranch", "pavona_nudibranch", "zoanthid_nudibranch"}
)
USUAL_TEMP_C = 25.0


@dataclass(frozen=True, slots=True)
class Finding:
    """One finding as it stands. next_look: when to look again. rule: may it count as gone. temp_c: of its tank."""

    id: str
    pest: str
    tank_id: str
    tank_name: str
    specimen_id: str | None
    found_at: datetime
    cleared_at: datetime | None
    stops_sale: bool
    note: str
    photo_id: str | None
    looks: list[list[Any]]
    treatments: list[list[Any]]
    next_look: datetime
    rule: RuleState
    temp_c: float


@dataclass(frozen=True, slots=True)
class Exposed:
    """A specimen that shared the water, and where it is now."""

    id: str
    name: str
    code: str | None
    status: str
    tank_id: str | None
    rack_id: str | None
    slot: str
    since: datetime

    @property
    def is_gone(self) -> bool:
        """It left the shop or died."""
        return self.status in GONE


def report_pest(
    session: Session, author: Author, deed_id: str, given: dict[str, Any], at: datetime | None = None
) -> str:
    """A finding; on a specimen it is a look at that one too, which takes it off sale. Returns the finding's id."""
    get_tank(session, given["tank_id"])
    pest_id = derived_id(deed_id, "pest")
    events = [NewEvent("pest_found", pest_id, given, at)]
    if given.get("specimen_id"):
        seen = {"slime": True} if given["pest"] == "brown_jelly" else {"pest_free": False}
        events.append(NewEvent("checked", given["specimen_id"], seen, at))
    record(session, author, events, deed_id)
    return pest_id


def tell(
    session: Session,
    author: Author,
    deed_id: str,
    pest_id: str,
    kind: str,
    payload: dict[str, Any],
    at: datetime | None = None,
) -> None:
    """Anything later about a finding: 'pest_looked', 'pest_treated', 'pest_stop', 'pest_cleared', 'pest_back'."""
    record(session, author, [NewEvent(kind, pest_id, payload, at)], deed_id)


def get_finding(session: Session, pest_id: str) -> Finding:
    """One finding. Raises NotFound."""
    row = session.get(PestRow, pest_id)
    if row is None:
        raise NotFound("There is no such finding here.")
    return _finding(session, row, load_thresholds(session))


def findings(session: Session, is_open: bool = True) -> list[Finding]:
    """The open findings, or those that are over; the newest first."""
    over = PestRow.cleared_at.is_(None) if is_open else PestRow.cleared_at.is_not(None)
    limits = load_thresholds(session)
    rows = session.scalars(select(PestRow).where(over).order_by(PestRow.found_at.desc(), PestRow.id))
    return [_finding(session, row, limits) for row in rows]


def exposure(session: Session, finding: Finding | PestRow, limits: Mapping[str, float]) -> Exposure:
    """Tanks and specimens that shared the water since it was found, less the days the shop looks back."""
    since = finding.found_at - timedelta(days=limits["pest_share_days"])
    return exposure_of(session, finding.tank_id, since, finding.cleared_at)


def exposed_list(session: Session, found: Exposure) -> list[Exposed]:
    """Every exposed specimen, those still here first, by name."""
    ids = list(found.specimens)
    rows = []
    for first in range(0, len(ids), 500):
        rows += session.execute(
            select(
                SpecimenRow.id, SpecimenRow.name, SpecimenRow.code, SpecimenRow.status, SpecimenRow.tank_id,
                SpecimenRow.rack_id, SpecimenRow.slot,
            ).where(SpecimenRow.id.in_(ids[first : first + 500]))
        ).all()  # fmt: skip
    told = [Exposed(*row, found.specimens[row.id]) for row in rows]
    return sorted(told, key=lambda one: (one.is_gone, one.name, one.code or "", one.id))


def by_place(session: Session, exposed: list[Exposed]) -> list[tuple[str, list[Exposed]]]:
    """The exposed where they are now: (tank and rack, those there, in the order of slots); '' holds those who left."""
    tanks = dict(session.execute(select(TankRow.id, TankRow.name)).all())
    racks = dict(session.execute(select(RackRow.id, RackRow.name)).all())
    places: dict[str, list[Exposed]] = defaultdict(list)
    for one in exposed:
        names = (tanks.get(one.tank_id or ""), racks.get(one.rack_id or ""))
        places["" if one.is_gone else ", ".join(filter(None, names)) or "no place"].append(one)
    for here in places.values():
        here.sort(key=lambda one: (one.slot[:1], len(one.slot), one.slot))
    return sorted(places.items(), key=lambda place: (place[0] == "", place[0]))


Marks = dict[str, list[tuple[str, str, bool]]]
#: What may change which water is exposed; anything else that happens leaves the marks as they are.
MATTERS = (
    "pest_found", "pest_looked", "pest_stop", "pest_cleared", "pest_back", "moved", "arrived", "born", "returned",
    "undone", "corrected", "tank_set", "tank_closed",
)  # fmt: skip


def exposed_tanks(session: Session) -> Marks:
    """Tanks whose water is exposed now: tank id -> (finding id, pest, whether sale stops)."""
    limits = load_thresholds(session)
    rows = session.scalars(
        select(PestRow).where(PestRow.cleared_at.is_(None)).order_by(PestRow.found_at, PestRow.id)
    ).all()
    all_tanks = frozenset(session.scalars(select(TankRow.id))) if rows else frozenset()
    marked: Marks = {}
    for row in rows:
        since = row.found_at - timedelta(days=limits["pest_share_days"])
        for tank_id in exposure_of(session, row.tank_id, since, None, all_tanks).tanks:
            marked.setdefault(tank_id, []).append((row.id, row.pest, row.stops_sale))
    return marked


def marked_tanks(session: Session, memory: Memory, revision: int) -> Marks:
    """As `exposed_tanks`, worked out again only when something happened that matters to it."""
    stamp = memory.get(revision, "marks stamp", lambda: _marks_stamp(session, memory))
    return memory.lasting(("marked tanks", stamp), lambda: exposed_tanks(session))


def _marks_stamp(session: Session, memory: Memory) -> tuple[int, float]:
    """The last event that matters, looked for among those that arrived since the last time; the days looked back."""
    seen = memory.lasting(("marks seen", ""), lambda: {"to": 0, "last": 0})
    newest = session.scalar(select(func.max(Event.seq))) or 0
    fresh = select(func.max(Event.seq)).where(Event.seq > seen["to"], Event.kind.in_(MATTERS))
    seen["last"] = max(seen["last"], session.scalar(fresh) or 0 if seen["to"] else newest)
    seen["to"] = max(seen["to"], newest)
    return seen["last"], load_thresholds(session)["pest_share_days"]


def stopped_tanks(session: Session, memory: Memory, revision: int) -> list[str]:
    """Tanks out of which nothing is sold now."""
    marked = marked_tanks(session, memory, revision)
    return sorted(tank for tank, found in marked.items() if any(stops for _id, _pest, stops in found))


def tank_temp_c(session: Session, tank_id: str) -> float:
    """The last temperature of a tank, 25 °C where none was read."""
    last = latest(session, tank_id).get(("temp", ""))
    return last.value if last else USUAL_TEMP_C


def _finding(session: Session, row: PestRow, limits: Mapping[str, float]) -> Finding:
    tank = session.get(TankRow, row.tank_id)
    temp_c = tank_temp_c(session, row.tank_id)
    last = datetime.fromisoformat(row.looks[-1][0]) if row.looks else row.found_at
    return Finding(
        row.id, row.pest, row.tank_id, tank.name if tank else "", row.specimen_id, row.found_at, row.cleared_at,
        row.stops_sale, row.note, row.photo_id, row.looks, row.treatments,
        last + timedelta(days=limits["pest_check_days"]), gone_rule(row, limits, temp_c), temp_c,
    )  # fmt: skip


def gone_rule(row: PestRow, limits: Mapping[str, float], temp_c: float) -> RuleState:
    """May it count as gone: clean looks a week apart, and one of them after eggs laid before have hatched."""
    looks = [{"at": at, "pest_free": clean} for at, clean, _tank in row.looks]
    count = clean_looks(looks, limits["pest_check_days"])
    counted = {"count": count, "needed": limits["pest_clear_checks"], "gap": limits["pest_check_days"]}
    conditions = [Condition("clean", count >= limits["pest_clear_checks"], counted)]
    if row.pest in LAYS_EGGS:
        seen = max([row.found_at, *(moment(look) for look in looks if not look["pest_free"])])
        days = stretched_days(limits["hatch_days_27"], temp_c)
        hatched = seen + timedelta(days=days)
        looked = any(look["pest_free"] and moment(look) >= hatched for look in looks)
        conditions.append(Condition("after_hatch", looked, {"days": days, "temp": temp_c, "until": hatched}))
    return RuleState(tuple(conditions))
