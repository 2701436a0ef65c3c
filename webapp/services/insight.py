"""What the shop's own history tells: who lives how long, how kinds grow, how the water drifts, what sells."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from json import loads
from math import exp
from statistics import median
from typing import Any, NamedTuple

from sqlalchemy import String, cast, func, select
from sqlalchemy.orm import Session

from webapp.fit.profile import Profile
from webapp.science.growth import LN2
from webapp.science.survival import SurvivalCurve, kaplan_meier
from webapp.science.trend import Trend, linear_trend
from webapp.services.growing import growth_of
from webapp.services.places import tanks
from webapp.services.tank_water import runs
from webapp.storage.bare import bare, bare_moment
from webapp.storage.specimen import SpecimenRow as S

BY = {"kind": S.profile_key, "method": S.method, "mother": S.mother_id}
FEWEST = 5
"""Fewer lifetimes than this make no curve."""
MOST_CURVES = 8
MOST_EACH = 300
"""So many of a kind tell how it grows; more would only take longer."""
MONTH_DAYS = 30
DAY_S = 86400


@dataclass(frozen=True, slots=True)
class Survival:
    """The survival of one kind, method or mother."""

    key: str
    name: str
    curve: SurvivalCurve

    def at(self, days: float) -> tuple[float, float, float] | None:
        """Share that lives after so many days, with its interval; None where no animal was followed that long."""
        return self.curve.at(days) if days <= self.curve.longest else None


class Measured(NamedTuple):
    """What growth is told from, of one specimen."""

    sizes: list[list[Any]]
    cut_at: datetime | None
    last_cut_at: datetime | None


@dataclass(frozen=True, slots=True)
class KindGrowth:
    """Growth of a kind here: doubling time of the middle animal in days, None where the middle one does not grow.

    count: animals with a rate. recent and before: those measured in the last 180 days, and earlier ones (percent in
    30 days; None without any).
    """

    key: str
    count: int
    doubling_days: float | None
    percent: float
    recent: float | None
    before: float | None


@dataclass(frozen=True, slots=True)
class Drift:
    """The straight line through a quantity of a tank: change in 30 days with its 95 % interval. run: its readings."""

    tank_id: str
    tank_name: str
    quantity: str
    count: int
    last: float
    per_month: float
    low: float
    high: float
    is_certain: bool
    run: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Turnover:
    """A strain: sold since a moment, takings, days from its beginning to the sale; for sale now and for how long."""

    profile_key: str
    name: str
    sold: int
    takings_cents: int
    days_to_sale: float | None
    for_sale: int
    days_standing: float | None


def survival(session: Session, by: str, since: datetime, now: datetime) -> list[Survival]:
    """Curves of what began since a moment, the largest groups first. by: 'kind', 'method' or 'mother'.

    Death here ends a lifetime; sale, joining another and being alive now only say that it lived so long.
    """
    column = BY[by]
    asked = (S.started_at >= since, column.is_not(None), column != "")
    size = func.count().label("size")
    large = session.execute(
        select(column, func.min(S.name))
        .where(*asked)
        .group_by(column)
        .having(size >= FEWEST)
        .order_by(size.desc(), column)
        .limit(MOST_CURVES)
    ).all()
    rows = session.connection().execute(  # plain rows: there are many of them
        select(column, bare(S.started_at), bare(S.ended_at), S.status == "lost")
        .where(*asked, column.in_([key for key, _name in large]))
    )  # fmt: skip
    lives: dict[str, tuple[list[float], list[bool]]] = {key: ([], []) for key, _name in large}
    until, day, no_time = bare_moment(now), timedelta(days=1), timedelta(0)
    for key, started_at, ended_at, is_dead in rows:
        days, died = lives[key]
        days.append(max(no_time, (ended_at or until) - started_at) / day)
        died.append(is_dead)
    return [Survival(key, name if by == "mother" else key, kaplan_meier(*lives[key])) for key, name in large]


def growth_by_kind(session: Session, limits: Mapping[str, float], now: datetime) -> list[KindGrowth]:
    """The growth of every kind of which some were measured twice, the fastest first. Of each kind the MOST_EACH that
    were handled last."""
    handled = func.row_number().over(partition_by=S.profile_key, order_by=(S.last_event_at.desc(), S.id))
    ranked = select(S.id, handled.label("place")).where(func.json_array_length(S.sizes) > 1).subquery()
    rows = session.connection().execute(  # plain rows, and their JSON read at once: there are many of them
        select(S.profile_key, cast(S.sizes, String), S.cut_at, S.last_cut_at)
        .join(ranked, ranked.c.id == S.id)
        .where(ranked.c.place <= MOST_EACH)
    ).all()  # fmt: skip
    sizes = loads(f"[{','.join(row[1] for row in rows)}]")
    recent_since = now - timedelta(days=180)
    rates: dict[str, list[tuple[float, bool]]] = defaultdict(list)
    for (key, _text, cut_at, last_cut_at), measured in zip(rows, sizes, strict=True):
        growth = growth_of(Measured(measured, cut_at, last_cut_at), limits)
        if growth is not None and growth.rate is not None:
            rates[key].append((growth.rate.per_day, growth.points[-1][0] >= recent_since))
    found = []
    for key, known in rates.items():
        middle = median(rate for rate, _new in known)
        parts = {new: [rate for rate, is_new in known if is_new == new] for new in (True, False)}
        found.append(
            KindGrowth(
                key, len(known), LN2 / middle if middle > 0 else None, _percent(middle),
                _percent(median(parts[True])) if parts[True] else None,
                _percent(median(parts[False])) if parts[False] else None,
            )
        )  # fmt: skip
    return sorted(found, key=lambda one: (-one.percent, one.key))


def _percent(per_day: float) -> float:
    return 100 * (exp(MONTH_DAYS * per_day) - 1)


def water_drift(session: Session, since: datetime) -> list[Drift]:
    """The trend of every quantity read three times or more since a moment; certain ones first."""
    found = []
    for tank in tanks(session):
        for quantity, run in runs(session, tank.id, since).items():
            days = [(at - run[0][0]) / DAY_S for at, _value in run]
            line: Trend | None = linear_trend(days, [value for _at, value in run])
            if line is not None:
                ends = sorted((line.low * MONTH_DAYS, line.high * MONTH_DAYS))
                found.append(
                    Drift(
                        tank.id,
                        tank.name,
                        quantity,
                        line.count,
                        run[-1][1],
                        line.slope * MONTH_DAYS,
                        *ends,
                        line.is_certain,
                        tuple(run),
                    )
                )
    return sorted(found, key=lambda one: (not one.is_certain, one.tank_name, one.quantity))


def turnover(session: Session, profiles: Mapping[str, Profile], since: datetime, now: datetime) -> list[Turnover]:
    """Every strain sold since a moment or for sale now: what sells first, then what stands."""
    plain, day, until = session.connection(), timedelta(days=1), bare_moment(now)  # plain rows: there are many of them
    sold: dict[tuple[str, str], list[tuple[int, float]]] = defaultdict(list)
    for key, name, cents, started_at, ended_at in plain.execute(
        select(S.profile_key, S.name, S.price_cents, bare(S.started_at), bare(S.ended_at)).where(
            S.status == "sold", S.status_since >= since
        )
    ):
        sold[key, name].append((cents or 0, (ended_at - started_at) / day))
    stands: dict[tuple[str, str], list[float]] = defaultdict(list)
    for key, name, status_since in plain.execute(
        select(S.profile_key, S.name, bare(S.status_since)).where(S.status == "for_sale")
    ):
        stands[key, name].append((until - status_since) / day)
    found = [
        Turnover(
            key, name, len(sold[key, name]), sum(cents for cents, _days in sold[key, name]),
            median(days for _cents, days in sold[key, name]) if sold[key, name] else None,
            len(stands[key, name]), median(stands[key, name]) if stands[key, name] else None,
        )
        for key, name in sorted({*sold, *stands})
        if key in profiles
    ]  # fmt: skip
    return sorted(found, key=lambda one: (-one.takings_cents, -one.sold, -(one.days_standing or 0), one.name))
