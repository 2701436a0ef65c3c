"""Care sheets that were issued: kept under a number as they were printed, with the profile revision they used."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from webapp.errors import NotFound
from webapp.services.recording import Author
from webapp.storage.shop import Sheet
from webapp.storage.specimen import SpecimenRow


@dataclass(frozen=True, slots=True)
class Issued:
    """A sheet as it was. `html` is the body of the page that was printed; roll_mm: its length on a roll, else 0.

    numbers: one for each animal on it; profiles: (key, revision) of each.
    """

    numbers: tuple[int, ...]
    profiles: tuple[tuple[str, int], ...]
    issued_at: datetime
    author: str
    html: str
    roll_mm: int = 0


def issue(
    session: Session, author: Author, animals: Sequence[tuple[str, str, int]], now: datetime
) -> list[int]:
    """Begin a sheet for one or several animals and return its numbers, one each; `keep_text` gives it its text.

    animals: (specimen id, profile key, profile revision). No buyer's name is in it.
    """
    first = (session.scalar(select(func.max(Sheet.number))) or 0) + 1
    numbers = list(range(first, first + len(animals)))
    for number, (specimen_id, key, revision) in zip(numbers, animals, strict=True):
        session.add(
            Sheet(
                number=number, specimen_id=specimen_id, profile_key=key, profile_revision=revision, issued_at=now,
                author_name=author.name, snapshot={"numbers": numbers},
            )
        )  # fmt: skip
    session.flush()
    return numbers


def keep_text(session: Session, numbers: Sequence[int], html: str, roll_mm: int = 0) -> None:
    """The text of a sheet, once its numbers are known and printed in it; it stands with the first of them.

    roll_mm: its length where it is for a roll.
    """
    row = _row(session, numbers[0])
    row.snapshot = row.snapshot | {"html": html, "roll_mm": roll_mm}


def get_issued(session: Session, number: int) -> Issued:
    """An issued sheet. Raises NotFound."""
    numbers = _row(session, number).snapshot.get("numbers", [number])
    rows = [_row(session, one) for one in numbers]
    first = rows[0]
    return Issued(
        tuple(numbers), tuple((row.profile_key, row.profile_revision) for row in rows), first.issued_at,
        first.author_name, first.snapshot["html"], first.snapshot.get("roll_mm", 0),
    )  # fmt: skip


def _row(session: Session, number: int) -> Sheet:
    row = session.get(Sheet, number)
    if row is None:
        raise NotFound(f"No sheet was issued under number {number}.")
    return row


def issued_for(session: Session, specimen_id: str) -> list[tuple[int, datetime]]:
    """(number, moment) of every sheet issued for a specimen, newest first."""
    rows = session.execute(
        select(Sheet.number, Sheet.issued_at).where(Sheet.specimen_id == specimen_id).order_by(Sheet.number.desc())
    )
    return [(row.number, row.issued_at) for row in rows]


def papers_of(session: Session, specimen_id: str) -> str:
    """The permit noted for a specimen, or for the nearest of its mothers that has one; '' where none has."""
    seen: set[str] = set()
    while specimen_id not in seen:
        seen.add(specimen_id)
        row = session.execute(
            select(SpecimenRow.papers, SpecimenRow.mother_id).where(SpecimenRow.id == specimen_id)
        ).one_or_none()
        if row is None or row.papers or row.mother_id is None:
            return row.papers if row is not None else ""
        specimen_id = row.mother_id
    return ""
