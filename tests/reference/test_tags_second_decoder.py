"""The symbols by a second decoder that shares no code with the first: zbar, as Debian packages it (zbarimg)."""

import io
import subprocess

import pytest
from PIL import Image

from tests.tags.making import make_labels
from tests.tags.synthetic_rack import make_scene
from webapp.tags.labels import to_pdf, to_png
from webapp.tags.pieces import READY_PIECES
from webapp.tags.ready_sheets import READY_SHEETS

pytestmark = pytest.mark.long


def zbar(path):
    """The texts of all QR symbols in a picture file."""
    done = subprocess.run(
        ["zbarimg", "--quiet", "--raw", "--nodbus", "-Sdisable", "-Sqrcode.enable", str(path)],
        capture_output=True, text=True, timeout=60,
    )  # fmt: skip
    return sorted(done.stdout.split())


@pytest.mark.parametrize("piece", READY_PIECES, ids=lambda piece: piece.name)
@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_every_piece_at_every_resolution(tmp_path, piece, dpi):
    (label,) = make_labels(1)
    path = tmp_path / "label.png"
    picture = Image.open(io.BytesIO(to_png(label, piece, dpi))).convert("L")
    Image.new("L", (picture.width + 80, picture.height + 80), 255).save(path)
    whole = Image.open(path).copy()
    whole.paste(picture, (40, 40))
    whole.save(path)
    assert zbar(path) == [label.address_url]


@pytest.mark.parametrize("key", ["a4-5x13", "letter-3x10", "a4-disc-25", "a4-strip", "a4-placard"])
def test_every_symbol_of_a_page_rasterised_from_its_pdf(tmp_path, key):
    sheet = READY_SHEETS[key]
    labels = make_labels(min(sheet.per_page, 12))
    (tmp_path / "page.pdf").write_bytes(to_pdf(labels, sheet))
    drawing = ["pdftoppm", "-r", "300", "-gray", "-png", "-singlefile", "page.pdf", "page"]
    subprocess.run(drawing, cwd=tmp_path, check=True, timeout=60)
    assert zbar(tmp_path / "page.png") == sorted(label.address_url for label in labels)


def test_zbar_reads_nothing_in_a_rack_that_is_not_there(tmp_path):
    """Both decoders agree on a photographed rack: no code is read that the scene does not show."""
    scene = make_scene(1)
    path = tmp_path / "rack.png"
    Image.open(io.BytesIO(scene.jpeg)).save(path)
    found = {text.removeprefix("http://SHOP.LOCAL/") for text in zbar(path)}
    assert found <= set(scene.visible)
    assert len(found) > 0.5 * len(scene.visible)
