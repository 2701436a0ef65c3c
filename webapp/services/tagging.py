"""Codes for specimens, tanks and racks: made, bound, freed, retired."""

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.services.recording import NewEvent
from webapp.storage.specimen import TagRow
from webapp.tags.codes import new_code


def fresh_codes(session: Session, count: int) -> list[str]:
    """Codes that no tag here has, all different."""
    codes: list[str] = []
    while len(codes) < count:
        code = new_code()
        if code not in codes and session.get(TagRow, code) is None:
            codes.append(code)
    return codes


def binding(code: str, target_kind: str, target_id: str) -> NewEvent:
    """The event that makes a code stand for something."""
    return NewEvent("bound", code, {"target_kind": target_kind, "target_id": target_id})


def live_code(session: Session, target_id: str) -> str | None:
    """The code that stands for something now."""
    return session.scalar(
        select(TagRow.code).where(TagRow.target_id == target_id, TagRow.state == "live").order_by(TagRow.code).limit(1)
    )
