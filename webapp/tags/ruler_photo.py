"""From an uploaded photo to a ruler: the tag found, its place in the picture made exact, the part around it cut out."""

import io
import math
from collections.abc import Callable, Collection
from dataclasses import dataclass, replace

import numpy as np
from PIL import ExifTags, Image

from webapp.errors import BadInput
from webapp.tags.opening import decoded, longest_side, open_photo, upright_size
from webapp.tags.photo import FoundTag, read_photo
from webapp.tags.registering import register
from webapp.tags.ruler import LEAST_SIDE_PX, Ruler
from webapp.tags.symbol import make_symbol

_REACH_SIDES = 4.5  # how much round the tag is kept, in sides of its symbol
_LONGEST_SIDE_PX = 1600
_THUMB_SIDE_PX = 320
_USUAL_FOCAL_MM = 26.0  # of a phone's main camera, for the 43.27 mm diagonal of a 24 x 36 mm picture
_DIAGONAL_MM = math.hypot(24, 36)
_TOO_SMALL_PX = LEAST_SIDE_PX * 0.6


@dataclass(frozen=True)
class RulerPicture:
    """The cut-out picture, without camera data, and the ruler in its pixels."""

    ruler: Ruler
    webp: bytes
    thumb_webp: bytes
    width: int
    height: int


def ruler_picture(
    data: bytes, hosts: Collection[str], own_code: str, side_of: Callable[[str], float | None]
) -> RulerPicture:
    """The specimen's own tag as a ruler, else the largest other one. `side_of`: a code's printed symbol in mm, or None.

    BadInput when the bytes are no photo, no tag of known size is in it, or it is too small in the frame.
    """
    tag, side_mm = _chosen(data, hosts, own_code, side_of)
    corners = np.array(tag.corners) + 0.5
    side_px = float(np.mean(np.linalg.norm(corners - np.roll(corners, 1, axis=0), axis=1)))
    if side_px < _TOO_SMALL_PX:
        raise BadInput(
            f"The tag is too small in this photo, {side_px:.0f} pixels a side. Go closer, so that it has "
            f"{LEAST_SIDE_PX} or more: about a tenth of the picture's width.", "photo",
        )  # fmt: skip
    photo = open_photo(data)
    focal_mm, width = _focal_mm(photo), upright_size(photo)[0]
    picture = decoded(photo, "RGB", longest_side(photo))
    corners *= picture.width / width
    found = register(np.asarray(picture.convert("L")), corners, make_symbol(tag.text), side_mm)
    focal_px = focal_mm / _DIAGONAL_MM * math.hypot(*picture.size)
    centre = (picture.width / 2, picture.height / 2)
    ruler = Ruler(found.homography, found.covariance, focal_px, centre, side_mm, side_px, found.exact, tag.code)
    return _cut_out(picture, ruler, corners)


def _chosen(
    data: bytes, hosts: Collection[str], own_code: str, side_of: Callable[[str], float | None]
) -> tuple[FoundTag, float]:
    tags = read_photo(data, hosts).tags
    if own_code not in {tag.code for tag in tags}:
        tags = read_photo(data, hosts, thorough=True).tags
    if not tags:
        raise BadInput("No tag of ours was read here. Hold the phone straight above, tag and animal in view.", "photo")
    known = [(tag, side) for tag in tags if (side := side_of(tag.code))]
    if not known:
        raise BadInput("The printed size of this tag is not noted. Measure its symbol and type its side.", "side_mm")
    return max(known, key=lambda one: (one[0].code == own_code, _extent(one[0])))


def _extent(tag: FoundTag) -> float:
    return math.dist(tag.corners[0], tag.corners[2])


def _focal_mm(photo: Image.Image) -> float:
    """The focal length as for a picture of 24 x 36 mm, by the photo's own data where they make sense."""
    try:
        said = photo.getexif().get_ifd(ExifTags.IFD.Exif).get(ExifTags.Base.FocalLengthIn35mmFilm)
        value = float(said or 0)
    except Exception:  # these data come from a stranger's file and may be anything
        value = 0.0
    return value if 10 <= value <= 200 else _USUAL_FOCAL_MM


def _cut_out(picture: Image.Image, ruler: Ruler, corners: np.ndarray) -> RulerPicture:
    x, y = corners.mean(axis=0)
    reach = _REACH_SIDES * float(np.linalg.norm(corners[0] - corners[2])) / math.sqrt(2)
    left, top = max(0, int(x - reach)), max(0, int(y - reach))
    right, bottom = min(picture.width, int(x + reach) + 1), min(picture.height, int(y + reach) + 1)
    part = picture.crop((left, top, right, bottom))
    scale = min(1.0, _LONGEST_SIDE_PX / max(part.size))
    size = (round(part.width * scale), round(part.height * scale))
    exact = size[0] / part.width
    small = part.resize(size, Image.Resampling.LANCZOS) if scale < 1 else part
    thumb = small.copy()
    thumb.thumbnail((_THUMB_SIDE_PX, _THUMB_SIDE_PX), Image.Resampling.LANCZOS)
    moved = replace(ruler.scaled(left, top, exact), side_px=ruler.side_px)  # warnings speak of the photo as taken
    return RulerPicture(moved, _webp(small), _webp(thumb), small.width, small.height)


def _webp(picture: Image.Image) -> bytes:
    out = io.BytesIO()
    picture.info.clear()
    picture.save(out, "WEBP", quality=82, method=4)
    return out.getvalue()
