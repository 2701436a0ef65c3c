"""A photo on a page with an outline round every tag that was found in it."""

from base64 import b64encode
from collections.abc import Mapping
from dataclasses import dataclass

from webapp.services.count_photos import CountPhoto
from webapp.tags.photo import FoundTag, Reading, shown_picture

_OUTWARDS = 1.25  # the outline goes round the quiet zone, not through the symbol


@dataclass(frozen=True, slots=True)
class Outline:
    """One tag: its outline as SVG points, where its number stands, and how it is drawn."""

    code: str
    points: str
    x: float
    y: float
    look: str
    words: str


@dataclass(frozen=True, slots=True)
class Overlay:
    """The photo as an address of its own bytes, its size in pixels, the outlines, a width for strokes and letters."""

    source: str
    width: int
    height: int
    outlines: list[Outline]
    stroke: float


def overlay(data: bytes, reading: Reading, looks: Mapping[str, tuple[str, str]]) -> Overlay:
    """`looks`: code -> (class, words beside it); tags without one are numbered."""
    source = "data:image/jpeg;base64," + b64encode(shown_picture(data)).decode()
    return outlined(source, reading, looks)


def outlined(source: str, photo: Reading | CountPhoto, looks: Mapping[str, tuple[str, str]]) -> Overlay:
    """The same for a photo that has an address of its own."""
    outlines = [_outline(tag, *looks.get(tag.code, ("here", str(number)))) for number, tag in enumerate(photo.tags, 1)]
    return Overlay(source, photo.width, photo.height, outlines, max(photo.width, photo.height) / 260)


def _outline(tag: FoundTag, look: str, words: str) -> Outline:
    x = sum(corner[0] for corner in tag.corners) / 4
    y = sum(corner[1] for corner in tag.corners) / 4
    points = " ".join(
        f"{x + (corner[0] - x) * _OUTWARDS:.0f},{y + (corner[1] - y) * _OUTWARDS:.0f}" for corner in tag.corners
    )
    return Outline(tag.code, points, round(x), round(y), look, words)
