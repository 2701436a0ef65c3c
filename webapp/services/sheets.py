"""Care sheets that were issued: kept under a number as they were printed, with the profile revision they used."""

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
    """A sheet as it was. `html` is the body of the page that was printed."""

    number: int
    specimen_id: str
    profile_key: str
    profile_revision: int
    issued_at: datetime
    author: str
    html: str


def issue(
    session: Session, author: Author, specimen_id: str, profile: tuple[str, int], now: datetime
) -> int:
    """Begin a sheet and return its number; `keep_text` gives it its text. No buyer's name is in it. `profile`: key,
    revision."""
    number = (session.scalar(select(func.max(Sheet.number))) or 0) + 1
    session.add(
        Sheet(
            number=number, specimen_id=specimen_id, profile_key=profile[0], profile_revision=profile[1], issued_at=now,
            author_name=author.name, snapshot={},
        )
    )  # fmt: skip
    session.flush()
    return number


def keep_text(session: Session, number: int, html: str) -> None:
    """The text of a sheet, once its number is known and printed in it."""
    row = session.get(Sheet, number)
    if row is None:
        raise NotFound(f"No sheet was issued under number {number}.")
    row.snapshot = {"html": html}


def get_issued(session: Session, number: int) -> Issued:
    """An issued sheet. Raises NotFound."""
    row = session.get(Sheet, number)
    if row is None:
        raise NotFound(f"No sheet was issued under number {number}.")
    return Issued(
        row.number, row.specimen_id, row.profile_key, row.profile_revision, row.issued_at, row.author_name,
        row.snapshot["html"]
    )


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
