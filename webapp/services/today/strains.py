"""What strains and their mothers need: cutting before they run out, measuring, a second look where frags die."""

from collections import Counter
from datetime import datetime, timedelta
from math import ceil

from sqlalchemy import func, select
from sqlalchemy.orm import aliased

from webapp.services.cutting import fit_to_be_cut, most_to_take
from webapp.services.losses import bad_batches, bad_shipments, mothers_in_question
from webapp.services.today.day import CAP, Day, Due, Found, days_since, fetch
from webapp.storage.specimen import SpecimenRow as S

NEWS_DAYS = 7
"""That a mother has rested is news for so long."""


def low_stock(day: Day) -> Found:
    """A mother of whose strain fewer than `low_stock` are for sale; of several the one that may be cut first.

    values: also `stop`, the condition that forbids a cut now ('' for none), and the whole `days` until she has rested.
    """
    least = int(day.limits["low_stock"])
    if least < 1:
        return Found("low_stock", ())
    plug = aliased(S)
    for_sale = (
        select(plug.id)
        .where(plug.status == "for_sale", plug.name == S.name, plug.profile_key == S.profile_key)
        .correlate(S)
    )
    enough = for_sale.limit(1).offset(least - 1).exists()
    rows, more = fetch(day, select(S).where(S.status == "mother", ~enough).order_by(S.name, S.id))
    here = _counts(day, {row.name for (row,) in rows})
    strains: dict[tuple[str, str], list[tuple[bool, float, str, S]]] = {}
    for (row,) in rows:
        strains.setdefault((row.name, row.profile_key), []).append((*_cut_stop(day, row), row))
    due = []
    for (name, key), mothers in strains.items():
        _ails, days, stop, row = min(mothers, key=lambda one: one[:2])
        values = {status: here[name, key, status] for status in ("for_sale", "healing")}
        values |= {"least": least, "stop": stop, "days": ceil(days)}
        due.append(Due("specimen", row.id, name, row.code or "", values))
    return Found("low_stock", tuple(due), more)


def may_be_cut(day: Day) -> Found:
    """A mother whose rest since her last cut ended within the last week and of whom everything else allows a cut."""
    longest = max(day.limits["cut_rest_days"], day.limits["cut_rest_lps_days"]) + NEWS_DAYS
    shortest = min(day.limits["cut_rest_days"], day.limits["cut_rest_lps_days"])
    query = select(S).where(
        S.status == "mother", S.last_cut_at <= day.now - timedelta(days=shortest),
        S.last_cut_at >= day.now - timedelta(days=longest),
    )  # fmt: skip
    due = []
    for row in day.session.scalars(query.order_by(S.name, S.id)):
        kind = day.profiles[row.profile_key]
        rest = day.limits["cut_rest_lps_days" if kind.group == "lps" else "cut_rest_days"]
        if row.last_cut_at is None or days_since(day, row.last_cut_at) > rest + NEWS_DAYS:
            continue
        state = fit_to_be_cut(row, kind, day.limits, day.now)
        if all(one.met is not False for one in state.conditions):
            values = {"days": days_since(day, row.last_cut_at)} | most_to_take(row, kind, day.limits)
            due.append(Due("specimen", row.id, row.name, row.code or "", values))
    return Found("may_be_cut", tuple(due))


def measure(day: Day) -> Found:
    """A mother whose last size is `measure_due_days` old or older, or was never taken."""
    due = []
    for row in day.session.execute(
        select(S.id, S.name, S.code, S.sizes, S.started_at).where(S.status == "mother").order_by(S.name, S.id)
    ):
        last = datetime.fromisoformat(row.sizes[-1][0]) if row.sizes else None
        if (last or row.started_at) <= day.before("measure_due_days"):
            values = {"days": days_since(day, last or row.started_at), "never": last is None}
            due.append(Due("specimen", row.id, row.name, row.code or "", values))
    return Found("measure", tuple(due[:CAP]), len(due) > CAP)


def batch_losses(day: Day) -> Found:
    """A batch or a shipment of which more than `loss_batch_pct` died: told for 30 days."""
    found = [*bad_batches(day.session, day.limits, day.now), *bad_shipments(day.session, day.limits, day.now)]
    due = (
        Due(one.subject, one.key, one.name, values={"lost": one.lost, "pieces": one.pieces, "pct": one.pct})
        for one in found
    )
    return Found("batch_losses", tuple(due))


def mother_in_question(day: Day) -> Found:
    """A mother whose frags died above `scrap_mother_pct` in her last `scrap_mother_batches` batches."""
    found = mothers_in_question(day.session, day.limits, day.now)
    due = (Due("specimen", one.key, one.name, values={"pct": one.pct, "batches": one.batches}) for one in found)
    return Found("mother_in_question", tuple(due))


def _cut_stop(day: Day, row: S) -> tuple[bool, float, str]:
    """Whether more than time is needed before she may be cut, the days until her rest is over, the first that forbids
    it: (False, 0.0, '') where she may be cut now."""
    conditions = fit_to_be_cut(row, day.profiles[row.profile_key], day.limits, day.now).conditions
    stops = [one.code for one in conditions if one.met is False]
    left = [-days_since(day, one.values["until"]) for one in conditions if one.code == "rested" and one.met is False]
    return any(code != "rested" for code in stops), *(left or [0.0]), *(stops[:1] or [""])


def _counts(day: Day, names: set[str]) -> Counter[tuple[str, str, str]]:
    """How many of each of these strains are for sale and healing, by (name, kind, status)."""
    query = (
        select(S.name, S.profile_key, S.status, func.count())
        .where(S.status.in_(("for_sale", "healing")), S.name.in_(names))
        .group_by(S.name, S.profile_key, S.status)
    )
    return Counter({(name, key, status): count for name, key, status, count in day.session.execute(query)})
