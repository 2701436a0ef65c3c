"""Freight, papers and duties of a shipment, shared over the animals of it that arrived alive."""

from sqlalchemy.orm import Session

from webapp.storage.care import ShipmentRow
from webapp.storage.folding import standing
from webapp.storage.history import happened
from webapp.storage.specimen import SpecimenRow


def freight_of(session: Session, shipment_id: str) -> int | None:
    """What bringing it here cost, in cents, as it was said last; None when nothing was said."""
    said = (event.payload for event in standing(happened(session, shipment_id)) if event.kind == "shipment_set")
    known = [one["freight_cents"] for one in said if "freight_cents" in one]
    return known[-1] if known else None


def freight_share(session: Session, row: SpecimenRow) -> float:
    """The share of one animal, in cents: the freight over all of its shipment that arrived alive; 0 for none known.

    Source: common practice of landed cost; what arrived dead carries no freight, for it brings nothing.
    """
    shipment = session.get(ShipmentRow, row.shipment_id) if row.shipment_id else None
    alive = sum(line.get("alive") or 0 for line in shipment.lines) if shipment else 0
    if shipment is None or not alive:
        return 0.0
    return (freight_of(session, shipment.id) or 0) / alive
