"""What staff do to specimens that are here: one verb each, for one or for several at once. Each is an event."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.services.holding import check_length
from webapp.services.intake import check_place
from webapp.services.places import free_from, get_rack
from webapp.services.recording import Author, NewEvent, record
from webapp.services.tagging import binding, fresh_codes, live_code
from webapp.services.thresholds import load_thresholds
from webapp.storage.base import derived_id
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import Photo, SpecimenRow
from webapp.tags.photo import prepare_photo

LONGEST_HOLD = timedelta(days=60)


def update(
    session: Session,
    author: Author,
    deed_id: str,
    kind: str,
    specimen_ids: Sequence[str],
    payload: dict[str, Any],
    at: datetime | None = None,
) -> None:
    """Record the same event for each specimen, in one deed. `at`: when it happened (now), here and below."""
    if not specimen_ids:
        raise BadInput("Choose at least one specimen.")
    record(session, author, [NewEvent(kind, specimen_id, payload, at) for specimen_id in specimen_ids], deed_id)


def move(
    session: Session,
    author: Author,
    deed_id: str,
    specimen_ids: Sequence[str],
    place: dict[str, Any],
    at: datetime | None = None,
) -> None:
    """Move one to a slot, or several to the next free slots of a rack."""
    check_place(session, place)
    if len(specimen_ids) == 1 or not place.get("rack_id"):
        places = [place] * len(specimen_ids)
    else:
        rack = get_rack(session, place["rack_id"])
        free = free_from(session, rack, place.get("slot") or "")
        if len(free) < len(specimen_ids):
            raise BadInput(
                f"{rack.name} has {len(free)} free slots and {len(specimen_ids)} plugs need a place.", "rack_id"
            )
        places = [place | {"slot": slot} for slot in free]
    moves = [NewEvent("moved", one, where, at) for one, where in zip(specimen_ids, places, strict=False)]
    record(session, author, moves, deed_id)


def hold(
    session: Session,
    author: Author,
    deed_id: str,
    specimen_id: str,
    word: str,
    until: datetime,
    now: datetime,
    at: datetime | None = None,
    deposit_cents: int | None = None,
) -> None:
    """Keep a specimen for whoever says the claim word. No name is kept. `until` is checked against `now`."""
    if not word.strip():
        raise BadInput("Give a claim word for the buyer to remember.", "word")
    if not now < until <= now + LONGEST_HOLD:
        raise BadInput(f"A hold ends in the future, at most {LONGEST_HOLD.days} days from now.", "until")
    check_length((until - now).total_seconds() / 3600, deposit_cents, load_thresholds(session))
    payload = {"word": word.strip(), "until": until.isoformat(), "deposit_cents": deposit_cents}
    update(session, author, deed_id, "held", [specimen_id], payload, at)


def check_may_hold(session: Session, specimen_id: str, word: str, now: datetime) -> None:
    """Raises BadInput for one that is gone, or held for another word. What was promised out of reach of the shop is not
    asked: it is kept, and the contradiction is shown."""
    row = get_row(session, specimen_id)
    if row.status in GONE:
        raise BadInput(f"{row.name} is not here any more.")
    if row.held_until is not None and row.held_until > now and row.hold_word != word.strip():
        raise BadInput(f"{row.name} is on hold for another buyer. Release that hold first.", "word")


def feed(session: Session, author: Author, deed_id: str, specimen_id: str, payload: dict[str, Any]) -> None:
    """One was fed by hand: the feeding, and the look that it is, for whether it ate belongs to the rule for sale."""
    look = {"ate": payload["response"] == "ate"}
    events = [NewEvent("hand_fed", specimen_id, payload), NewEvent("checked", specimen_id, look)]
    record(session, author, events, deed_id)


def add_photo(
    session: Session,
    author: Author,
    deed_id: str,
    specimen_id: str,
    data: bytes,
    now: datetime,
    at: datetime | None = None,
) -> str:
    """Keep a picture (re-encoded, without location or camera data) and show it on the card. Returns its id.

    Raises BadInput when the file is no picture that can be read.
    """
    photo_id = keep_photo(session, deed_id, data, now)
    update(session, author, deed_id, "pictured", [specimen_id], {"photo_id": photo_id}, at)
    return photo_id


def keep_photo(session: Session, deed_id: str, data: bytes, now: datetime) -> str:
    """Keep a picture, re-encoded, and return its id; what it shows is said by the event that names it."""
    photo_id = derived_id(deed_id, "photo")
    if session.get(Photo, photo_id) is None:
        made = prepare_photo(data)
        session.add(
            Photo(
                id=photo_id, webp=made.webp, thumb=made.thumb_webp, width=made.width, height=made.height, taken_at=now
            )
        )
        session.flush()
    return photo_id


def split(
    session: Session,
    author: Author,
    deed_id: str,
    specimen_id: str,
    piece: dict[str, Any],
    left: dict[str, Any],
    at: datetime | None = None,
) -> str:
    """A natural split: the piece becomes a specimen of its own.

    `piece`: place, size_mm, heads; `left`: size_mm, heads of the rest.
    """
    row = get_row(session, specimen_id)
    check_place(session, piece)
    new_id = derived_id(deed_id, "piece", 0)
    born = {"mother_id": row.id, "method": "natural_split", "profile_key": row.profile_key, "name": row.name} | piece
    events = [NewEvent("split", row.id, {"piece": new_id} | left, at), NewEvent("born", new_id, born, at)]
    if live_code(session, new_id) is None:
        code = fresh_codes(session, 1, deed_id)[0]
        record(session, author, [*events, binding(code, "specimen", new_id, at)], deed_id)
    return new_id


def merge(
    session: Session,
    author: Author,
    deed_id: str,
    specimen_id: str,
    into_id: str,
    size: dict[str, Any],
    at: datetime | None = None,
) -> None:
    """Two become one: this one lives on in the other, whose new size or count may be given."""
    if specimen_id == into_id:
        raise BadInput("Choose another specimen to join it to.", "into")
    get_row(session, specimen_id)
    other = get_row(session, into_id)
    if get_row(session, specimen_id).profile_key != other.profile_key:
        raise BadInput("These are of two kinds. Put the kind right first if it was entered wrongly.", "into")
    code = live_code(session, specimen_id)
    events = [
        NewEvent("merged", specimen_id, {"into": into_id}, at),
        NewEvent("absorbed", into_id, {"other": specimen_id} | size, at),
    ]
    if code:
        events.append(NewEvent("tag_retired", code, {"reason": "merged"}, at))
    record(session, author, events, deed_id)


def get_row(session: Session, specimen_id: str) -> SpecimenRow:
    """The present of a specimen. Raises NotFound."""
    row = session.get(SpecimenRow, specimen_id)
    if row is None:
        raise NotFound("There is no such specimen here.")
    return row
