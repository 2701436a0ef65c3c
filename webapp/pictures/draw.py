"""Draws a kind of animal: one picture for every profile key, the same for the same arguments."""

from functools import lru_cache
from zlib import crc32

from webapp.pictures.kinds import kind_of
from webapp.pictures.pen import Pen
from webapp.pictures.scene import GROUNDS, water
from webapp.pictures.shapes import Shape
from webapp.pictures.svg import document


def layers(
    key: str, hue: int | None = None, seed: int = 0, group: str | None = None
) -> tuple[list[Shape], list[Shape]]:
    """The water, and the ground with the animal on it, each back to front.

    `hue` (degrees, OKLCH) turns body and accent together; None is the
    usual hue.
    """
    kind = kind_of(key, group)
    body = kind.hue if hue is None else hue % 360
    accent = (kind.accent + body - kind.hue) % 360
    pen = Pen(key, body, accent, seed, kind.chroma if hue is None else max(kind.chroma, 0.13))
    return water(pen), [*GROUNDS[kind.ground](pen), *kind.form(pen)]


@lru_cache(maxsize=256)  # some 7 kB each; a page of a rack asks for the same few again and again
def draw_kind(
    key: str, hue: int | None = None, seed: int = 0, size: int = 320, title: str = "", group: str | None = None
) -> str:
    """An SVG picture to be put in a page. `title` is its accessible name (the key in words when empty),
    `size` is in CSS px.

    `seed` gives another individual of the same kind; a key without a drawing of its own gets the usual form of `group`.
    """
    prefix = f"k{crc32(f'{key}/{hue}/{seed}/{group}'.encode()):x}-"
    back, front = layers(key, hue, seed, group)
    return document([*back, *front], title or key.replace("_", " "), prefix, size)
