"""What racks need: their light read and right for what stands there, and counting."""

from datetime import datetime
from typing import Any

from sqlalchemy import Select, func, or_, select
from sqlalchemy.orm import aliased

from webapp.fit.profile import Profile
from webapp.services.tank_water import HERE
from webapp.services.today.day import CAP, Day, Due, Found, days_since
from webapp.services.today.tanks import kinds_of_tanks
from webapp.storage.place import RackRow, ReadingRow, TankRow
from webapp.storage.specimen import SpecimenRow as S


def read_light(day: Day) -> Found:
    """A rack with something on it whose light was not read for `rack_par_days`."""
    reading = aliased(ReadingRow)
    last = (
        select(func.max(reading.taken_at))
        .where(reading.tank_id == RackRow.tank_id, reading.quantity == "par", reading.rack_id == RackRow.id)
        .correlate(RackRow)
        .scalar_subquery()
    )
    rows = day.session.execute(_racks().add_columns(last.label("last"))).all()
    due = [
        Due(
            "rack",
            row.id,
            f"{row.tank}, {row.name}",
            values={"days": None if row.last is None else days_since(day, row.last)},
        )
        for row in rows
        if row.last is None or row.last <= day.before("rack_par_days")
    ]
    return Found("read_light", tuple(due))


def move_rack(day: Day) -> Found:
    """A rack whose last light reading lies outside what a kind that stands on it does well in; none in quarantine,
    where everything has to bear the same lamp."""
    reading = aliased(ReadingRow)
    newest = (
        select(reading.id)
        .where(reading.tank_id == RackRow.tank_id, reading.quantity == "par", reading.rack_id == RackRow.id)
        .order_by(reading.taken_at.desc(), reading.id.desc())
        .limit(1)
        .correlate(RackRow)
        .scalar_subquery()
    )
    query = _racks().join(ReadingRow, ReadingRow.id == newest).add_columns(ReadingRow.value, RackRow.tank_id)
    lives, due = kinds_of_tanks(day), []
    query = query.where(TankRow.purpose != "quarantine")
    for row in day.session.execute(query.limit(CAP)):
        suspects = {kind.key: kind for kind in lives.get(row.tank_id, ()) if _is_outside(kind, row.value)}
        stand = _standing(day, row, list(suspects)) if suspects else {}
        if stand:
            due.append(_to_move(row, [(suspects[key], count) for key, count in stand.items()]))
    return Found("move_rack", tuple(due))


def count_racks(day: Day) -> Found:
    """A rack with something on it that was not counted for `count_rack_days`."""
    rows = day.session.execute(_racks().add_columns(RackRow.counted_at)).all()
    due = [
        Due("rack", row.id, f"{row.tank}, {row.name}",
            values={"days": None if row.counted_at is None else days_since(day, row.counted_at)})
        for row in rows
        if row.counted_at is None or row.counted_at <= day.before("count_rack_days")
    ]  # fmt: skip
    return Found("count_racks", tuple(due))


def count_gap(day: Day) -> Found:
    """A rack whose last count, less than `count_rack_days` ago, missed more than `recount_pct`."""
    rows = day.session.execute(
        _racks().add_columns(RackRow.counted_expected, RackRow.counted_missing).where(
            RackRow.counted_at > day.before("count_rack_days"), RackRow.counted_expected > 0
        )
    ).all()  # fmt: skip
    due = []
    for row in rows:
        pct = 100 * row.counted_missing / row.counted_expected
        if pct > day.limits["recount_pct"]:
            values = {"pct": pct, "missing": row.counted_missing, "expected": row.counted_expected,
                      "investigate": pct > day.limits["investigate_pct"]}  # fmt: skip
            due.append(Due("rack", row.id, f"{row.tank}, {row.name}", values=values))
    return Found("count_gap", tuple(due))


def count_all(day: Day) -> Found:
    """Some place of the shop was not counted for `count_all_days`: one entry for all of them.

    A place is a rack with something on it, or what stands in a tank on no rack.
    """
    since = day.before("count_all_days")
    racks = day.session.execute(_racks().add_columns(RackRow.counted_at, RackRow.opened_at)).all()
    waits = [row.counted_at for row in racks if (row.counted_at or row.opened_at) <= since]
    loose = day.session.execute(_loose(since)).all()
    waits += [row.seen for row in loose]
    if not waits:
        return Found("count_all", ())
    known = [at for at in waits if at is not None]
    oldest = min(known) if len(known) == len(waits) else None
    values = {"places": len(waits), "days": None if oldest is None else days_since(day, oldest)}
    return Found("count_all", (Due("count", "", "", values=values),))


def _racks() -> Select:
    """Open racks with something on them."""
    plug = aliased(S)
    stands = (
        select(plug.id)
        .where(plug.tank_id == RackRow.tank_id, plug.rack_id == RackRow.id, plug.status.in_(HERE))
        .correlate(RackRow)
        .exists()
    )
    return (
        select(RackRow.id, RackRow.name, TankRow.name.label("tank"))
        .join(TankRow, TankRow.id == RackRow.tank_id)
        .where(RackRow.closed_at.is_(None), stands)
        .order_by(TankRow.name, RackRow.name, RackRow.id)
    )


def _loose(since: datetime) -> Select:
    """For each tank with something on no rack that was here then, in no count and in the same state since: when one of
    them was seen last."""
    return (
        select(TankRow.id, func.min(S.seen_at).label("seen"))
        .join(S, S.tank_id == TankRow.id)
        .where(
            TankRow.closed_at.is_(None), S.rack_id.is_(None), S.status.in_(HERE), S.status_since <= since,
            S.missing_since.is_(None), or_(S.seen_at.is_(None), S.seen_at <= since),
        )
        .group_by(TankRow.id)
    )  # fmt: skip


def _standing(day: Day, rack: Any, keys: list[str]) -> dict[str, int]:
    """How many of each of these kinds stand on a rack."""
    query = (
        select(S.profile_key, func.count())
        .where(S.tank_id == rack.tank_id, S.rack_id == rack.id, S.status.in_(HERE), S.profile_key.in_(keys))
        .group_by(S.profile_key)
    )
    return {row[0]: row[1] for row in day.session.execute(query)}


def _is_outside(kind: Profile, par: float) -> bool:
    band = kind.bands.get("par")
    return band is not None and not band.ideal_low <= par <= band.ideal_high


def _to_move(rack: Any, stand: list[tuple[Profile, int]]) -> Due:
    """The worst of them, by how many times too dark or too bright it is."""

    def times(kind: Profile) -> float:
        band = kind.bands["par"]
        return max(band.ideal_low / max(rack.value, 1.0), rack.value / max(band.ideal_high, 1.0))

    worst = max(stand, key=lambda one: (times(one[0]), one[0].key))[0]
    band = worst.bands["par"]
    values = {
        "par": rack.value, "kind": worst.trade_name, "low": band.ideal_low, "high": band.ideal_high,
        "plugs": sum(count for _kind, count in stand), "dark": rack.value < band.ideal_low,
    }  # fmt: skip
    return Due("rack", rack.id, f"{rack.tank}, {rack.name}", values=values)
