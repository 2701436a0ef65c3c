"""Asking the fit check: for one specimen, or for everything that is for sale."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from webapp.fit.check import check_prepared
from webapp.fit.findings import ORDER, Report, Verdict
from webapp.fit.prepared import prepare
from webapp.fit.profile import Profile
from webapp.fit.specimen import Specimen, UsedTo
from webapp.fit.tank import BuyerTank
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.used_to import used_to
from webapp.storage.specimen import SpecimenRow


def check_specimen(session: Session, memory: Memory, specimen: Specimen, tank: BuyerTank) -> Report:
    """The whole answer for one animal and one tank."""
    kinds = newest_profiles(session, memory, revision(session))
    return check_prepared(prepare(tank, kinds), specimen)


@dataclass(frozen=True, slots=True)
class Plug:
    """One specimen for sale, as far as a list needs it. Price in cents."""

    code: str
    name: str
    price_cents: int | None
    photo_id: str | None


@dataclass(slots=True)
class Case:
    """Plugs that the check cannot tell apart: one kind, used to the same water. Judged once."""

    profile: Profile
    report: Report
    plugs: list[Plug] = field(default_factory=list)


def rank(session: Session, memory: Memory, tank: BuyerTank, now: datetime) -> dict[Verdict, list[Case]]:
    """Everything for sale, by verdict, the easiest kinds first. Each distinct case is computed once, not each plug."""
    at = revision(session)
    kinds = newest_profiles(session, memory, at)
    grouped = memory.get(at, ("sale cases", now.date()), lambda: _cases(session, memory, at, kinds, now))
    prepared = prepare(tank, kinds)
    by_verdict: dict[Verdict, list[Case]] = {verdict: [] for verdict in ORDER}
    for specimen, plugs in grouped:
        report = check_prepared(prepared, specimen, with_plans=False)
        by_verdict[report.whole].append(Case(specimen.profile, report, plugs))
    for cases in by_verdict.values():
        cases.sort(key=lambda case: (case.profile.hardiness, case.profile.trade_name))
    return by_verdict


def _cases(
    session: Session, memory: Memory, at: int, kinds: Mapping[str, Profile], now: datetime
) -> list[tuple[Specimen, list[Plug]]]:
    rows = session.execute(
        select(
            SpecimenRow.code, SpecimenRow.name, SpecimenRow.price_cents, SpecimenRow.photo_id, SpecimenRow.profile_key,
            SpecimenRow.lived,
        )
        .where(SpecimenRow.status == "for_sale", SpecimenRow.code.is_not(None))
        .where(or_(SpecimenRow.held_until.is_(None), SpecimenRow.held_until <= now))
        .order_by(SpecimenRow.name, SpecimenRow.code)
    )  # fmt: skip
    grouped: dict[tuple, list[Plug]] = defaultdict(list)
    specimens: dict[tuple, Specimen] = {}
    for row in rows:
        used = used_to(session, memory, at, row.lived, now)
        key = (row.profile_key, _alike(used))
        if key not in specimens:
            specimens[key] = Specimen(kinds[row.profile_key], None, used)
        grouped[key].append(Plug(row.code, row.name, row.price_cents, row.photo_id))
    return [(specimens[key], plugs) for key, plugs in grouped.items()]


def _alike(used: dict[str, UsedTo]) -> tuple:
    """Used-to conditions to three figures: closer than any kit can tell."""
    return tuple(sorted((factor, float(f"{one.median:.3g}")) for factor, one in used.items()))
