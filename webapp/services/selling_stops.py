"""What may not be sold now because of the water it stands in: pests that stop sale, and what is in quarantine."""

from collections.abc import Sequence

from sqlalchemy.orm import Session

from webapp.services.pests import exposed_tanks
from webapp.storage.specimen import SpecimenRow


def stops_for(session: Session, rows: Sequence[SpecimenRow]) -> dict[str, list[str]]:
    """Per specimen id the sentences that stop its sale; nothing where it may be sold."""
    marked = exposed_tanks(session)
    stops: dict[str, list[str]] = {}
    for row in rows:
        said = [
            f"{row.name} stands in water where {pest.replace('_', ' ')} is about. "
            "Its sale is stopped until that is cleared."
            for _id, pest, stops_sale in marked.get(row.tank_id or "", ())
            if stops_sale
        ]
        if row.trouble:
            said.append(f"{row.name} is not well: the last look saw that. Look at it again first.")
        if row.status == "quarantine":
            said.append(f"{row.name} is in quarantine. Release it first.")
        if said:
            stops[row.id] = said
    return stops
