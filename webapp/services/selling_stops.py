"""What may not be sold now because of the water it stands in: pests that stop sale, and what is in quarantine."""

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.storage.care import PestRow
from webapp.storage.place import TankRow
from webapp.storage.specimen import SpecimenRow


def stops_for(session: Session, rows: Sequence[SpecimenRow]) -> dict[str, list[str]]:
    """Per specimen id the sentences that stop its sale; nothing where it may be sold."""
    open_pests = session.execute(
        select(PestRow.tank_id, PestRow.specimen_id, PestRow.pest, PestRow.found_at, TankRow.name)
        .outerjoin(TankRow, TankRow.id == PestRow.tank_id)
        .where(PestRow.cleared_at.is_(None), PestRow.stops_sale)
    ).all()
    stops: dict[str, list[str]] = {}
    for row in rows:
        said = [
            f"{row.name} shared the water of {pest.name}, where {pest.pest.replace('_', ' ')} was found. "
            "Its sale is stopped until that is cleared."
            for pest in open_pests
            if pest.specimen_id == row.id or _was_there(row, pest.tank_id, pest.found_at.isoformat())
        ]
        if row.status == "quarantine":
            said.append(f"{row.name} is in quarantine. Release it first.")
        if said:
            stops[row.id] = said
    return stops


def _was_there(row: SpecimenRow, tank_id: str, since: str) -> bool:
    return any(home[0] == tank_id and (home[3] is None or home[3] >= since) for home in row.lived)
