"""What goes on: pests to look for again, shipments on their way, claims to settle, losses of the month."""

from datetime import datetime, timedelta

from sqlalchemy import select

from webapp.services.losses import MONTH
from webapp.services.pests import findings
from webapp.services.selling_after import POSTED
from webapp.services.today.day import CAP, Day, Due, Found, days_since, fetch
from webapp.storage.care import ShipmentRow
from webapp.storage.present_specimen import GONE
from webapp.storage.sale import SaleRow
from webapp.storage.specimen import SpecimenRow as S

LONGEST_POST = timedelta(days=14)
"""Longer ago than this no parcel was sold that only arrives now."""


def pest_look(day: Day) -> Found:
    """An open finding that is due to be looked for again."""
    due = [
        Due("pest", one.id, one.tank_name, values={"pest": one.pest, "days": days_since(day, one.next_look)})
        for one in findings(day.session)
        if one.next_look <= day.now
    ]
    return Found("pest_look", tuple(due))


def shipment(day: Day) -> Found:
    """A shipment that was expected by now, or is opened and not unpacked."""
    rows, more = fetch(day, select(ShipmentRow).where(ShipmentRow.done_at.is_(None)).order_by(ShipmentRow.ordered_at))
    due = []
    for (row,) in rows:
        if row.opened_at is not None or (row.expected_at is not None and row.expected_at <= day.now):
            due.append(Due("shipment", row.id, row.supplier, values={"opened": row.opened_at is not None}))
    return Found("shipment", tuple(due), more)


def dead_claim(day: Day) -> Found:
    """Some arrived dead, not all of it is claimed, and the supplier's time to claim runs."""
    longest = timedelta(hours=max(720.0, day.limits["doa_window_h"]))
    due = []
    for row in day.session.scalars(select(ShipmentRow).where(ShipmentRow.opened_at >= day.now - longest)):
        dead = sum(line.get("dead") or 0 for line in row.lines)
        until = row.opened_at + timedelta(hours=row.claim_h or day.limits["doa_window_h"])
        if dead > row.claimed and day.now <= until:
            values = {"dead": dead - row.claimed, "hours": (until - day.now) / timedelta(hours=1)}
            due.append(Due("shipment", row.id, row.supplier, values=values))
    return Found("dead_claim", tuple(due))


def claims(day: Day) -> Found:
    """A sale with a claim that is not settled."""
    rows, more = fetch(
        day,
        select(SaleRow.number, SaleRow.claims, SaleRow.id).where(SaleRow.open_claims > 0).order_by(SaleRow.open_claims),
    )
    due = []
    for row in rows:
        first = min(one["at"] for one in row.claims if not one["outcome"])
        values = {"hours": days_since(day, datetime.fromisoformat(first)) * 24}
        due.append(Due("sale", str(row.number), str(row.number), values=values))
    return Found("claims", tuple(due), more)


def posted(day: Day) -> Found:
    """A parcel that should have arrived, whose buyer may claim for `claim_posted_h` from then on."""
    window = timedelta(hours=day.limits["claim_posted_h"])
    query = select(SaleRow.number, SaleRow.bag, SaleRow.open_claims).where(
        SaleRow.made_at >= day.now - LONGEST_POST - window, SaleRow.bag["case"].as_string() == POSTED
    )
    due = []
    for row in day.session.execute(query.order_by(SaleRow.made_at)):
        arrives = datetime.fromisoformat(row.bag["at"]) + timedelta(hours=row.bag["journey_h"])
        if row.bag["carry"] and arrives <= day.now <= arrives + window and not row.open_claims:
            values = {"hours": (arrives + window - day.now) / timedelta(hours=1)}
            due.append(Due("sale", str(row.number), str(row.number), values=values))
    return Found("posted", tuple(due[:CAP]), len(due) > CAP)


def month_losses(day: Day) -> Found:
    """More than `loss_month_pct` of what stood here died in the last 30 days.

    Asks only whether the stock is large enough for that, so that counting all of it is never needed.
    """
    limit = day.limits["loss_month_pct"]
    lost = len(day.session.execute(select(S.id).where(S.status == "lost", S.status_since >= day.now - MONTH)).all())
    if not lost:
        return Found("month_losses", ())
    enough = int(100 * lost / limit) - lost + 1
    counted = len(day.session.execute(select(S.id).where(S.status.not_in(GONE)).limit(enough)).all())
    pct = 100 * lost / (counted + lost)
    if pct <= limit:
        return Found("month_losses", ())
    return Found("month_losses", (Due("losses", "", "", values={"lost": lost, "pct": pct, "stock": counted}),))
