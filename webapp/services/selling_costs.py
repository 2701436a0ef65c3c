"""What an animal cost the shop: the price below which it is sold at a loss."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.services.freight import freight_share
from webapp.services.thresholds import load_thresholds
from webapp.storage.specimen import SpecimenRow


@dataclass(frozen=True, slots=True)
class Floor:
    """The price floor and what it is made of, all in cents.

    bought: its own cost, or its share of its mother's; freight: its share, or its mother's; consumables: plug, glue,
    bag; labour; rack: rack-days. survivors_share: of its batch, 0 to 1.
    """

    bought: float
    consumables: float
    labour: float
    rack: float
    freight: float
    survivors_share: float

    @property
    def cents(self) -> int:
        """Everything that was spent on the batch, over those that lived."""
        return round((self.bought + self.freight + self.consumables + self.labour + self.rack) / self.survivors_share)


def floor_of(session: Session, row: SpecimenRow, now: datetime) -> Floor:
    """The floor of one specimen. Its batch: the frags cut from one mother at one moment, or it alone.

    Equation: (share of mother + of freight + consumables + minutes x rate + rack-days x day rate) / survivors' share.
    Source: common practice of full costing.
    """
    costs = load_thresholds(session)
    bought, freight, lived = float(row.cost_cents or 0), freight_share(session, row), 1.0
    if row.mother_id:
        mother = session.get(SpecimenRow, row.mother_id)
        frags = session.scalar(select(func.count()).where(SpecimenRow.mother_id == row.mother_id)) or 1
        bought += ((mother.cost_cents if mother else 0) or 0) / frags
        freight += freight_share(session, mother) / frags if mother else 0
        lived = _survivors_share(session, row)
    days = ((row.ended_at or now) - row.started_at).total_seconds() / 86400
    return Floor(
        bought, costs["cost_consumables_cents"], costs["cost_labour_min"] * costs["cost_labour_cents_h"] / 60,
        days * costs["cost_rack_cents_day"], freight, lived,
    )  # fmt: skip


def _survivors_share(session: Session, row: SpecimenRow) -> float:
    batch = session.execute(
        select(func.count(), func.count().filter(SpecimenRow.status == "lost")).where(
            SpecimenRow.mother_id == row.mother_id, SpecimenRow.started_at == row.started_at
        )
    ).one()
    alive = batch[0] - batch[1]
    return alive / batch[0] if alive else 1.0 / (batch[0] or 1)
