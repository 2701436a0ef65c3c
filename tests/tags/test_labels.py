"""Batches of labels: positions, progress, stopping, files."""

import io
import threading
import zipfile

import pytest
import zxingcpp
from PIL import Image

from tests.tags.making import make_labels
from webapp.errors import BadInput, CannotPrint
from webapp.tags.labels import Stopped, label_warnings, render_pages, to_pdf, to_png, to_png_zip, write_pdf
from webapp.tags.page import Label
from webapp.tags.pieces import PLUG_DISC_19, PLUG_SQUARE_20, RACK_EDGE, READY_PIECES, Piece
from webapp.tags.ready_sheets import READY_SHEETS, roll
from webapp.tags.sheets import Sheet

SHEET = READY_SHEETS["a4-5x13"]
# the same paper, drawn coarser: quick
COARSE = Sheet("Coarse", 210, 297, 5, 13, 38.1, 21.2, 40.6, 21.2, 4.75, 10.7, dpi=203)


def texts(picture):
    return {b.text for b in zxingcpp.read_barcodes(picture.convert("L"), formats=zxingcpp.BarcodeFormat.QRCode)}


def test_pages_are_one_bit_and_hold_every_label():
    labels = make_labels(70)
    pages = list(render_pages(labels, COARSE))
    assert [page.mode for page in pages] == ["1", "1"]
    assert pages[0].size == (1680, 2376)  # 210 x 297 mm at 8 dots a millimetre
    assert [len(texts(page)) for page in pages] == [65, 5]
    assert set().union(*map(texts, pages)) == {label.address_url for label in labels}


def test_a_half_used_sheet_goes_on_where_it_stopped():
    labels = make_labels(3)
    first, second = render_pages(labels, COARSE, start_position=64)
    assert texts(first) == {labels[0].address_url, labels[1].address_url}
    assert texts(second) == {labels[2].address_url}
    untouched = first.crop((0, 0, first.width, round((10.7 + 12 * 21.2) * 8)))
    assert untouched.convert("L").getextrema() == (255, 255)


@pytest.mark.parametrize("position", [0, 66, -3])
def test_a_position_the_sheet_does_not_have_is_refused(position):
    with pytest.raises(BadInput, match="positions 1 to 65") as caught:
        to_pdf(make_labels(1), COARSE, start_position=position)
    assert caught.value.field == "start_position"


@pytest.mark.parametrize(
    "work", [lambda: to_pdf([], SHEET), lambda: next(render_pages([], SHEET)), lambda: to_png_zip([])]
)
def test_no_labels_is_said_not_printed(work):
    with pytest.raises(BadInput, match="no labels"):
        work()


def test_progress_counts_labels_to_the_end():
    seen = []
    to_pdf(make_labels(150), COARSE, progress=lambda done, total: seen.append((done, total)))
    assert seen == [(65, 150), (130, 150), (150, 150)]


def test_a_job_can_be_stopped_and_leaves_no_thread_behind():
    def stop(done, total):
        raise Stopped

    before = threading.active_count()
    with pytest.raises(Stopped):
        to_pdf(make_labels(400), COARSE, progress=stop)
    assert threading.active_count() == before


def test_a_label_that_does_not_fit_stops_the_job_before_anything_is_handed_out():
    small = roll(20, 10, 300)
    with pytest.raises(CannotPrint, match="smallest that fits"):
        to_pdf(make_labels(2), small)


def test_the_same_labels_give_the_same_file():
    assert to_pdf(make_labels(80), COARSE) == to_pdf(make_labels(80), COARSE)


def test_a_pdf_can_go_straight_to_a_file():
    out = io.BytesIO()
    write_pdf(out, make_labels(2), COARSE)
    assert out.getvalue() == to_pdf(make_labels(2), COARSE)


@pytest.mark.parametrize("piece", READY_PIECES, ids=lambda piece: piece.name)
@pytest.mark.parametrize("dpi", [203, 300, 600])
def test_png_has_the_piece_s_size_and_reads(piece, dpi):
    label = make_labels(1)[0]
    picture = Image.open(io.BytesIO(to_png(label, piece, dpi)))
    density = 8 if dpi == 203 else dpi / 25.4
    assert picture.size == (round(piece.width_mm * density), round(piece.height_mm * density))
    assert picture.info["dpi"][0] == pytest.approx(density * 25.4, abs=0.02)
    assert picture.mode == "1"
    assert texts(picture) == {label.address_url}


def test_zip_holds_a_png_for_each_label_in_order():
    labels = make_labels(12)
    seen = []
    data = to_png_zip(labels, PLUG_DISC_19, 300, progress=lambda done, total: seen.append(done))
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert [name.split("-")[1] for name in archive.namelist()] == [f"{label.code}.png" for label in labels]
        for name, label in zip(archive.namelist(), labels, strict=True):
            assert texts(Image.open(archive.open(name))) == {label.address_url}
    assert seen == list(range(1, 13))


def test_a_smaller_piece_stands_in_the_middle_of_the_label():
    label = make_labels(1)[0]
    (page,) = render_pages([label], READY_SHEETS["letter-3x4"], piece=PLUG_SQUARE_20)
    found = zxingcpp.read_barcode(page.convert("L"))
    density = 600 / 25.4
    left, top = READY_SHEETS["letter-3x4"].cell_mm(0)
    middle_x = (found.position.top_left.x + found.position.bottom_right.x) / 2 / density
    assert middle_x == pytest.approx(left + 50.8 / 2, abs=0.1)
    assert top + (50.8 - 20) / 2 < found.position.top_left.y / density < top + 50.8 / 2


def test_warnings_name_what_the_label_cannot_show():
    code = make_labels(1)[0].code
    url = f"http://SHOP.LOCAL/{code}"
    fine = Label(code, url, "Mushroom", "B3")
    long = Label(code, url, "A very long name that goes on " * 8)
    odd = Label(code, url, "Mushroom \U0001fab8\ue000")
    assert label_warnings([fine], SHEET) == []
    (warning,) = label_warnings([long], SHEET)
    assert warning == f"Label {code}: '{long.title}' is too long for this label and is shortened."
    assert any("\ue000" in warning and "no font" in warning for warning in label_warnings([odd], SHEET))
    assert any("small" in w for w in label_warnings([fine], READY_SHEETS["letter-4x20"]))


@pytest.mark.parametrize("title", ["", "Reef \U0001fab8\ue000", "W" * 300, "a\nb\tc", "กะรัง", "Koralle ÄÖÜß", "珊瑚"])
@pytest.mark.parametrize("piece", [RACK_EDGE, Piece("Square label", "rect", 45, 50)])
def test_no_title_keeps_a_label_from_reading(title, piece):
    label = make_labels(1)[0]
    picture = Image.open(io.BytesIO(to_png(Label(label.code, label.address_url, title, title), piece, 300)))
    assert texts(picture) == {label.address_url}
