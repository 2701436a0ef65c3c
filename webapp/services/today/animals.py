"""What single animals need: a look, a state, a price, a decision."""

from datetime import timedelta
from typing import Any

from sqlalchemy import ColumnElement, Select, func, or_, select
from sqlalchemy.orm import aliased

from webapp.services.pests import USUAL_TEMP_C, stopped_tanks, tank_temp_c
from webapp.services.quarantine import STAY, may_leave, next_dip
from webapp.services.ready import is_free_living, ready_for_sale
from webapp.services.today.day import Day, Due, Found, days_since, fetch
from webapp.storage.event import Event
from webapp.storage.folding import UNDO
from webapp.storage.place import TankRow
from webapp.storage.specimen import SpecimenRow as S

HERE = ("for_sale", "healing", "kept", "mother", "quarantine")


def off_sale(day: Day) -> Found:
    """For sale, although the last look saw something wrong with it."""
    rows, more = fetch(day, _named(S.trouble).where(S.status == "for_sale", S.trouble > "").order_by(S.trouble, S.id))
    return Found("off_sale", tuple(_of(r, {"trouble": r.trouble}) for r in rows), more)


def stop_sale(day: Day) -> Found:
    """Tanks with something for sale in water whose sale is stopped."""
    due = []
    for tank_id in stopped_tanks(day.session, day.memory, day.revision):
        query = select(TankRow.name).join(S, S.tank_id == TankRow.id)
        name = day.session.scalar(query.where(TankRow.id == tank_id, S.status == "for_sale").limit(1))
        if name is not None:
            due.append(Due("tank", tank_id, name))
    return Found("stop_sale", tuple(due))


def loose_check(day: Day) -> Found:
    """Cut at least `loose_check_h` ago, and no look has seen it hold yet."""
    free = [key for key, kind in day.profiles.items() if is_free_living(kind)]
    query = _named(S.cut_at, S.looked_at).where(
        S.status == "healing", S.cut_at <= day.before("loose_check_h", hours=True), S.holds_seen_at.is_(None),
        S.profile_key.not_in(free),
    )  # fmt: skip
    rows, more = fetch(day, query.order_by(S.cut_at, S.id))
    due = (_of(r, {"hours": days_since(day, r.cut_at) * 24, "looked": r.looked_at}) for r in rows)
    return Found("loose_check", tuple(due), more)


def ready(day: Day) -> Found:
    """Healing, and every condition of the rule for sale is met. Only what was looked at lately can meet it."""
    since = day.now - timedelta(days=day.limits["open_window_days"])
    query = select(S).where(S.status == "healing", S.looked_at >= since, S.trouble == "")
    due = [
        _of(row, {"days": days_since(day, row.cut_at or row.started_at)})
        for row in day.session.scalars(query.order_by(S.looked_at.desc(), S.id))
        if ready_for_sale(row, day.profiles[row.profile_key], day.limits, day.now, day.zone).met
    ]
    return Found("ready", tuple(due))


def release(day: Day) -> Found:
    """In quarantine, and every condition of its release is met."""
    least = min(day.limits[key] for key in set(STAY.values()))
    query = select(S).where(
        S.status == "quarantine", S.status_since <= day.now - timedelta(days=least), S.looked_at.is_not(None)
    )
    due = [
        _of(row, {"days": days_since(day, row.status_since)})
        for row in day.session.scalars(query.order_by(S.status_since, S.id))
        if may_leave(row, day.profiles[row.profile_key], day.limits, day.now).met
    ]
    return Found("release", tuple(due))


def inspect(day: Day) -> Found:
    """In quarantine, and not looked at for `clean_check_gap_days`."""
    since = day.before("clean_check_gap_days")
    query = _named(S.looked_at, S.status_since).where(
        S.status == "quarantine", S.status_since <= since, or_(S.looked_at.is_(None), S.looked_at <= since)
    )
    rows, more = fetch(day, query.order_by(S.status_since, S.id))
    due = (_of(r, {"days": days_since(day, max(r.looked_at or r.status_since, r.status_since))}) for r in rows)
    return Found("inspect", tuple(due), more)


def dip(day: Day) -> Found:
    """In quarantine in a series of dips whose next one is due at its tank's temperature."""
    temps: dict[str, float] = {}
    due = []
    query = select(S).where(S.status == "quarantine", _has_dips())
    for row in day.session.scalars(query.order_by(S.status_since, S.id)):
        if row.tank_id and row.tank_id not in temps:
            temps[row.tank_id] = tank_temp_c(day.session, row.tank_id)
        plan = next_dip(row, day.limits, temps.get(row.tank_id or "", USUAL_TEMP_C))
        if plan is not None and plan.due_at <= day.now:
            values = {"number": plan.number, "temp_c": plan.temp_c, "days": days_since(day, plan.due_at)}
            due.append(_of(row, values))
    return Found("dip", tuple(due))


def hold_ends(day: Day) -> Found:
    """On hold, and the hold runs out within `hold_warn_h`."""
    until = day.now + timedelta(hours=day.limits["hold_warn_h"])
    query = _named(S.held_until, S.hold_word).where(S.held_until > day.now, S.held_until <= until)
    rows, more = fetch(day, query.order_by(S.held_until, S.id))
    due = (_of(r, {"word": r.hold_word, "hours": (r.held_until - day.now) / timedelta(hours=1)}) for r in rows)
    return Found("hold_ends", tuple(due), more)


def hold_unwell(day: Day) -> Found:
    """On hold, and the last look saw something wrong with it."""
    rows, more = fetch(
        day, _named(S.trouble, S.hold_word).where(S.held_until > day.now, S.trouble > "").order_by(S.held_until, S.id)
    )
    due = (_of(r, {"trouble": r.trouble, "word": r.hold_word}) for r in rows)
    return Found("hold_unwell", tuple(due), more)


def price_review(day: Day) -> Found:
    """For sale since `price_review_days` or longer, and no price was said of it for as long."""
    since = day.before("price_review_days")
    undo = aliased(Event)
    taken_back = select(undo.id).where(
        undo.subject_id == Event.subject_id, undo.kind == UNDO, undo.payload["event_id"].as_string() == Event.id
    )
    said = select(Event.id).where(
        Event.subject_id == S.id, Event.occurred_at > since, Event.kind == "priced", ~taken_back.exists()
    )
    query = _named(S.status_since, S.price_cents).where(
        S.status == "for_sale", S.status_since <= since, ~said.correlate(S).exists()
    )
    rows, more = fetch(day, query.order_by(S.status_since))
    due = (_of(r, {"days": days_since(day, r.status_since), "price_cents": r.price_cents}) for r in rows)
    return Found("price_review", tuple(due), more)


def missing(day: Day) -> Found:
    """Not seen in a count, and not found since."""
    rows, more = fetch(day, _named(S.missing_since).where(S.missing_since.is_not(None)).order_by(S.missing_since, S.id))
    due = (_of(r, {"days": days_since(day, r.missing_since)}) for r in rows)
    return Found("missing", tuple(due), more)


def conflict(day: Day) -> Found:
    """Its history contradicts itself, and nobody has settled it."""
    rows, more = fetch(day, _named(S.conflicts).where(S.open_conflicts > 0).order_by(S.open_conflicts, S.id))
    due = (_of(r, {"conflict": r.conflicts[0]["code"]}) for r in rows)
    return Found("conflict", tuple(due), more)


def _of(row: Any, values: dict[str, Any]) -> Due:
    return Due("specimen", row.id, row.name, row.code or "", values)


def _named(*more: object) -> Select:
    return select(S.id, S.name, S.code, *more)


def _has_dips() -> ColumnElement[bool]:
    return func.json_array_length(S.dips) > 0
