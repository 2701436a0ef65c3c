"""How a specimen stands by the shop's rules: what ails it, which rule it waits for, its growth, its next dip."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, tzinfo

from sqlalchemy.orm import Session

from webapp.fit.profile import Profile
from webapp.services import cutting, quarantine
from webapp.services.conditions import RuleState
from webapp.services.growing import Growth, growth_of
from webapp.services.memory import Memory
from webapp.services.pests import marked_tanks, tank_temp_c
from webapp.services.quarantine import DipPlan
from webapp.services.ready import ready_for_sale
from webapp.services.shop import revision
from webapp.services.updating import get_row


@dataclass(frozen=True, slots=True)
class State:
    """rule_name: 'sale', 'release', 'cut' or '' with its rule. pests: (finding id, pest, stops sale) of its water.

    outcomes: its frag sessions; most: how much may be taken at once. cautions: what speaks against a dip now.
    """

    trouble: str
    rule_name: str
    rule: RuleState | None
    pests: list[tuple[str, str, bool]]
    growth: Growth | None
    dip: DipPlan | None
    cautions: list[str]
    outcomes: list[cutting.Outcome]
    most: dict[str, float]

    @property
    def stopped(self) -> bool:
        """Whether it should not be sold now."""
        return bool(self.trouble) or any(stops for _id, _pest, stops in self.pests)


def state_of(
    session: Session,
    memory: Memory,
    specimen_id: str,
    profile: Profile,
    limits: Mapping[str, float],
    now: datetime,
    zone: tzinfo,
) -> State:
    """The state of one specimen. Raises NotFound."""
    row = get_row(session, specimen_id)
    rules = {
        "healing": ("sale", lambda: ready_for_sale(row, profile, limits, now, zone)),
        "kept": ("sale", lambda: ready_for_sale(row, profile, limits, now, zone)),
        "for_sale": ("sale", lambda: ready_for_sale(row, profile, limits, now, zone)),
        "quarantine": ("release", lambda: quarantine.may_leave(row, profile, limits, now)),
        "mother": ("cut", lambda: cutting.may_cut(session, row, profile, limits, now)),
    }
    name, make = rules.get(row.status, ("", lambda: None))
    here = bool(name) and row.tank_id is not None
    return State(
        trouble=row.trouble, rule_name=name, rule=make(),
        pests=marked_tanks(session, memory, revision(session)).get(row.tank_id or "", []) if here else [],
        growth=growth_of(row, limits),
        dip=quarantine.next_dip(row, limits, tank_temp_c(session, row.tank_id)) if here and row.dips else None,
        cautions=quarantine.dip_cautions(row, profile, limits, now),
        outcomes=cutting.sessions_of(session, row.id) if row.last_cut_at else [],
        most=cutting.most_to_take(row, profile, limits),
    )  # fmt: skip
