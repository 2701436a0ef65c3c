"""'What here suits my tank?': everything for sale judged against one tank, each distinct case once, not each plug.

The verdict hangs on the kind alone; what the plugs of one kind are used to differs by the tank they stand in, and
decides only which of them are named first: those from the water nearest to the buyer's.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import func, or_, select
from sqlalchemy.orm import Session

from webapp.fit.acclimate import CLOSE_C, CLOSE_PPT
from webapp.fit.check import check_prepared
from webapp.fit.findings import ORDER, Report, Verdict
from webapp.fit.prepared import PreparedTank, prepare
from webapp.fit.profile import Profile
from webapp.fit.specimen import Specimen, UsedTo
from webapp.fit.tank import BuyerTank
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.used_to import used_to
from webapp.storage.specimen import SpecimenRow

NAMED = 6
"""Plugs of one kind that are named."""
LOOK_BACK = timedelta(days=90)
NEEDS_NO_CARE = {"temp": CLOSE_C, "salinity": CLOSE_PPT}
"""Differences that an animal takes without floating or dripping."""


@dataclass(frozen=True, slots=True)
class Plug:
    """One specimen for sale, as far as a list needs it. Price in cents."""

    code: str
    name: str
    price_cents: int | None
    photo_id: str | None


@dataclass(frozen=True, slots=True)
class Home:
    """Plugs of one kind in one tank of the shop. `codes`: the first and the last of them."""

    tank_id: str | None
    used_to: dict[str, UsedTo]
    count: int
    codes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Case:
    """One kind for sale. homes: from the water nearest to the buyer's; plugs: at most NAMED, from the nearest homes."""

    profile: Profile
    report: Report
    homes: tuple[Home, ...]
    plugs: tuple[Plug, ...]

    @property
    def count(self) -> int:
        """How many are for sale."""
        return sum(home.count for home in self.homes)


def rank(session: Session, memory: Memory, tank: BuyerTank, now: datetime) -> dict[Verdict, list[Case]]:
    """Everything for sale by verdict, the easiest kinds first."""
    at = revision(session)
    kinds = newest_profiles(session, memory, at)
    prepared = prepare(tank, kinds)
    homes = {key: _nearest_first(found, prepared) for key, found in _homes(session, memory, at, now).items()}
    plugs = _plugs(session, [code for found in homes.values() for code in _named(found)])
    by_verdict: dict[Verdict, list[Case]] = {verdict: [] for verdict in ORDER}
    for key, found in homes.items():
        report = check_prepared(prepared, Specimen(kinds[key]), with_plans=False)
        named = tuple(plugs[code] for code in _named(found))
        by_verdict[report.whole].append(Case(kinds[key], report, found, named))
    for cases in by_verdict.values():
        cases.sort(key=lambda case: (case.profile.hardiness, case.profile.trade_name))
    return by_verdict


def _homes(session: Session, memory: Memory, at: int, now: datetime) -> Mapping[str, list[Home]]:
    rows = session.execute(
        select(
            SpecimenRow.profile_key, SpecimenRow.tank_id, func.count(), func.min(SpecimenRow.code),
            func.max(SpecimenRow.code),
        )
        .where(SpecimenRow.status == "for_sale", SpecimenRow.code.is_not(None))
        .where(or_(SpecimenRow.held_until.is_(None), SpecimenRow.held_until <= now))
        .group_by(SpecimenRow.profile_key, SpecimenRow.tank_id)
    ).all()  # fmt: skip
    since = (now - LOOK_BACK).isoformat()
    water = {
        tank_id: used_to(session, memory, at, [(tank_id, "", since, None)], now) if tank_id else {}
        for tank_id in {row.tank_id for row in rows}
    }
    homes = defaultdict(list)
    for key, tank_id, count, first, last in rows:
        homes[key].append(Home(tank_id, water[tank_id], count, (first,) if count == 1 else (first, last)))
    return homes


def _nearest_first(homes: list[Home], prepared: PreparedTank) -> tuple[Home, ...]:
    return tuple(sorted(homes, key=lambda home: (_away(home.used_to, prepared), home.codes)))


def _away(used: dict[str, UsedTo], prepared: PreparedTank) -> float:
    """How far this water is from the buyer's, in differences that need no care; what is not known counts as one."""
    away = 0.0
    for quantity, easy in NEEDS_NO_CARE.items():
        theirs = prepared.readings.middle(quantity)
        known = theirs is not None and quantity in used
        away += abs(used[quantity].median - theirs) / easy if known else 1.0
    return away


def _named(homes: tuple[Home, ...]) -> list[str]:
    """Codes to name: the first plug of each home, then the last of each."""
    firsts, lasts = ([home.codes[i] for home in homes if len(home.codes) > i] for i in (0, 1))
    return (firsts + lasts)[:NAMED]


def _plugs(session: Session, codes: list[str]) -> dict[str, Plug]:
    columns = (SpecimenRow.code, SpecimenRow.name, SpecimenRow.price_cents, SpecimenRow.photo_id)
    rows = session.execute(select(*columns).where(SpecimenRow.code.in_(codes)))
    return {row.code: Plug(*row) for row in rows}
