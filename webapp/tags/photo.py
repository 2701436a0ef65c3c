"""Tags in an uploaded photo, and photos made ready to be stored.

Reading climbs a ladder and stops at the first step that finds a tag of this shop: luma at about 2000 pixels, luma at
full size, the same sharpened, then the strongest of the three colour channels: under blue light luma is nearly black.
"""

import io
import time
from collections.abc import Collection, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from threading import BoundedSemaphore

import zxingcpp
from PIL import Image, ImageChops, ImageCms, ImageFilter

from webapp.errors import TooMany
from webapp.tags.codes import parse_scan
from webapp.tags.opening import decoded, longest_side, open_photo, upright_size

Point = tuple[float, float]

_FIRST_STEP_PX = 1800  # the usual 4000 pixels are read at half of that
_THUMB_SIDE_PX = 320
_WEBP_QUALITY = 80
_LONGEST_READING_S = 5  # no further step is begun after that
_LONGEST_WAIT_S = 5
_PLACES = BoundedSemaphore(2)
_SRGB = ImageCms.createProfile("sRGB")


@dataclass(frozen=True)
class FoundTag:
    """A tag of this shop: its code, its symbol's corners in pixels of the upright photo, and the text as read.

    `corners` are the symbol's outer corners: top left, top right, bottom right, bottom left as it is printed.
    """

    code: str
    corners: tuple[Point, Point, Point, Point]
    text: str


@dataclass(frozen=True)
class Reading:
    """What one photo holds. `others` are symbols that are not this shop's or misread, as (text, problem)."""

    tags: tuple[FoundTag, ...]
    others: tuple[tuple[str, str], ...]
    width: int
    height: int
    step: str


@dataclass(frozen=True)
class Photo:
    """A photo to store: WebP without camera data, its size in pixels, and a thumbnail of at most 320 pixels."""

    webp: bytes
    thumb_webp: bytes
    width: int
    height: int


def read_tags(data: bytes, hosts: Collection[str]) -> list[FoundTag]:
    """This shop's tags in a photo, each code once. BadInput when it is not a photo that can be read."""
    return list(read_photo(data, hosts).tags)


def read_photo(data: bytes, hosts: Collection[str], *, thorough: bool = False) -> Reading:
    """All of what `read_tags` finds and what else was seen. `thorough` climbs every step and adds up the finds.

    BadInput when the bytes are not a photo that can be read; TooMany while others' photos take all the places.
    """
    tags: dict[str, FoundTag] = {}
    others: dict[str, str] = {}
    step = ""
    with _a_place():
        width, height = upright_size(open_photo(data))
        give_up = time.monotonic() + _LONGEST_READING_S
        for name, picture in _ladder(data):
            step = name
            scale = width / picture.width, height / picture.height
            for barcode in zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode):
                scan = parse_scan(barcode.text, hosts)
                if scan.code:
                    tags.setdefault(scan.code, FoundTag(scan.code, _corners(barcode.position, scale), barcode.text))
                else:
                    others[barcode.text] = scan.problem or ""
            if (tags and not thorough) or time.monotonic() > give_up:
                break
    return Reading(tuple(tags.values()), tuple(others.items()), width, height, step)


def prepare_photo(data: bytes, max_side: int = 1600) -> Photo:
    """A photo as it is stored: upright, at most `max_side` pixels, re-encoded, so that place and camera data are gone.

    BadInput when the bytes are not a photo that can be read; TooMany while others' photos take all the places.
    """
    with _a_place():
        photo = open_photo(data)
        profile = photo.info.get("icc_profile")
        picture = decoded(photo, "RGB", max_side)
        picture.thumbnail((max_side, max_side), Image.Resampling.LANCZOS)
        picture = _in_srgb(picture, profile)
        thumb = picture.copy()
        thumb.thumbnail((_THUMB_SIDE_PX, _THUMB_SIDE_PX), Image.Resampling.LANCZOS)
        return Photo(_webp(picture), _webp(thumb), picture.width, picture.height)


def shown_picture(data: bytes, max_side: int = 1200) -> bytes:
    """A small upright JPEG of a photo, to be shown on the page that tells what was found in it; not to be kept."""
    with _a_place():
        picture = decoded(open_photo(data), "RGB", max_side)
        picture.thumbnail((max_side, max_side), Image.Resampling.BILINEAR, reducing_gap=2.0)
        out = io.BytesIO()
        picture.info.clear()
        picture.save(out, "JPEG", quality=72)
        return out.getvalue()


def _ladder(data: bytes) -> Iterator[tuple[str, Image.Image]]:
    """The steps, each made only when asked for."""
    photo = open_photo(data)
    full_side, most = max(photo.size), longest_side(photo)  # asked before decoding, which changes the size
    small = full = decoded(photo, "L", _FIRST_STEP_PX)
    yield "small", small
    if max(small.size) < (min(full_side, most) if most else full_side):
        full = decoded(open_photo(data), "L", most)
        yield "full", full
    yield "sharpened", full.filter(ImageFilter.UnsharpMask(3, 150, 2))
    del small, full
    red, green, blue = decoded(open_photo(data), "RGB", most).split()
    yield "strongest channel", ImageChops.lighter(ImageChops.lighter(red, green), blue)


def _corners(position: zxingcpp.Position, scale: tuple[float, float]) -> tuple[Point, Point, Point, Point]:
    points = (position.top_left, position.top_right, position.bottom_right, position.bottom_left)
    top_left, top_right, bottom_right, bottom_left = ((p.x * scale[0], p.y * scale[1]) for p in points)
    return top_left, top_right, bottom_right, bottom_left


def _in_srgb(picture: Image.Image, profile: bytes | None) -> Image.Image:
    """The picture in the colours that a page without a profile shows; as it is where its profile makes no sense."""
    if not profile:
        return picture
    try:
        seen = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        return ImageCms.profileToProfile(picture, seen, _SRGB, outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError):
        return picture


def _webp(picture: Image.Image) -> bytes:
    out = io.BytesIO()
    picture.info.clear()
    picture.save(out, "WEBP", quality=_WEBP_QUALITY, method=4)
    return out.getvalue()


@contextmanager
def _a_place() -> Iterator[None]:
    """One of few places for work that takes a core and up to 300 MB. TooMany when none comes free in time."""
    if not _PLACES.acquire(timeout=_LONGEST_WAIT_S):
        raise TooMany("Several photos are being read just now. Please try again in a few seconds.", _LONGEST_WAIT_S)
    try:
        yield
    finally:
        _PLACES.release()
