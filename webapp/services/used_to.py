"""What a specimen is used to here: medians and spreads of the water, light and flow of the places it has lived in."""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.fit.specimen import UsedTo
from webapp.services.memory import Memory
from webapp.storage.place import ReadingRow, TankRow

#: reading quantity -> factor of a profile
FACTORS = {
    "temp": "temp", "salinity": "salinity", "alk": "alk", "ca": "ca", "mg": "mg", "ph": "ph", "no3": "no3",
    "po4": "po4", "par": "par", "flow_speed": "flow",
}  # fmt: skip
#: Quantities that are those of a rack, not of its tank.
OF_RACK = frozenset({"par", "flow_speed"})
#: rack or '' -> quantity -> moments in seconds since 1970, which are compared far quicker than datetimes, and values.
_Series = dict[str, dict[str, tuple[list[float], list[float]]]]
#: Readings of one quantity in one place while something lived there: (tank, rack or '', first, last).
_Piece = tuple[str, str, int, int]


def used_to(
    session: Session, memory: Memory, revision: int, lived: Sequence[Sequence[Any]], now: datetime
) -> dict[str, UsedTo]:
    """Per factor, over the days lived here. `lived`: homes as in SpecimenRow. Light and flow are those of the rack.

    Each reading taken while it lived there counts once. A quantity nobody read while it lived there is left out.
    """
    pieces: dict[str, list[_Piece]] = defaultdict(list)
    days = 0.0
    for tank_id, rack_id, start_text, end_text in lived:
        start, end = datetime.fromisoformat(start_text), datetime.fromisoformat(end_text) if end_text else now
        days += (end - start).total_seconds() / 86400
        first_s, last_s = start.timestamp(), end.timestamp()
        series = _series(session, memory, revision, tank_id)
        for rack in ("", rack_id) if rack_id else ("",):
            for quantity, (times, _values) in series.get(rack, {}).items():
                first, last = bisect_left(times, first_s), bisect_right(times, last_s)
                if last > first:
                    pieces[quantity].append((tank_id, rack, first, last))
    return _summaries(session, memory, revision, pieces, days)


def water_since(
    session: Session, memory: Memory, revision: int, tank_id: str, quantity: str, since: datetime
) -> list[tuple[datetime, float]]:
    """(moment, value) of a tank's readings of one quantity since a moment, canonical unit, oldest first."""
    times, values = _series(session, memory, revision, tank_id).get("", {}).get(quantity, ([], []))
    first = bisect_left(times, since.timestamp())
    return [(datetime.fromtimestamp(at, UTC), value) for at, value in zip(times[first:], values[first:], strict=True)]


def light_hours(session: Session, memory: Memory, revision: int, tank_id: str | None) -> float | None:
    """Hours of light a day in a tank, as the shop set them."""
    if tank_id is None:
        return None
    hours = memory.get(
        revision, "light hours", lambda: dict(session.execute(select(TankRow.id, TankRow.light_hours)).all())
    )
    return hours.get(tank_id)


def _summaries(
    session: Session, memory: Memory, revision: int, pieces: dict[str, list[_Piece]], days: float
) -> dict[str, UsedTo]:
    found, days = {}, round(days, 1)
    for quantity, where in pieces.items():
        key = ("used to", quantity, *where)
        median, low, high, count = memory.get(
            revision, key, lambda q=quantity, w=where: _summary(session, memory, revision, q, w)
        )
        found[FACTORS[quantity]] = UsedTo(median, low, high, count, days)
    return found


def _summary(
    session: Session, memory: Memory, revision: int, quantity: str, pieces: list[_Piece]
) -> tuple[float, float, float, int]:
    values: list[float] = []
    for tank_id, rack, first, last in pieces:
        values += _series(session, memory, revision, tank_id)[rack][quantity][1][first:last]
    values.sort()
    return quantile(values, 0.5), quantile(values, 0.1), quantile(values, 0.9), len(values)


def quantile(ordered: Sequence[float], share: float) -> float:
    """The value below which `share` of a sorted list lies, linear between neighbours (type 7).

    Source: hyndman_fan_1996.
    """
    place = (len(ordered) - 1) * share
    below = int(place)
    above = min(below + 1, len(ordered) - 1)
    return ordered[below] + (ordered[above] - ordered[below]) * (place - below)


def _series(session: Session, memory: Memory, revision: int, tank_id: str) -> _Series:
    return memory.get(revision, ("series", tank_id), lambda: _read_series(session, tank_id))


def _read_series(session: Session, tank_id: str) -> _Series:
    rows = session.execute(
        select(ReadingRow.rack_id, ReadingRow.quantity, ReadingRow.taken_at, ReadingRow.value)
        .where(ReadingRow.tank_id == tank_id, ReadingRow.quantity.in_(FACTORS))
        .order_by(ReadingRow.taken_at)
    )
    series: _Series = {}
    for rack_id, quantity, taken_at, value in rows:
        if bool(rack_id) == (quantity in OF_RACK):
            times, values = series.setdefault(rack_id, {}).setdefault(quantity, ([], []))
            times.append(taken_at.timestamp())
            values.append(value)
    return series
