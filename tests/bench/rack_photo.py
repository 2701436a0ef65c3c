"""`rack_photo`: from uploaded bytes to the list of tags on the first step, against opening the JPEG and one call."""

import io
import time

import zxingcpp
from PIL import Image

from tests.tags.making import HOSTS
from tests.tags.synthetic_rack import make_scene
from webapp.tags.photo import read_photo

ROUNDS = 9


def run(emit) -> None:
    """A rack of 40 to 48 tags in a photo of 12 megapixels, as phones send them; the median of nine rounds each."""
    data = _twelve_megapixels()
    assert read_photo(data, HOSTS).step == "small"
    pairs = [(_seconds(_ours, data), _seconds(_plain, data)) for _ in range(ROUNDS)]
    emit("rack_photo", *(sorted(times)[ROUNDS // 2] for times in zip(*pairs, strict=True)))
    small = make_scene(0).jpeg
    pairs = [(_seconds(_ours, small), _seconds(_plain, small)) for _ in range(ROUNDS)]
    emit("rack_photo_3.6mp", *(sorted(times)[ROUNDS // 2] for times in zip(*pairs, strict=True)))


def _twelve_megapixels() -> bytes:
    picture = Image.open(io.BytesIO(make_scene(0).jpeg))
    scale = 4032 / picture.width
    large = picture.resize((4032, round(picture.height * scale)), Image.Resampling.BICUBIC)
    whole = Image.new("RGB", (4032, 3024), (60, 60, 60))
    whole.paste(large, (0, (3024 - large.height) // 2))
    out = io.BytesIO()
    whole.save(out, "JPEG", quality=88)
    return out.getvalue()


def _seconds(work, data: bytes) -> float:
    start = time.perf_counter()
    work(data)
    return time.perf_counter() - start


def _ours(data: bytes) -> None:
    assert read_photo(data, HOSTS).tags


def _plain(data: bytes) -> None:
    """The whole photo in grey, one call."""
    picture = Image.open(io.BytesIO(data)).convert("L")
    assert zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
