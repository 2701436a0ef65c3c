"""Opening a picture that a stranger sent: only known formats, sizes looked at before anything is decoded."""

import io

from PIL import ExifTags, Image, ImageOps

from webapp.errors import BadInput

MAX_PHOTO_BYTES = 30_000_000  # a phone of 48 megapixels sends about 20
MAX_JPEG_PIXELS = 60_000_000
MAX_OTHER_PIXELS = 20_000_000  # PNG and WebP cannot be decoded at a smaller size
_WHOLE_PIXELS = 25_000_000
_HALVED_SIDE_PX = 4000
_FORMATS = ("JPEG", "PNG", "WEBP")
_MAX_SCANS = 64  # a progressive JPEG has about ten; thousands are made to keep a processor busy
_PHONE_ONLY = {b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1", b"avif", b"avis"}
#: Why a photo is refused, and what to send instead: a sentence each.
REFUSALS = {
    "empty": "The photo is empty. Please take it again.",
    "heavy": (
        f"This photo has more than {MAX_PHOTO_BYTES // 1_000_000} MB. Please choose a smaller size in the camera's "
        "settings, or send a JPEG."
    ),
    "phone_only": "This is a HEIC or AVIF picture, which cannot be read here. Please send a JPEG.",
    "no_picture": "This is not a picture that can be read. Please send a JPEG, PNG or WebP.",
    "odd": "This JPEG is put together in an unusual way. Please take the photo again.",
    "damaged": "This photo is damaged or was cut short on the way. Please send it again.",
    "pixels": (
        f"This picture has too many pixels; {MAX_JPEG_PIXELS // 1_000_000} million is the most for a JPEG, "
        f"{MAX_OTHER_PIXELS // 1_000_000} million for PNG and WebP. Please send a smaller JPEG."
    ),
}


def open_photo(data: bytes) -> Image.Image:
    """The picture, not decoded yet. BadInput, field 'photo', says in one sentence what to send instead."""
    if not data:
        raise _bad("empty")
    if len(data) > MAX_PHOTO_BYTES:
        raise _bad("heavy")
    if data[4:8] == b"ftyp" and data[8:12] in _PHONE_ONLY:
        raise _bad("phone_only")
    try:
        picture = Image.open(io.BytesIO(data), formats=_FORMATS)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _bad("pixels") from error
    except Exception as error:  # a decoder may raise anything on bytes made to upset it
        raise _bad("no_picture") from error
    jpeg = picture.format in ("JPEG", "MPO")
    if picture.width * picture.height > (MAX_JPEG_PIXELS if jpeg else MAX_OTHER_PIXELS):
        raise _bad("pixels")
    if jpeg and data.count(b"\xff\xda") > _MAX_SCANS:
        raise _bad("odd")
    return picture


def upright_size(picture: Image.Image) -> tuple[int, int]:
    """Width and height in pixels once the picture is turned as its Exif orientation says; ask before decoding.

    BadInput when the data are damaged.
    """
    try:
        turned = picture.getexif().get(ExifTags.Base.Orientation, 1) in (5, 6, 7, 8)
    except Exception as error:
        raise _bad("damaged") from error
    return (picture.height, picture.width) if turned else picture.size


def longest_side(picture: Image.Image) -> int | None:
    """The `long_side_px` at which a photo is decoded where all of it matters: None for the whole, half for a very large
    one, whose lens shows no more and whose pixels would take too much memory."""
    return _HALVED_SIDE_PX if picture.width * picture.height > _WHOLE_PIXELS else None


def decoded(picture: Image.Image, mode: str, long_side_px: int | None = None) -> Image.Image:
    """Decode in `mode` ('L' or 'RGB'), upright; a JPEG at a half, quarter or eighth that keeps `long_side_px`.

    BadInput when the data end early or are damaged.
    """
    if long_side_px:
        scale = max(1, max(picture.size) // long_side_px)
        picture.draft(mode, (picture.width // scale, picture.height // scale))
    try:
        picture.load()
        upright = ImageOps.exif_transpose(picture)
        return _flat(upright).convert(mode)
    except Exception as error:
        raise _bad("damaged") from error


def _flat(picture: Image.Image) -> Image.Image:
    """Transparent parts on white."""
    if not picture.has_transparency_data:
        return picture
    rgba = picture.convert("RGBA")
    white = Image.new("RGBA", rgba.size, "white")
    return Image.alpha_composite(white, rgba)


def _bad(why: str) -> BadInput:
    return BadInput(REFUSALS[why], "photo")
