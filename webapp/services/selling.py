"""The till: several animals sold as one deed under a number, each with its price, its reason and the advice given."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import BadInput
from webapp.fit.profile import Profile
from webapp.services.recording import Author, NewEvent, record
from webapp.services.selling_costs import Floor, floor_of
from webapp.services.updating import get_row
from webapp.storage.base import derived_id
from webapp.storage.present_specimen import GONE
from webapp.storage.sale import SaleRow
from webapp.storage.shop import Setting, Sheet
from webapp.storage.specimen import SpecimenRow

LAST_NUMBER = "last_sale"
GONE_WORDS = {"sold": "is sold already", "lost": "is noted as lost", "merged": "was joined to another"}


@dataclass(frozen=True, slots=True)
class TillLine:
    """One animal on the till. Money in cents.

    stops: why it may not leave; cautions: what to say; sheets: those issued for it, the newest first.
    """

    id: str
    code: str
    name: str
    profile: Profile
    price_cents: int | None
    held: bool
    floor: Floor
    days_since_cut: float | None
    stops: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    sheets: tuple[tuple[int, datetime], ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """What was agreed for one animal: price paid, why it differs, the claim word said, the sheet that goes with it.

    asked_cents: the price on its tag as the seller saw it, where that is known better than by the shop's books.
    """

    specimen_id: str
    price_cents: int | None
    reason: str = ""
    word: str = ""
    sheet: int | None = None
    asked_cents: int | None = None


@dataclass(frozen=True, slots=True)
class Till:
    """A whole sale as it was agreed. `talk`: the dangers of what is poisonous were told.

    has_left: the animals are with their buyer already, sold without signal. What would have stopped the sale cannot
    stop it any more: it is noted with the animal.
    """

    lines: Sequence[Line] = field(default_factory=tuple)
    talk: bool = False
    has_left: bool = False


def till_line(
    session: Session, row: SpecimenRow, profiles: dict[str, Profile], stops: Sequence[str], now: datetime
) -> TillLine:
    """One animal as the till shows it. `stops`: why its sale is stopped by what its water shares (see the pests)."""
    profile = profiles[row.profile_key]
    here = (f"{row.name} {GONE_WORDS[row.status]}.",) if row.status in GONE else ()
    sheets = session.execute(
        select(Sheet.number, Sheet.issued_at).where(Sheet.specimen_id == row.id).order_by(Sheet.number.desc()).limit(5)
    ).all()
    return TillLine(
        row.id, row.code or "", row.name, profile, row.price_cents, _held(row, now), floor_of(session, row, now),
        None if row.cut_at is None else (now - row.cut_at).total_seconds() / 86400,
        (*here, *stops), _cautions(row, profile), tuple((one.number, one.issued_at) for one in sheets),
    )  # fmt: skip


def sell(
    session: Session, author: Author, deed_id: str, till: Till, profiles: dict[str, Profile], now: datetime,
    stops: Mapping[str, Sequence[str]] | None = None,
) -> int:
    """Sell what is on the till in one deed and return the number of the sale. Sent twice it is sold once.

    stops: per specimen id the sentences that stop its sale. Raises BadInput naming the field: 'price-ID', 'word-ID' or
    'talk'.
    """  # fmt: skip
    if not till.lines:
        raise BadInput("Nothing is on the till. Add a tag first.")
    sale_id = derived_id(deed_id, "sale")
    known = session.get(SaleRow, sale_id)
    if known is not None:
        return known.number
    agreed = [(get_row(session, line.specimen_id), line) for line in till.lines]
    noted = [_stopped(row, line, (stops or {}).get(row.id, ()), now, till.has_left) for row, line in agreed]
    toxic = [row.name for row, _line in agreed if profiles[row.profile_key].toxic]
    if toxic and not till.talk and not till.has_left:
        raise BadInput(f"Tell the buyer how to handle {toxic[0]} safely, then tick that you did.", "talk")
    number = _next_number(session)
    lines = [_kept_line(row, line) for row, line in agreed]
    made = NewEvent("sale_made", sale_id, {"number": number, "lines": lines, "talk": till.talk})
    sold = [
        NewEvent("sold", row.id, {"price_cents": line.price_cents, "sheet": line.sheet, "sale": number,
                                  "hold_word": _word(row, line, now)})
        for row, line in agreed
    ]  # fmt: skip
    said = zip(agreed, noted, strict=True)
    notes = [NewEvent("noted", row.id, {"text": text}) for (row, _line), text in said if text]
    record(session, author, [made, *sold, *notes], deed_id)
    return number


def _stopped(row: SpecimenRow, line: Line, stops: Sequence[str], now: datetime, has_left: bool) -> str:
    """Raises BadInput where this sale may not be; where the animal has left already, what is to be noted of it."""
    try:
        _check(row, line, now)
        if stops:
            raise BadInput(stops[0], f"price-{row.id}")
    except BadInput:
        if not has_left:
            raise
    return f"Sold without signal. {' '.join(stops)}"[:1000] if has_left and stops else ""


def _kept_line(row: SpecimenRow, line: Line) -> dict[str, Any]:
    asked = row.price_cents if line.asked_cents is None else line.asked_cents
    return {
        "specimen_id": row.id, "price_cents": line.price_cents, "asked_cents": asked, "reason": line.reason,
        "sheet": line.sheet,
    }  # fmt: skip


def _word(row: SpecimenRow, line: Line, now: datetime) -> str:
    """The claim word as it is written on the hold, where the same was said."""
    right = _held(row, now) and line.word.casefold() == row.hold_word.casefold()
    return row.hold_word if right else line.word


def _check(row: SpecimenRow, line: Line, now: datetime) -> None:
    if row.status in GONE:
        raise BadInput(f"{_called(row)} {GONE_WORDS[row.status]}. Take it off the till.", f"price-{row.id}")
    if _held(row, now) and line.word.casefold() != row.hold_word.casefold():
        told = f"{_called(row)} is on hold. Ask for the claim word, or release the hold first."
        raise BadInput(told, f"word-{row.id}")
    if row.price_cents is not None and line.price_cents != row.price_cents and not line.reason:
        raise BadInput(f"{_called(row)} has another price on its tag. Say why it differs.", f"reason-{row.id}")


def _called(row: SpecimenRow) -> str:
    """Its name, with its code: several of a strain may be on the till."""
    return f"{row.name} {row.code or ''}".strip()


def _held(row: SpecimenRow, now: datetime) -> bool:
    return row.held_until is not None and row.held_until > now


def _cautions(row: SpecimenRow, profile: Profile) -> tuple[str, ...]:
    said = []
    if row.status not in ("for_sale", *GONE):
        said.append("It is not for sale yet. Say so to the buyer.")
    if profile.group == "anemone" or profile.group == "clam":
        said.append("Alone in its bag.")
    return tuple(said)


def _next_number(session: Session) -> int:
    kept = session.get(Setting, LAST_NUMBER)
    highest = session.scalar(select(func.max(SaleRow.number))) or 0
    number = max(highest, int(kept.value) if kept else 0) + 1
    session.merge(Setting(key=LAST_NUMBER, value=number))
    return number
