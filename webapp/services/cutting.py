"""What may be cut of a mother colony by rule, and what became of earlier sessions."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.fit.profile import Profile
from webapp.services.conditions import Condition, RuleState, days_between, last_of, looks_since
from webapp.services.growing import growth_of
from webapp.storage.folding import standing
from webapp.storage.history import happened
from webapp.storage.specimen import SpecimenRow

#: Words of a kind's propagation -> method of a frag session.
_WAYS = (
    ("cut between", "cutter"), ("halving", "halving"), ("foot", "foot_cut"), ("scissors", "scalpel"),
    ("scalpel", "scalpel"), ("mat", "scalpel"), ("sheet", "scalpel"), ("shear", "shears"), ("snip", "shears"),
    ("snap", "shears"), ("saw", "saw"), ("natural split", "natural_split"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Outcome:
    """One frag session: how many pieces, and how many of them died here, were sold, are still healing."""

    deed_id: str
    at: datetime
    method: str
    pieces: int
    lost: int
    sold: int
    healing: int

    @property
    def survival_pct(self) -> float:
        """Share that did not die here, percent."""
        return 100 * (self.pieces - self.lost) / self.pieces


def may_cut(
    session: Session, row: SpecimenRow, profile: Profile, limits: Mapping[str, float], now: datetime
) -> RuleState:
    """The state of the rule for one mother."""
    of_herself = fit_to_be_cut(row, profile, limits, now)
    return RuleState((*of_herself.conditions, Condition("reserve", _has_reserve(session, row))))


def fit_to_be_cut(row: SpecimenRow, profile: Profile, limits: Mapping[str, float], now: datetime) -> RuleState:
    """The rule without the reserve colony: what is known of her alone."""
    began = max(at for at in (row.started_at, row.last_cut_at, row.cut_at) if at is not None)
    days = days_between(began, now)
    needed = limits["cut_rest_lps_days" if profile.group == "lps" else "cut_rest_days"]
    conditions = [
        Condition("nothing_wrong", not row.trouble, {"trouble": row.trouble}),
        Condition("rested", days >= needed, {"days": days, "needed": needed, "until": began + timedelta(days=needed)}),
    ]
    if row.last_cut_at or row.cut_at:
        conditions.append(Condition("edge_closed", last_of(looks_since(row.checks, began), "edge_closed")))
    growth = growth_of(row, limits)
    rate = growth.rate.per_day if growth and growth.rate else None
    conditions.append(Condition("growing", None if rate is None else rate > 0))
    return RuleState(tuple(conditions))


def most_to_take(row: SpecimenRow, profile: Profile, limits: Mapping[str, float]) -> dict[str, float]:
    """The share (percent) that may be taken at once, and what that is in heads or millimetres where they are known."""
    share = limits["cut_share_sps_pct" if profile.group == "sps" else "cut_share_pct"]
    found = {"share_pct": share}
    if row.heads:
        found["heads"] = int(row.heads * share / 100 + 1e-9)
    if row.size_mm:
        found["size_mm"] = row.size_mm * share / 100
    return found


def worth_asking(
    row: SpecimenRow,
    profile: Profile,
    limits: Mapping[str, float],
    pieces: int,
    heads: int | None,
    size_mm: float | None,
) -> list[str]:
    """Codes of what to ask before a session is kept: 'too_much' of her heads at once, 'too_small' pieces."""
    found = []
    most = most_to_take(row, profile, limits).get("heads")
    if most is not None and heads and pieces * heads > most:
        found.append("too_much")
    if size_mm is not None and size_mm < limits["least_piece_mm"] and not heads:
        found.append("too_small")
    return found


def sessions_of(session: Session, mother_id: str) -> list[Outcome]:
    """Her frag sessions, newest first, with what became of the pieces."""
    cuts = [event for event in standing(happened(session, mother_id)) if event.kind == "cut"]
    statuses = dict(
        session.execute(select(SpecimenRow.id, SpecimenRow.status).where(SpecimenRow.mother_id == mother_id)).all()
    )
    found = []
    for event in reversed(cuts):
        states = [statuses[piece] for piece in event.payload["pieces"] if piece in statuses]
        if states:
            lost, sold = states.count("lost"), states.count("sold")
            found.append(
                Outcome(
                    event.deed_id,
                    event.occurred_at,
                    event.payload["method"],
                    len(states),
                    lost,
                    sold,
                    states.count("healing"),
                )
            )
    return found


def last_method(session: Session, mother_id: str) -> str:
    """How she was cut last; '' where she never was, because how her kind usually is would be a guess."""
    sessions = sessions_of(session, mother_id)
    return sessions[0].method if sessions else ""


def ways_named(profile: Profile) -> list[str]:
    """The methods that her kind's propagation names, in its order, each once."""
    said = profile.propagation_methods
    named = sorted((said.index(word), method) for word, method in _WAYS if word in said)
    return list(dict.fromkeys(method for _at, method in named))


def _has_reserve(session: Session, row: SpecimenRow) -> bool:
    """Whether another uncut colony of this strain lives in another tank."""
    query = select(SpecimenRow.id).where(
        SpecimenRow.profile_key == row.profile_key, SpecimenRow.name == row.name, SpecimenRow.id != row.id,
        SpecimenRow.tank_id != row.tank_id, SpecimenRow.last_cut_at.is_(None),
        SpecimenRow.status.in_(("mother", "kept")),
    )  # fmt: skip
    return session.scalar(query.limit(1)) is not None
