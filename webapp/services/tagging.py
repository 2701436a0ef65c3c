"""Codes for specimens, tanks and racks: made, bound, freed, retired."""

from datetime import datetime
from random import Random

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.services.recording import NewEvent
from webapp.storage.shop import ReservedCode
from webapp.storage.specimen import TagRow
from webapp.tags.codes import new_code


def fresh_codes(session: Session, count: int, deed_id: str) -> list[str]:
    """Codes that no tag here has, all different; drawn from the deed's id: the same deed draws the same ones."""
    random = Random(deed_id)
    codes: list[str] = []
    while len(codes) < count:
        code = new_code(random)
        if code not in codes and _is_free(session, code, deed_id):
            codes.append(code)
    return codes


def _is_free(session: Session, code: str, deed_id: str) -> bool:
    """No tag has it, and it is not promised to another deed."""
    promised = session.get(ReservedCode, code)
    return session.get(TagRow, code) is None and (promised is None or promised.deed_id == deed_id)


def binding(code: str, target_kind: str, target_id: str, at: datetime | None = None) -> NewEvent:
    """The event that makes a code stand for something, from `at` on (now)."""
    return NewEvent("bound", code, {"target_kind": target_kind, "target_id": target_id}, at)


def live_code(session: Session, target_id: str) -> str | None:
    """The code that stands for something now."""
    return session.scalar(
        select(TagRow.code).where(TagRow.target_id == target_id, TagRow.state == "live").order_by(TagRow.code).limit(1)
    )
