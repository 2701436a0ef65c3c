"""The water of a tank against what lives in it: bands, the run of each quantity, who is out of range and since when."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import groupby
from operator import itemgetter

from sqlalchemy import Double, func, select
from sqlalchemy.orm import Session

from webapp.fit.profile import Band, Profile
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.readings import LOGGED
from webapp.storage.place import ReadingRow
from webapp.storage.specimen import SpecimenRow

HERE = ("quarantine", "healing", "for_sale", "mother", "kept")


@dataclass(frozen=True, slots=True)
class Shared:
    """What everything that lives in a tank bears and does well in, canonical unit; ideal None where none is shared."""

    limit_low: float
    limit_high: float
    ideal: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class OutOfRange:
    """A kind whose limits the last reading is outside of. since: the first reading of the run that lies outside."""

    quantity: str
    value: float
    profile_key: str
    name: str
    limit_low: float
    limit_high: float
    since: datetime


#: (seconds since 1970, value in the canonical unit), oldest first. Numbers, for charts have many of them.
Run = list[tuple[float, float]]
_EPOCH_DAY, _DAY_S = 2440587.5, 86400.0


def kinds_in(session: Session, memory: Memory, revision: int, tank_id: str) -> list[Profile]:
    """The kinds that live in a tank now; read from an index alone, so that a full tank costs little more."""

    def read() -> list[Profile]:
        profiles = newest_profiles(session, memory, revision)
        query = (
            select(SpecimenRow.profile_key)
            .where(SpecimenRow.tank_id == tank_id, SpecimenRow.status.in_(HERE))
            .distinct()
        )
        return [profiles[key] for key in sorted(session.scalars(query))]

    return memory.get(revision, ("kinds in", tank_id), read)


def bands_in(session: Session, memory: Memory, revision: int, tank_id: str) -> dict[str, Shared]:
    """What everything that lives in a tank shares, by factor."""
    return memory.get(
        revision, ("bands in", tank_id), lambda: shared_bands(kinds_in(session, memory, revision, tank_id))
    )


def shared_bands(kinds: list[Profile]) -> dict[str, Shared]:
    """Per factor the limits and the ideal that all these kinds share."""
    found = {}
    for factor in {factor for kind in kinds for factor in kind.bands}:
        bands = [kind.bands[factor] for kind in kinds if factor in kind.bands]
        low, high = max(band.ideal_low for band in bands), min(band.ideal_high for band in bands)
        found[factor] = Shared(
            max(band.limit_low for band in bands),
            min(band.limit_high for band in bands),
            (low, high) if low <= high else None,
        )
    return found


def runs(session: Session, tank_id: str, since: datetime) -> dict[str, Run]:
    """Every reading of the whole tank since a moment, by quantity in the order of the form, oldest first."""
    seconds = (func.julianday(ReadingRow.taken_at, type_=Double) - _EPOCH_DAY) * _DAY_S
    rows = session.connection().execute(  # plain rows: there are many of them
        select(ReadingRow.quantity, seconds, ReadingRow.value)
        .where(
            ReadingRow.tank_id == tank_id,
            ReadingRow.rack_id == "",
            ReadingRow.quantity.in_(LOGGED),
            ReadingRow.taken_at >= since,
        )
        .order_by(ReadingRow.quantity, ReadingRow.taken_at)
    ).all()
    found = {
        quantity: [(at, value) for _quantity, at, value in part] for quantity, part in groupby(rows, itemgetter(0))
    }
    return {quantity: found[quantity] for quantity in LOGGED if quantity in found}


def out_of_range(kinds: list[Profile], found: Mapping[str, Run]) -> list[OutOfRange]:
    """Every kind whose limits the last reading of a quantity lies outside of, and since when all readings have."""
    told = []
    for quantity, run in found.items():
        for kind in kinds:
            band = kind.bands.get(quantity)
            if band is None or _within(band, run[-1][1]):
                continue
            since = run[-1][0]
            for taken_at, value in reversed(run):
                if _within(band, value):
                    break
                since = taken_at
            told.append(
                OutOfRange(
                    quantity, run[-1][1], kind.key, kind.trade_name, band.limit_low, band.limit_high,
                    datetime.fromtimestamp(since, UTC),
                )
            )  # fmt: skip
    return told


def alarms(found: Mapping[str, Run], limits: Mapping[str, float]) -> list[str]:
    """Codes of what the last readings call for: 'hot', 'warm', 'cold', 'ammonia'."""
    codes = []
    temp = found["temp"][-1][1] if "temp" in found else None
    if temp is not None and temp >= limits["heat_warn_c"]:
        codes.append("hot" if temp >= limits["heat_act_c"] else "warm")
    if temp is not None and temp < limits["cold_warn_c"]:
        codes.append("cold")
    if "ammonia" in found and found["ammonia"][-1][1] > limits["ammonia_stop_mg_l_n"]:
        codes.append("ammonia")
    return codes


def _within(band: Band, value: float) -> bool:
    return band.limit_low <= value <= band.limit_high
