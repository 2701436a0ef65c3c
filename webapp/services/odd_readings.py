"""Readings to be asked about before they are kept: unusual for any reef tank, or far from the last ones here."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from statistics import median
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.fit.methods import METHODS, method_for
from webapp.science.units import QUANTITIES, to_canonical
from webapp.storage.place import ReadingRow

#: How many of the last readings are looked at; fewer than this many say little of the spread.
LAST, FEWEST = 12, 4
#: A median absolute deviation is this much smaller than the standard deviation of a normal law.
MAD_TO_SD = 1.4826
#: Error of light and flow readings by hand, share of the value (common practice).
AT_RACK_ERROR = 0.1


@dataclass(frozen=True, slots=True)
class Odd:
    """Why a reading is asked about. why: 'unusual' or 'far'; low, high: what is usual, canonical unit."""

    why: str
    value: float
    low: float
    high: float


def odd_reading(session: Session, tank_id: str, reading: Mapping[str, Any], spreads: float) -> Odd | None:
    """What is odd about a reading (as the payload of 'reading'), or None. spreads: how many spreads count as far.

    A value that cannot be converted is not odd: it is refused where it is recorded.
    """
    quantity = QUANTITIES[reading["quantity"]]
    try:
        value = to_canonical(quantity.name, reading["value"], reading["unit"])
    except ValueError:
        return None
    low, high = quantity.plausible
    if not low <= value <= high:
        return Odd("unusual", value, low, high)
    last = _last_values(session, tank_id, quantity.name, reading.get("rack_id") or "")
    usual = usual_range(last, quantity.name, reading.get("method", ""), spreads)
    return Odd("far", value, *usual) if usual and not usual[0] <= value <= usual[1] else None


def usual_range(last: Sequence[float], quantity: str, method: str, spreads: float) -> tuple[float, float] | None:
    """What is usual after these last readings, canonical unit; None when there are none.

    The median and so many robust standard deviations either side (Iglewicz and Hoaglin 1993), never narrower than the
    error of the method: with fewer than four readings that error is all there is.
    """
    if not last:
        return None
    middle = median(last)
    error = method_for(quantity, method)[0].half_range(middle) if quantity in METHODS else AT_RACK_ERROR * middle
    spread = MAD_TO_SD * median(abs(value - middle) for value in last) if len(last) >= FEWEST else 0.0
    reach = spreads * max(spread, error / 2)
    return middle - reach, middle + reach


def _last_values(session: Session, tank_id: str, quantity: str, rack_id: str) -> list[float]:
    return list(
        session.scalars(
            select(ReadingRow.value)
            .where(ReadingRow.tank_id == tank_id, ReadingRow.quantity == quantity, ReadingRow.rack_id == rack_id)
            .order_by(ReadingRow.taken_at.desc())
            .limit(LAST)
        )
    )
