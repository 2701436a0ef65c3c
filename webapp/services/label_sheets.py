"""The shop's own label sheets beside the ready ones, and the one it used last."""

from collections.abc import Mapping
from dataclasses import asdict, fields
from typing import Any

from sqlalchemy.orm import Session

from webapp.errors import BadInput, NotFound
from webapp.storage.shop import Setting
from webapp.tags.ready_sheets import READY_SHEETS
from webapp.tags.sheets import Sheet

FIRST_SHEET = "a4-disc-25"
MOST_OWN = 30
FIRST_OF_PLACES = "a4-2x7"
_OWN, _USUAL, _USUAL_OF_PLACES = "label_sheets", "usual_sheet", "usual_sheet_of_places"
#: What staff choose a sheet by: what the tag is for -> its ready sheet on A4 and on Letter.
PIECES: dict[str, tuple[str, str, str]] = {
    "disc-25": ("Round plug tag, 25 mm", "a4-disc-25", "letter-disc-25"),
    "disc-19": ("Round plug tag, 19 mm", "a4-disc-19", "letter-disc-19"),
    "square-20": ("Square plug tag, 20 mm", "a4-square-20", "letter-square-20"),
    "strip": ("Rack-edge strip, 60 x 18 mm", "a4-strip", "letter-strip"),
    "placard": ("Tank placard, read at 2 m", "a4-placard", "letter-placard"),
}


def own_sheets(session: Session) -> dict[str, Sheet]:
    """The shop's own sheets by key, by name."""
    row = session.get(Setting, _OWN)
    found = {key: Sheet(**values) for key, values in (row.value if row else {}).items()}
    return dict(sorted(found.items(), key=lambda pair: pair[1].name.casefold()))


def all_sheets(session: Session) -> dict[str, Sheet]:
    """Own sheets first, then the ready ones."""
    return own_sheets(session) | READY_SHEETS


def get_sheet(session: Session, key: str) -> Sheet:
    """A sheet by its key. Raises NotFound."""
    found = READY_SHEETS.get(key) or own_sheets(session).get(key)
    if found is None:
        raise NotFound("There is no such label sheet. Choose one from the list.")
    return found


def sheet_from(values: Mapping[str, Any]) -> Sheet:
    """A sheet of these measures; what is not given is as for a new `Sheet`. Raises BadInput with the field."""
    known = {item.name for item in fields(Sheet)}
    given = {name: value for name, value in values.items() if name in known and value is not None}
    name = " ".join(str(given.get("name", "")).split())
    if not name or len(name) > 60:
        raise BadInput("Give the sheet a name of 1 to 60 characters.", "name")
    return Sheet(**given | {"name": name})


def keep_sheet(session: Session, key: str, sheet: Sheet) -> None:
    """Keep an own sheet under a key; a second time under the same key it is changed. Raises BadInput."""
    own = own_sheets(session)
    if key in READY_SHEETS or (key not in own and len(own) >= MOST_OWN):
        raise BadInput(f"A shop keeps up to {MOST_OWN} sheets of its own. Remove one first.")
    if any(other.name.casefold() == sheet.name.casefold() and one != key for one, other in own.items()):
        raise BadInput(f"There is already a sheet called {sheet.name}. Choose another name.", "name")
    _put(session, _OWN, {one: asdict(kept) for one, kept in (own | {key: sheet}).items()})


def forget_sheet(session: Session, key: str) -> None:
    """Remove an own sheet. Raises NotFound."""
    own = own_sheets(session)
    if key not in own:
        raise NotFound("There is no such sheet of your own.")
    _put(session, _OWN, {one: asdict(kept) for one, kept in own.items() if one != key})


def usual_sheet(session: Session, *, plugs: bool = True) -> str:
    """The key of the sheet used last for plugs, or for tanks and racks."""
    setting, first = (_USUAL, FIRST_SHEET) if plugs else (_USUAL_OF_PLACES, FIRST_OF_PLACES)
    row = session.get(Setting, setting)
    return row.value if row and row.value in all_sheets(session) else first


def remember_sheet(session: Session, key: str, *, plugs: bool = True) -> None:
    """Offer this sheet first the next time."""
    _put(session, _USUAL if plugs else _USUAL_OF_PLACES, key)


def _put(session: Session, key: str, value: Any) -> None:
    session.merge(Setting(key=key, value=value))
