"""Stored pictures, to be served."""

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.errors import NotFound
from webapp.storage.specimen import Photo


def photo_webp(session: Session, photo_id: str, thumb: bool) -> bytes:
    """The WebP bytes of a picture or of its thumbnail. Raises NotFound."""
    column = Photo.thumb if thumb else Photo.webp
    data = session.scalar(select(column).where(Photo.id == photo_id))
    if data is None:
        raise NotFound("There is no such picture here.")
    return data
