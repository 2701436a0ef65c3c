"""After the sale: looking it up by number or tag, claims and how they were settled, animals that came back."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.places import Tank, tanks
from webapp.services.recording import Author, NewEvent, deeds_here, record
from webapp.services.thresholds import load_thresholds
from webapp.storage.base import derived_id
from webapp.storage.folding import standing
from webapp.storage.history import happened
from webapp.storage.sale import SaleRow
from webapp.storage.specimen import SpecimenRow

PAGE_SIZE = 50
POSTED = "freight"
"""Packed so, an animal is posted: its buyer claims from the moment at which the box should arrive."""


@dataclass(frozen=True, slots=True)
class SoldAnimal:
    """A line of a receipt with what is known of the animal now. Money in cents."""

    id: str
    code: str
    name: str
    profile_key: str
    status: str
    price_cents: int | None
    asked_cents: int | None
    reason: str
    sheet: int | None
    returned: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """What was sold as it left."""

    photo_id: str
    at: datetime
    note: str


@dataclass(frozen=True, slots=True)
class Receipt:
    """A sale as it is shown: its animals, packing, claims; `claim_until`: the end of the shop's claim time."""

    sale: SaleRow
    animals: list[SoldAnimal]
    claim_until: datetime
    safe_until: datetime | None
    pictures: list[Picture]


def get_sale(session: Session, number: int) -> SaleRow:
    """The sale with this number; the earlier where two have it. Raises NotFound."""
    row = session.scalar(select(SaleRow).where(SaleRow.number == number).order_by(SaleRow.made_at).limit(1))
    if row is None:
        raise NotFound(f"There is no sale {number} here. Look at the receipt again, or open it by the animal's tag.")
    return row


def receipt(session: Session, number: int) -> Receipt:
    """A sale by its number. Raises NotFound."""
    sale = get_sale(session, number)
    ids = [line["specimen_id"] for line in sale.lines]
    rows = {row.id: row for row in session.scalars(select(SpecimenRow).where(SpecimenRow.id.in_(ids)))}
    back = {one["specimen_id"] for one in sale.returns}
    animals = [
        SoldAnimal(
            row.id, row.code or "", row.name, row.profile_key, row.status, line.get("price_cents"),
            line.get("asked_cents"), line.get("reason") or "", line.get("sheet"), row.id in back,
        )
        for line in sale.lines
        if (row := rows.get(line["specimen_id"])) is not None
    ]  # fmt: skip
    bag = sale.bag
    safe = datetime.fromisoformat(bag["at"]) + timedelta(hours=bag["safe_h"]) if bag else None
    return Receipt(sale, animals, _claim_until(sale, load_thresholds(session)), safe, _pictures(session, sale))


def picture(session: Session, author: Author, deed_id: str, number: int, photo_id: str, note: str = "") -> None:
    """Keep a picture of what was sold, as it left."""
    told = {"photo_id": photo_id, "note": note}
    record(session, author, [NewEvent("sale_pictured", get_sale(session, number).id, told)], deed_id)


def _pictures(session: Session, sale: SaleRow) -> list[Picture]:
    return [
        Picture(event.payload["photo_id"], event.occurred_at, event.payload.get("note") or "")
        for event in standing(happened(session, sale.id))
        if event.kind == "sale_pictured"
    ]


def _claim_until(sale: SaleRow, limits: dict[str, float]) -> datetime:
    """From the shop: so long after the sale. Posted: so long after the box should have arrived."""
    if sale.bag and sale.bag["case"] == POSTED:
        arrives = datetime.fromisoformat(sale.bag["at"]) + timedelta(hours=sale.bag["journey_h"])
        return arrives + timedelta(hours=limits["claim_posted_h"])
    return sale.made_at + timedelta(hours=limits["claim_shop_h"])


def sales(session: Session, page: int = 1, only_open: bool = False) -> tuple[list[SaleRow], int, int]:
    """A page of sales, newest first, how many there are, and which page it is: the nearest one that there is.

    `only_open`: those with a claim to settle.
    """
    query = select(SaleRow).where(SaleRow.open_claims > 0) if only_open else select(SaleRow)
    total = session.scalar(select(func.count()).select_from(query.subquery())) or 0
    page = min(max(1, page), max(1, -(-total // PAGE_SIZE)))
    rows = session.scalars(query.order_by(SaleRow.made_at.desc()).limit(PAGE_SIZE).offset((page - 1) * PAGE_SIZE))
    return list(rows), total, page


def claim(
    session: Session, author: Author, deed_id: str, number: int, said: dict[str, Any], photo_id: str | None = None
) -> str:
    """Note a claim against a sale; returns its id. `said`: payload of 'sale_claimed' without claim and photo."""
    sale = get_sale(session, number)
    if said["specimen_id"] not in [line["specimen_id"] for line in sale.lines]:
        raise BadInput("Choose one of the animals of this sale.", "specimen_id")
    open_about = [one["specimen_id"] for one in sale.claims if not one["outcome"]]
    if said["specimen_id"] in open_about and not deeds_here(session, [deed_id]):  # a second tap is no second claim
        raise BadInput("A claim about this one is open already. Settle that first.", "specimen_id")
    claim_id = derived_id(deed_id, "claim")
    payload = said | {"claim": claim_id, "photo_id": photo_id}
    record(session, author, [NewEvent("sale_claimed", sale.id, payload)], deed_id)
    return claim_id


def settle(session: Session, author: Author, deed_id: str, number: int, claim_id: str, said: dict[str, Any]) -> None:
    """Note how a claim ended. `said`: outcome, amount_cents, note."""
    sale = get_sale(session, number)
    claims = {one["claim"]: one for one in sale.claims}
    if claim_id not in claims:
        raise NotFound("There is no such claim against this sale.")
    if claims[claim_id]["outcome"] and not deeds_here(session, [deed_id]):
        raise BadInput("This claim is settled already. Undo that first if it was wrong.")
    _check_amount(sale, said.get("amount_cents"), "amount")
    record(session, author, [NewEvent("claim_settled", sale.id, said | {"claim": claim_id})], deed_id)


def take_back(
    session: Session,
    author: Author,
    deed_id: str,
    number: int,
    specimen_id: str,
    said: dict[str, Any],
    tank_id: str = "",
) -> str:
    """An animal of the sale came back: into a quarantine tank where there is one, never straight into the stock.

    `said`: reason, refund_cents. `tank_id`: which of the quarantine tanks; '' where there is only one. Returns the name
    of the tank, '' where it is only marked as in quarantine.
    """
    sale = get_sale(session, number)
    row = session.get(SpecimenRow, specimen_id)
    if row is None or specimen_id not in [line["specimen_id"] for line in sale.lines]:
        raise BadInput("Choose one of the animals of this sale.", "specimen_id")
    if not deeds_here(session, [deed_id]):  # a second tap of the same deed is no second return
        if specimen_id in [one["specimen_id"] for one in sale.returns]:
            raise BadInput(f"{row.name} came back already.", "specimen_id")
        if row.status != "sold":
            raise BadInput(f"{row.name} is not out of the shop.", "specimen_id")
    _check_amount(sale, said.get("refund_cents"), "refund")
    quiet = quarantines(session)
    tank = next((one for one in quiet if one.id == tank_id or len(quiet) == 1), None)
    if quiet and tank is None:
        raise BadInput("Choose the quarantine tank that it goes into.", "tank")
    place = {"tank_id": tank.id, "rack_id": None, "slot": ""} if tank else {}
    back = {"status": "quarantine", "reason": said.get("reason") or ""} | place
    events = [
        NewEvent("returned", specimen_id, back),
        NewEvent("sale_returned", sale.id, {"specimen_id": specimen_id} | said),
    ]
    record(session, author, events, deed_id)
    return tank.name if tank else ""


def quarantines(session: Session) -> list[Tank]:
    """The tanks that what came back may go into."""
    return [one for one in tanks(session) if one.purpose == "quarantine"]


def _check_amount(sale: SaleRow, cents: int | None, name: str) -> None:
    if cents is not None and cents > sale.total_cents:
        raise BadInput("That is more than the whole sale took. Look at the amount again.", name)
