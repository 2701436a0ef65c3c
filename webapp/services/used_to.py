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
#: rack or '' -> runs: moments in seconds since 1970, which are compared far quicker than datetimes, and the values of
#: each quantity read at just those moments. Most are: a set of readings is logged together.
_Series = dict[str, list[tuple[tuple[float, ...], dict[str, list[float]]]]]


def used_to(
    session: Session, memory: Memory, revision: int, lived: Sequence[Sequence[Any]], now: datetime
) -> dict[str, UsedTo]:
    """Per factor, over the days lived here. `lived`: homes as in SpecimenRow. Light and flow are those of the rack.

    Each reading taken while it lived there counts once. A quantity nobody read while it lived there is left out.
    """
    spans = [
        (datetime.fromisoformat(start).timestamp(), datetime.fromisoformat(end).timestamp() if end else now.timestamp())
        for _tank, _rack, start, end in lived
    ]
    days = round(sum(last_s - first_s for first_s, last_s in spans) / 86400, 1)
    key = ("used to", days, *map(tuple, lived))  # what was cut and placed together is used to the same
    return memory.get(revision, key, lambda: _summaries(session, memory, revision, lived, spans, days))


def water_since(
    session: Session, memory: Memory, revision: int, tank_id: str, quantity: str, since: datetime
) -> list[tuple[datetime, float]]:
    """(moment, value) of a tank's readings of one quantity since a moment, canonical unit, oldest first."""
    for times, quantities in _series(session, memory, revision, tank_id).get("", ()):
        if quantity in quantities:
            first = bisect_left(times, since.timestamp())
            pairs = zip(times[first:], quantities[quantity][first:], strict=True)
            return [(datetime.fromtimestamp(at, UTC), value) for at, value in pairs]
    return []


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
    lived: Sequence[Sequence[Any]],
    spans: Sequence[tuple[float, float]],
    days: float,
) -> dict[str, UsedTo]:
    found: dict[str, list[float]] = defaultdict(list)
    for (tank_id, rack_id, _start, _end), (first_s, last_s) in zip(lived, spans, strict=True):
        series = _series(session, memory, revision, tank_id)
        for rack in ("", rack_id) if rack_id else ("",):
            for times, quantities in series.get(rack, ()):
                first, last = bisect_left(times, first_s), bisect_right(times, last_s)
                if last > first:
                    for quantity, values in quantities.items():
                        found[quantity] += values[first:last]
    return {FACTORS[quantity]: _summary(values, days) for quantity, values in found.items()}


def _summary(values: list[float], days: float) -> UsedTo:
    values.sort()
    low, median, high = quantiles(values, (0.1, 0.5, 0.9))
    return UsedTo(median, low, high, len(values), days)


def quantiles(ordered: Sequence[float], shares: Sequence[float]) -> list[float]:
    """The values below which these shares of a sorted list lie, linear between neighbours (type 7).

    Source: hyndman_fan_1996.
    """
    last, found = len(ordered) - 1, []
    for share in shares:
        place = last * share
        below = int(place)
        value = ordered[below]
        found.append(value + (ordered[below + 1] - value) * (place - below) if below < last else value)
    return found


def _series(session: Session, memory: Memory, revision: int, tank_id: str) -> _Series:
    return memory.get(revision, ("series", tank_id), lambda: _read_series(session, tank_id))


def _read_series(session: Session, tank_id: str) -> _Series:
    rows = session.execute(
        select(ReadingRow.rack_id, ReadingRow.quantity, ReadingRow.taken_at, ReadingRow.value)
        .where(ReadingRow.tank_id == tank_id, ReadingRow.quantity.in_(FACTORS))
        .order_by(ReadingRow.taken_at)
    )
    read: dict[tuple[str, str], list[tuple[float, float]]] = defaultdict(list)
    for rack_id, quantity, taken_at, value in rows:
        if bool(rack_id) == (quantity in OF_RACK):
            read[rack_id, quantity].append((taken_at.timestamp(), value))
    runs: dict[tuple[str, tuple[float, ...]], dict[str, list[float]]] = defaultdict(dict)
    for (rack_id, quantity), pairs in read.items():
        runs[rack_id, tuple(at for at, _value in pairs)][quantity] = [value for _at, value in pairs]
    series: _Series = defaultdict(list)
    for (rack_id, times), quantities in runs.items():
        series[rack_id].append((times, quantities))
    return dict(series)
