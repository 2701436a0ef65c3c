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
#: (rack or '', quantity) -> moments in seconds since 1970, which are compared far quicker than datetimes, and values.
_Series = dict[tuple[str, str], tuple[list[float], list[float]]]


def used_to(
    session: Session, memory: Memory, revision: int, lived: Sequence[Sequence[Any]], now: datetime
) -> dict[str, UsedTo]:
    """Per factor, over the days lived here. `lived`: homes as in SpecimenRow. Light and flow are those of the rack.

    Each reading taken while it lived there counts once. A quantity nobody read while it lived there is left out.
    """
    spans: dict[tuple[str, str, str], list[tuple[int, int]]] = defaultdict(list)
    days = 0.0
    for tank_id, rack_id, start_text, end_text in lived:
        start, end = datetime.fromisoformat(start_text), datetime.fromisoformat(end_text) if end_text else now
        days += (end - start).total_seconds() / 86400
        first_s, last_s = start.timestamp(), end.timestamp()
        for (rack, quantity), (times, _values) in _series(session, memory, revision, tank_id).items():
            if (rack == rack_id and rack) if quantity in OF_RACK else not rack:
                first, last = bisect_left(times, first_s), bisect_right(times, last_s)
                if last > first:
                    spans[tank_id, rack, quantity].append((first, last))
    return _summaries(session, memory, revision, spans, days)


def water_since(
    session: Session, memory: Memory, revision: int, tank_id: str, quantity: str, since: datetime
) -> list[tuple[datetime, float]]:
    """(moment, value) of a tank's readings of one quantity since a moment, canonical unit, oldest first."""
    times, values = _series(session, memory, revision, tank_id).get(("", quantity), ([], []))
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
    session: Session,
    memory: Memory,
    revision: int,
    spans: dict[tuple[str, str, str], list[tuple[int, int]]],
    days: float,
) -> dict[str, UsedTo]:
    by_quantity: dict[str, list[tuple[str, str, int, int]]] = defaultdict(list)
    for (tank_id, rack, quantity), pieces in spans.items():
        by_quantity[quantity].extend((tank_id, rack, first, last) for first, last in pieces)
    found = {}
    for quantity, pieces in by_quantity.items():
        key = ("used to", quantity, tuple(pieces))
        median, low, high, count = memory.get(
            revision, key, lambda q=quantity, p=pieces: _summary(session, memory, revision, q, p)
        )
        found[FACTORS[quantity]] = UsedTo(median, low, high, count, round(days, 1))
    return found


def _summary(
    session: Session, memory: Memory, revision: int, quantity: str, pieces: list[tuple[str, str, int, int]]
) -> tuple[float, float, float, int]:
    values: list[float] = []
    for tank_id, rack, first, last in pieces:
        values += _series(session, memory, revision, tank_id)[rack, quantity][1][first:last]
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
    series: _Series = defaultdict(lambda: ([], []))
    for rack_id, quantity, taken_at, value in rows:
        times, values = series[rack_id, quantity]
        times.append(taken_at.timestamp())
        values.append(value)
    return dict(series)
