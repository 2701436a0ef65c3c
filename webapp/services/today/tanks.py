"""What tanks need: water within what lives there, readings, food."""

from collections import defaultdict
from datetime import datetime, timedelta

from sqlalchemy import literal, select, union_all
from sqlalchemy.orm import aliased

from webapp.fit.profile import Profile
from webapp.services.readings import LOGGED
from webapp.services.tank_water import HERE, alarms, out_of_range, runs
from webapp.services.today.day import Day, Due, Found, days_since
from webapp.storage.care import TendingRow
from webapp.storage.place import ReadingRow, TankRow
from webapp.storage.shop import ProfileRow
from webapp.storage.specimen import SpecimenRow as S

FED = {"lps": "feed_lps_days", "corallimorph": "feed_mushroom_days"}
LOOK_BACK = timedelta(days=90)
_Last = dict[str, tuple[datetime, float]]


def alarm(day: Day) -> Found:
    """The last reading of a tank where something lives is hot, warm, cold, or shows ammonia."""
    due = []
    kinds = kinds_of_tanks(day)
    for tank_id, name in _tanks(day):
        last = _last(day).get(tank_id, {})
        runs_of_one = {key: [(at.timestamp(), value)] for key, (at, value) in last.items()}
        codes = alarms(runs_of_one, day.limits) if kinds.get(tank_id) else []
        for code in codes:
            at, value = last["ammonia" if code == "ammonia" else "temp"]
            due.append(
                Due("tank", tank_id, name, values={"code": code, "value": value, "hours": days_since(day, at) * 24})
            )
    return Found("alarm", tuple(due))


def out(day: Day) -> Found:
    """The last reading of a tank lies outside the limits of a kind that lives there: whose, and since when."""
    due = []
    kinds = kinds_of_tanks(day)
    for tank_id, name in _tanks(day):
        last = _last(day).get(tank_id, {})
        here = kinds.get(tank_id, [])
        if not out_of_range(here, {key: [(at.timestamp(), value)] for key, (at, value) in last.items()}):
            continue
        told = defaultdict(list)
        for one in out_of_range(here, runs(day.session, tank_id, day.now - LOOK_BACK)):
            told[one.quantity].append(one)
        for quantity, all_of_it in told.items():
            first = min(all_of_it, key=lambda one: one.since)
            values = {
                "quantity": quantity, "value": first.value, "days": days_since(day, first.since), "kind": first.name,
                "others": len(all_of_it) - 1, "low": first.limit_low, "high": first.limit_high,
            }  # fmt: skip
            due.append(Due("tank", tank_id, name, values=values))
    return Found("out", tuple(due))


def read_water(day: Day) -> Found:
    """A tank where something lives whose water was not read for `reading_due_days`."""
    due = []
    kinds, since = kinds_of_tanks(day), day.before("reading_due_days")
    for tank_id, name in _tanks(day):
        last = max((at for at, _value in _last(day).get(tank_id, {}).values()), default=None)
        if kinds.get(tank_id) and (last is None or last <= since):
            due.append(Due("tank", tank_id, name, values={"days": None if last is None else days_since(day, last)}))
    return Found("read_water", tuple(due))


def feed(day: Day) -> Found:
    """A tank with large-polyp corals or mushrooms that was not fed for as long as the shop lets them wait."""
    kinds = kinds_of_tanks(day)
    last_fed = (
        select(TendingRow.done_at)
        .where(TendingRow.tank_id == TankRow.id, TendingRow.kind == "fed")
        .order_by(TendingRow.done_at.desc())
        .limit(1)
        .correlate(TankRow)
        .scalar_subquery()
    )
    fed = dict(day.session.execute(select(TankRow.id, last_fed)).all())
    due = []
    for tank_id, name in _tanks(day):
        waits = [(day.limits[FED[kind.group]], kind.group) for kind in kinds.get(tank_id, []) if kind.group in FED]
        last = fed.get(tank_id)
        if waits and (last is None or days_since(day, last) >= min(waits)[0]):
            days = None if last is None else days_since(day, last)
            due.append(Due("tank", tank_id, name, values={"group": min(waits)[1], "days": days}))
    return Found("feed", tuple(due))


def _tanks(day: Day) -> list[tuple[str, str]]:
    return day.memory.get(
        day.revision, "today tanks",
        lambda: [tuple(row) for row in day.session.execute(
            select(TankRow.id, TankRow.name).where(TankRow.closed_at.is_(None)).order_by(TankRow.name, TankRow.id)
        )],
    )  # fmt: skip


def kinds_of_tanks(day: Day) -> dict[str, list[Profile]]:
    """The kinds that live in each tank: one look-up in the index for each pair of tank and kind, in one query."""

    def read() -> dict[str, list[Profile]]:
        keys = select(ProfileRow.key).distinct().subquery()
        plug = aliased(S)
        lives = select(plug.id).where(
            plug.tank_id == TankRow.id, plug.profile_key == keys.c.key, plug.status.in_(HERE)
        ).correlate(TankRow, keys).exists()  # fmt: skip
        found: dict[str, list[Profile]] = defaultdict(list)
        for tank_id, key in day.session.execute(
            select(TankRow.id, keys.c.key).join(keys, literal(True)).where(TankRow.closed_at.is_(None), lives)
        ):
            found[tank_id].append(day.profiles[key])
        return dict(found)

    return day.memory.get(day.revision, "today kinds", read)


def _last(day: Day) -> dict[str, _Last]:
    """The last reading of each quantity of each tank: one look-up in the index for each pair, in one query."""

    def read() -> dict[str, _Last]:
        quantities = union_all(*(select(literal(key).label("key")) for key in LOGGED)).subquery()
        reading = aliased(ReadingRow)
        newest = (
            select(reading.id)
            .where(reading.tank_id == TankRow.id, reading.quantity == quantities.c.key, reading.rack_id == "")
            .order_by(reading.taken_at.desc(), reading.id.desc())
            .limit(1)
            .correlate(TankRow, quantities)
            .scalar_subquery()
        )
        pairs = select(newest.label("id")).select_from(TankRow).join(quantities, literal(True)).subquery()
        found: dict[str, _Last] = defaultdict(dict)
        for row in day.session.execute(
            select(ReadingRow.tank_id, ReadingRow.quantity, ReadingRow.taken_at, ReadingRow.value).join(
                pairs, pairs.c.id == ReadingRow.id
            )
        ):
            found[row.tank_id][row.quantity] = (row.taken_at, row.value)
        return dict(found)

    return day.memory.get(day.revision, "today last readings", read)
