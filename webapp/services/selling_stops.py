"""What may not be sold now: what is unwell, in quarantine, or in water whose sale is stopped."""

from collections.abc import Sequence

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.services.memory import Memory
from webapp.services.pests import marked_tanks
from webapp.services.shop import revision
from webapp.storage.present_specimen import GONE
from webapp.storage.specimen import SpecimenRow


def standing_stops(session: Session, memory: Memory) -> list[tuple[str, str, tuple[str, str]]]:
    """(specimen id, name, (code, word)) of everything that stands here and may not be sold now."""
    rows = list(session.scalars(select(SpecimenRow).where(SpecimenRow.status.not_in(GONE))))
    names = {row.id: row.name for row in rows}
    return [(one, names[one], stop) for one, stops in stops_for(session, memory, rows).items() for stop in stops]


def stops_for(session: Session, memory: Memory, rows: Sequence[SpecimenRow]) -> dict[str, list[tuple[str, str]]]:
    """Per specimen id the codes and words that stop its sale: ('pest', which), ('trouble', what), ('quarantine', '').

    Nothing for a specimen that may be sold. Sentences are made in `words.sales`.
    """
    marked = marked_tanks(session, memory, revision(session)) if rows else {}
    stops: dict[str, list[tuple[str, str]]] = {}
    for row in rows:
        found = [("pest", pest) for _id, pest, stopped in marked.get(row.tank_id or "", []) if stopped]
        if row.trouble:
            found.append(("trouble", row.trouble))
        if row.status == "quarantine":
            found.append(("quarantine", ""))
        if found:
            stops[row.id] = found
    return stops
