"""Label PDFs against poppler: page boxes by pdfinfo, positions and symbols from what pdftoppm draws."""

import io
import re
import subprocess
from random import Random

import numpy as np
import pytest
import zxingcpp
from PIL import Image

from webapp.tags.alignment import alignment_pdf
from webapp.tags.codes import new_code
from webapp.tags.labels import Label, to_pdf
from webapp.tags.ready_sheets import READY_SHEETS

pytestmark = pytest.mark.long

PAPER_MM = {"a4": (210, 297), "letter": (215.9, 279.4)}  # ISO 216; ANSI/ASME Y14.1


def labels(count, title="Green mushroom"):
    random = Random(count)
    return [Label(c, f"http://SHOP.LOCAL/{c}", title) for c in (new_code(random) for _ in range(count))]


def pdfinfo(path):
    done = subprocess.run(["pdfinfo", "-box", path], check=True, capture_output=True, text=True)
    assert not done.stderr, done.stderr
    return done.stdout


def rasterised(path, dpi, page=1):
    command = ["pdftoppm", "-r", str(dpi), "-f", str(page), "-l", str(page), "-gray", path]
    return Image.open(io.BytesIO(subprocess.run(command, check=True, capture_output=True).stdout))


@pytest.fixture
def path(tmp_path):
    return tmp_path / "labels.pdf"


PAGES = {(s.page_width_mm, s.page_height_mm, s.dpi): key for key, s in READY_SHEETS.items()}


@pytest.mark.parametrize("key", PAGES.values())
def test_page_size_is_exact(key, path):
    sheet = READY_SHEETS[key]
    path.write_bytes(to_pdf(labels(1), sheet))
    box = re.search(r"MediaBox:\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)\s+([\d.]+)", pdfinfo(path))
    paper = PAPER_MM.get(key.split("-")[0], (sheet.page_width_mm, sheet.page_height_mm))
    # pdfinfo prints hundredths of a point: 0.0035 mm
    for printed, millimetres in zip(box.groups()[2:], paper, strict=True):
        assert float(printed) * 25.4 / 72 == pytest.approx(millimetres, abs=0.002)
    if key.startswith("a4"):
        assert re.search(r"Page size:.*\(A4\)", pdfinfo(path))


def test_every_label_reads_from_the_rasterised_pages(path):
    batch = labels(75)
    sheet = READY_SHEETS["a4-square-25"]
    path.write_bytes(to_pdf(batch, sheet))
    assert "Pages:           2" in pdfinfo(path)
    for dpi in (600, 200):
        texts = set()
        for page in (1, 2):
            found = zxingcpp.read_barcodes(rasterised(path, dpi, page), formats=zxingcpp.BarcodeFormat.QRCode)
            texts |= {barcode.text for barcode in found}
        assert texts == {label.address_url for label in batch}


@pytest.mark.parametrize("key", ["a4-5x13", "letter-3x10", "a4-disc-25"])
def test_symbols_stand_where_the_sheet_says(key, path):
    """Corners found by the decoder at 300 dpi against the label's cell; half a pixel is 0.04 mm."""
    sheet = READY_SHEETS[key]
    start, dpi = 6, 300
    path.write_bytes(to_pdf(labels(4), sheet, start_position=start))
    found = zxingcpp.read_barcodes(rasterised(path, dpi), formats=zxingcpp.BarcodeFormat.QRCode)
    assert len(found) == 4
    for position in range(start - 1, start + 3):
        left, top = sheet.cell_mm(position)
        inside = [
            b
            for b in found
            if left < b.position.top_left.x / dpi * 25.4 < left + sheet.label_width_mm
            and top < b.position.top_left.y / dpi * 25.4 < top + sheet.label_height_mm
        ]
        assert len(inside) == 1


@pytest.mark.parametrize("dpi", [300, 600])
def test_cut_lines_measure_their_size(dpi, path):
    """The outermost dark pixels of a lone 20 mm square are its hairline: position and size to one dot."""
    sheet = READY_SHEETS["a4-square-20"]
    path.write_bytes(to_pdf(labels(1), sheet, start_position=10))
    dark = np.asarray(rasterised(path, dpi)) < 128
    rows, columns = np.flatnonzero(dark.any(axis=1)), np.flatnonzero(dark.any(axis=0))
    left, top = sheet.cell_mm(9)
    dot = 25.4 / dpi
    assert columns[0] * dot == pytest.approx(left, abs=1.5 * dot)
    assert rows[0] * dot == pytest.approx(top, abs=1.5 * dot)
    assert (columns[-1] - columns[0]) * dot == pytest.approx(20, abs=1.5 * dot)
    assert (rows[-1] - rows[0]) * dot == pytest.approx(20, abs=1.5 * dot)


@pytest.mark.parametrize("key", ["a4-4x10", "letter-2x5"])
def test_rulers_measure_a_hundred_millimetres(key, path):
    """First and last tick of both rulers, from the page as poppler draws it."""
    sheet = READY_SHEETS[key]
    path.write_bytes(alignment_pdf(sheet))
    dpi = 300
    dark = np.asarray(rasterised(path, dpi)) < 128
    dot = 25.4 / dpi
    middle_x, middle_y = (round(mm / 2 / dot) for mm in (sheet.page_width_mm, sheet.page_height_mm))
    across = longest_run(dark[middle_y])
    down = longest_run(dark[:, middle_x])
    assert across * dot == pytest.approx(100, abs=0.2)
    assert down * dot == pytest.approx(100, abs=0.2)


def longest_run(line):
    edges = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(int), [0]))))
    return int((edges[1::2] - edges[::2]).max())


def test_a_roll_label_has_whole_dots_at_eight_a_millimetre(path):
    """A 203 dpi head has 8 dots a millimetre: 50 x 30 mm is 400 x 240 dots, and pdftoppm at 203.2 draws each once."""
    sheet = READY_SHEETS["roll-50x30-203"]
    path.write_bytes(to_pdf(labels(3), sheet))
    assert "Pages:           3" in pdfinfo(path)
    assert "141.732 x 85.0394" in pdfinfo(path)
    picture = rasterised(path, 203.2)
    assert abs(picture.width - 400) <= 1
    assert abs(picture.height - 240) <= 1


def test_pictures_in_the_file_are_one_bit_at_the_stated_resolution(path):
    path.write_bytes(to_pdf(labels(2), READY_SHEETS["a4-5x13"]))
    listed = subprocess.run(["pdfimages", "-list", path], check=True, capture_output=True, text=True).stdout
    row = listed.splitlines()[2].split()
    assert row[3:5] == ["4961", "7016"]
    assert (row[7], row[12], row[13]) == ("1", "600", "600")
