"""The photos of a count while it is confirmed: in the database, let go with the count, after a day at the latest."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from webapp.errors import NotFound
from webapp.services.recording import new_deed
from webapp.storage.specimen import CountPhotoRow
from webapp.tags.photo import FoundTag, Reading

KEPT = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class CountPhoto:
    """One photo of a count: what was read in it, in pixels of `width` x `height`.

    `foreign`: how many symbols were not this shop's; `misread`: how many were not read for sure.
    """

    id: str
    tags: tuple[FoundTag, ...]
    width: int
    height: int
    foreign: int
    misread: int

    @property
    def middles(self) -> dict[str, tuple[float, float]]:
        """The middle of each tag by code."""
        return {
            tag.code: (sum(x for x, _ in tag.corners) / 4, sum(y for _, y in tag.corners) / 4) for tag in self.tags
        }


def keep_photo(session: Session, jpeg: bytes, found: Reading, now: datetime) -> str:
    """Keep a photo that was read, as `shown_picture` made it; returns its id. Those of a day ago are let go."""
    session.execute(delete(CountPhotoRow).where(CountPhotoRow.taken_at < now - KEPT))
    foreign = sum(problem == "not_ours" for _text, problem in found.others)
    row = CountPhotoRow(
        id=new_deed(), jpeg=jpeg, width=found.width, height=found.height, foreign=foreign,
        misread=len(found.others) - foreign, tags=[[tag.code, tag.corners] for tag in found.tags], taken_at=now,
    )  # fmt: skip
    session.add(row)
    session.flush()
    return row.id


def photos(session: Session, ids: Sequence[str]) -> list[CountPhoto]:
    """Those of these that are still kept, in this order."""
    rows = {row.id: row for row in session.scalars(select(CountPhotoRow).where(CountPhotoRow.id.in_(ids)))}
    return [_photo(rows[one]) for one in ids if one in rows]


def photo_jpeg(session: Session, photo_id: str) -> bytes:
    """The picture. Raises NotFound when it was let go."""
    row = session.get(CountPhotoRow, photo_id)
    if row is None:
        raise NotFound("This photo is not kept any more. What was read in it still counts.")
    return row.jpeg


def let_go(session: Session, ids: Collection[str]) -> None:
    """The count is kept: its photos have done their work."""
    session.execute(delete(CountPhotoRow).where(CountPhotoRow.id.in_(ids)))


def _photo(row: CountPhotoRow) -> CountPhoto:
    tags = tuple(FoundTag(code, tuple(tuple(corner) for corner in corners), "") for code, corners in row.tags)
    return CountPhoto(row.id, tags, row.width, row.height, row.foreign, row.misread)
