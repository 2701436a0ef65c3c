"""From a photo to a ruler: large photos, the lens's own data, which tag is taken, memory."""

import io
import subprocess
import sys
from random import Random

import numpy as np
import pytest
from PIL import Image, ImageDraw

from tests.tags.making import HOSTS
from tests.tags.synthetic_ruler import make_view
from webapp.errors import BadInput
from webapp.tags.ruler import measure
from webapp.tags.ruler_photo import ruler_picture

DOTS_MM = [(-14.0, 9.0, 0.0), (13.0, 11.0, 0.0)]


def photo(size, at, view, exif=None):
    """The view somewhere in a larger photo, with two red dots at known places on the tag's plane."""
    picture = Image.new("RGB", size, (120, 120, 120))
    part = Image.fromarray(view.luma).convert("RGB")
    draw = ImageDraw.Draw(part)
    for x, y in view.pixels(DOTS_MM):
        draw.ellipse((x - 5.5, y - 5.5, x + 4.5, y + 4.5), fill=(255, 0, 0))
    picture.paste(part, at)
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=93, **({"exif": exif} if exif else {}))
    return out.getvalue()


def dots(made):
    """The middles of the two red dots in the picture that is kept, left to right."""
    pixels = np.asarray(Image.open(io.BytesIO(made.webp)).convert("RGB")).astype(int)
    ys, xs = np.nonzero((pixels[..., 0] > 150) & (pixels[..., 1] < 90))
    left = xs < (xs.min() + xs.max()) / 2
    return [(float(xs[side].mean()) + 0.5, float(ys[side].mean()) + 0.5) for side in (left, ~left)]


PLACES = [((1600, 1200), (300, 150)), ((4032, 3024), (2000, 1700)), ((6200, 4400), (4100, 300))]


@pytest.mark.long
@pytest.mark.parametrize(("size", "at"), PLACES)
def test_lengths_are_right_wherever_the_tag_lies_and_however_large_the_photo(size, at):
    """The largest has 27 megapixels and is decoded at half its size."""
    view = make_view(Random(31), 15, 16)
    made = ruler_picture(photo(size, at, view), HOSTS, "", lambda code: view.side_mm)
    true = float(np.linalg.norm(np.subtract(*DOTS_MM)))
    assert measure(made.ruler, dots(made)).length_mm == pytest.approx(true, rel=0.01)
    assert made.ruler.code == view.symbol.text[-7:]
    assert max(made.width, made.height) <= 1600
    assert not Image.open(io.BytesIO(made.webp)).getexif()


def test_the_lens_is_taken_from_the_photo_where_it_makes_sense():
    view = make_view(Random(32), 15, 16)
    focal = {}
    for said in (None, 52, 9000):
        exif = Image.Exif()
        exif[0x8769] = {0xA405: said or 0}
        data = photo((1600, 1200), (300, 150), view, exif)
        focal[said] = ruler_picture(data, HOSTS, "", lambda code: view.side_mm).ruler.focal_px
    assert focal[52] == pytest.approx(2 * focal[None])
    assert focal[9000] == focal[None]


def test_its_own_tag_is_preferred_to_a_larger_one():
    own, other = make_view(Random(33), 5, 10, size=(500, 500)), make_view(Random(34), 5, 16, size=(700, 700))
    picture = Image.new("L", (1400, 800), 120)
    picture.paste(Image.fromarray(own.luma), (20, 100))
    picture.paste(Image.fromarray(other.luma), (600, 50))
    out = io.BytesIO()
    picture.convert("RGB").save(out, "JPEG", quality=92)
    own_code, other_code = (view.symbol.text[-7:] for view in (own, other))
    assert ruler_picture(out.getvalue(), HOSTS, own_code, lambda code: 12.5).ruler.code == own_code
    assert ruler_picture(out.getvalue(), HOSTS, "", lambda code: 12.5).ruler.code == other_code
    only = {other_code: 12.5}
    assert ruler_picture(out.getvalue(), HOSTS, own_code, only.get).ruler.code == other_code
    with pytest.raises(BadInput, match="printed size"):
        ruler_picture(out.getvalue(), HOSTS, own_code, lambda code: None)


PEAK = """
import io, re, sys
from PIL import Image
from webapp.tags.photo import read_photo, prepare_photo, shown_picture
data = sys.stdin.buffer.read()
read_photo(data, ("shop.local",), thorough=True), prepare_photo(data), shown_picture(data)
print(int(re.search(r"VmHWM:\\s+(\\d+) kB", open("/proc/self/status").read())[1]) // 1024)
"""


@pytest.mark.long
def test_48_megapixels_are_read_in_bounded_memory():
    """Every step of the ladder on 8000 x 6000 pixels: half the size of the picture in RGB would already be 72 MB."""
    rng = np.random.default_rng(48)
    tile = rng.integers(60, 200, (600, 800, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(np.tile(tile, (10, 10, 1))).save(out, "JPEG", quality=80)
    assert len(out.getvalue()) > 12_000_000
    command = [sys.executable, "-c", PEAK]
    done = subprocess.run(command, input=out.getvalue(), capture_output=True, check=True, timeout=120)
    assert int(done.stdout) < 330
