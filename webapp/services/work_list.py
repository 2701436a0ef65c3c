"""Everything that stands in the shop, in short rows that a phone keeps for when there is no signal."""

from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.services import places
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow, TagRow

#: The columns of `specimens`, in order.
COLUMNS = ("id", "code", "name", "status", "tank_id", "rack_id", "slot", "price_cents", "profile", "held")
#: So many of those that left last are listed too: their tags come back over the counter.
MOST_GONE = 400


def work_list(session: Session) -> dict[str, Any]:
    """specimens: rows of COLUMNS of what stands here; gone: the same of what left last; racks and tanks with what a
    slot map needs; blank: codes of tags bound to nothing."""
    columns = select(
        SpecimenRow.id, SpecimenRow.code, SpecimenRow.name, SpecimenRow.status, SpecimenRow.tank_id,
        SpecimenRow.rack_id, SpecimenRow.slot, SpecimenRow.price_cents, SpecimenRow.profile_key, SpecimenRow.held_until,
    )  # fmt: skip
    here = columns.where(SpecimenRow.status.not_in(GONE)).order_by(SpecimenRow.name, SpecimenRow.code)
    gone = columns.where(SpecimenRow.status.in_(GONE), SpecimenRow.code.is_not(None))
    last = gone.order_by(SpecimenRow.status_since.desc(), SpecimenRow.id).limit(MOST_GONE)
    return {
        "columns": COLUMNS,
        "specimens": [_short(row) for row in session.execute(here)],
        "gone": [_short(row) for row in session.execute(last)],
        "racks": [
            {"id": rack.id, "tank": rack.tank_id, "name": f"{rack.tank_name}, {rack.name}", "rows": rack.rows,
             "columns": rack.columns, "code": rack.code}
            for rack in places.racks(session)
        ],
        "tanks": [{"id": tank.id, "name": tank.name, "code": tank.code} for tank in places.tanks(session)],
        "blank": list(session.scalars(select(TagRow.code).where(TagRow.state == "blank").order_by(TagRow.code))),
    }  # fmt: skip


def _short(row: Any) -> list[Any]:
    return [*row[:9], row[9].isoformat() if row[9] else ""]
