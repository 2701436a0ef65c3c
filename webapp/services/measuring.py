"""Measuring an animal in a photo with its tag as the ruler: the photo waits a day at most, then it is an event."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import delete
from sqlalchemy.orm import Session

from webapp.errors import NotFound
from webapp.services.recording import Author, NewEvent, new_deed, record
from webapp.services.tagging import live_code
from webapp.services.updating import get_row
from webapp.storage.base import derived_id
from webapp.storage.specimen import Photo, RulerPhoto, TagRow
from webapp.tags.ruler import Measurement, Point, Ruler, measure
from webapp.tags.ruler_photo import RulerPicture, ruler_picture

KEPT = timedelta(days=1)
HEIGHTS_MM = (0, 5, 10, 20, 40, 80)


@dataclass(frozen=True, slots=True)
class Waiting:
    """A photo that is being measured. Sizes in pixels."""

    id: str
    specimen_id: str
    name: str
    width: int
    height: int
    ruler: Ruler
    own_tag: bool


def find_tag(
    session: Session, specimen_id: str, data: bytes, hosts: Collection[str], side_mm: float | None
) -> RulerPicture:
    """The tag in a photo, as a ruler. It takes a second or two: only a session to read with is needed. Raises BadInput.

    `side_mm`: the printed symbol's side as measured by hand, where the shop does not know it.
    """

    def side_of(code: str) -> float | None:
        if side_mm:
            return side_mm
        tag = session.get(TagRow, code)
        return tag.printed_side_mm if tag else None

    return ruler_picture(data, hosts, live_code(session, get_row(session, specimen_id).id) or "", side_of)


def begin(session: Session, specimen_id: str, made: RulerPicture, now: datetime) -> str:
    """Keep a picture for a day while it is measured; returns its id."""
    row = get_row(session, specimen_id)
    session.execute(delete(RulerPhoto).where(RulerPhoto.taken_at < now - KEPT))
    kept = RulerPhoto(
        id=new_deed(), specimen_id=row.id, webp=made.webp, thumb=made.thumb_webp, width=made.width, height=made.height,
        ruler=made.ruler.kept(), taken_at=now,
    )  # fmt: skip
    session.add(kept)
    session.flush()
    return kept.id


def waiting(session: Session, ruler_id: str) -> Waiting:
    """A photo that is being measured. Raises NotFound when its day is over or it was kept already."""
    row = session.get(RulerPhoto, ruler_id)
    if row is None:
        raise NotFound("This photo is not waiting any more. Take it again.")
    specimen = get_row(session, row.specimen_id)
    ruler = Ruler.from_kept(row.ruler)
    return Waiting(row.id, specimen.id, specimen.name, row.width, row.height, ruler, ruler.code == specimen.code)


def picture(session: Session, ruler_id: str) -> bytes:
    """The WebP of a photo that is being measured. Raises NotFound."""
    row = session.get(RulerPhoto, ruler_id)
    if row is None:
        raise NotFound("This photo is not waiting any more.")
    return row.webp


def keep(
    session: Session,
    author: Author,
    deed_id: str,
    ruler_id: str,
    points: Sequence[Point],
    area: bool,
    height_mm: float,
    tap_px: float,
) -> Measurement | None:
    """Record the measurement with its photo and error. Sent twice it is recorded once: the second time gives None."""
    photo_id = derived_id(deed_id, "ruler")
    if session.get(Photo, photo_id) is not None:
        return None
    found = waiting(session, ruler_id)
    row = session.get_one(RulerPhoto, ruler_id)
    size = measure(found.ruler, points, area=area, height_mm=height_mm, tap_px=tap_px)
    session.add(
        Photo(id=photo_id, webp=row.webp, thumb=row.thumb, width=row.width, height=row.height, taken_at=row.taken_at)
    )
    session.delete(row)
    session.flush()
    payload = {
        "size_mm": round(size.length_mm, 1), "error_mm": round(size.error_mm, 1), "height_mm": height_mm,
        "photo_id": photo_id,
    }  # fmt: skip
    if size.area_mm2 is not None and size.area_error_mm2 is not None:
        payload |= {"area_mm2": round(size.area_mm2, 1), "area_error_mm2": round(size.area_error_mm2, 1)}
    record(session, author, [NewEvent("measured", found.specimen_id, payload)], deed_id)
    return size
