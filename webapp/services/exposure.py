"""Who shared water with a pest: through the tank where it was found, and through whatever was moved out of it since."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from heapq import heappop, heappush
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.storage.specimen import SpecimenRow

Lived = Sequence[Sequence[Any]]
_NEVER = datetime.max.replace(tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Exposure:
    """Since when each tank and each specimen counts as exposed, by id."""

    tanks: dict[str, datetime]
    specimens: dict[str, datetime]


def spread(
    tank_id: str,
    since: datetime,
    until: datetime | None,
    homes: Callable[[str, datetime], Iterable[tuple[str, Lived]]],
    all_tanks: frozenset[str] = frozenset(),
) -> Exposure:
    """Follow the water from one tank. `homes(tank, since)`: (id, lived) of at least what lived in `tank` after `since`.

    What lived in exposed water is exposed from then on, as is every tank it was moved into before `until` (None: now).
    Where only the tanks matter, `all_tanks` names all there are: it stops when each of them is exposed.
    """
    tanks, specimens = {tank_id: since}, {}
    waiting = [(since, tank_id)]
    while waiting and not (all_tanks and all_tanks <= tanks.keys()):
        began, tank = heappop(waiting)
        if began > tanks[tank]:
            continue
        for specimen_id, lived in homes(tank, began):
            met = _met(lived, tank, began, until)
            if met is None or met >= specimens.get(specimen_id, _NEVER):
                continue
            specimens[specimen_id] = met
            for home, start in _moved_into(lived, met, until):
                if start < tanks.get(home, _NEVER):
                    tanks[home] = start
                    heappush(waiting, (start, home))
    return Exposure(tanks, specimens)


def exposure_of(
    session: Session,
    tank_id: str,
    since: datetime,
    until: datetime | None = None,
    all_tanks: frozenset[str] = frozenset(),
) -> Exposure:
    """The exposure that a finding in a tank brings about. `all_tanks`: as in `spread`."""
    lives = select(SpecimenRow.id, SpecimenRow.lived)
    moved: dict[str, list[tuple[str, Lived]]] = {}  # whoever did anything since, by every tank it lived in since
    for row in session.execute(lives.where(SpecimenRow.last_event_at >= since)):
        for home in {home[0] for home in row.lived if home[3] is None or datetime.fromisoformat(home[3]) > since}:
            moved.setdefault(home, []).append((row.id, row.lived))

    def homes(tank: str, _began: datetime) -> Iterable[tuple[str, Lived]]:
        rested = lives.where(SpecimenRow.tank_id == tank, SpecimenRow.last_event_at < since)
        return [*moved.get(tank, ()), *((row.id, row.lived) for row in session.execute(rested))]

    return spread(tank_id, since, until, homes, all_tanks)


def _met(lived: Lived, tank: str, began: datetime, until: datetime | None) -> datetime | None:
    """When it first was in this tank at or after `began`."""
    for home, _rack, start, end in lived:
        if home == tank and (end is None or datetime.fromisoformat(end) > began):
            met = max(datetime.fromisoformat(start), began)
            return met if until is None or met < until else None
    return None


def _moved_into(lived: Lived, met: datetime, until: datetime | None) -> Iterable[tuple[str, datetime]]:
    for home, _rack, start, _end in lived:
        at = datetime.fromisoformat(start)
        if at >= met and (until is None or at < until):
            yield home, at
