"""`labels`: 1,000 labels at 600 dpi on A4 to one PDF with read-back, against the plain way without read-back."""

import tempfile
import time
from pathlib import Path
from random import Random

import qrcode
from PIL import Image

from webapp.tags.codes import new_code
from webapp.tags.labels import Label, write_pdf
from webapp.tags.page import place, split_pages
from webapp.tags.ready_sheets import READY_SHEETS
from webapp.tags.symbol import make_symbol

LABELS = 1000
SHEET = READY_SHEETS["a4-5x13"]


def run(emit) -> None:
    """Measure both in turn and emit ('labels', seconds of ours, seconds of the plain way), the better of two each."""
    random = Random(18004)
    codes = [new_code(random) for _ in range(LABELS)]
    labels = [Label(c, f"http://SHOP.LOCAL/{c}", f"Zoanthus, batch {i}", f"A{i % 40}") for i, c in enumerate(codes)]
    with tempfile.TemporaryDirectory() as folder:
        ours = min(_seconds(_ours, labels, Path(folder) / "ours.pdf") for _ in range(2))
        plain = min(_seconds(_plain, labels, Path(folder) / "plain.pdf") for _ in range(2))
    emit("labels", ours, plain)


def _seconds(work, labels: list[Label], path: Path) -> float:
    make_symbol.cache_clear()
    start = time.perf_counter()
    work(labels, path)
    return time.perf_counter() - start


def _ours(labels: list[Label], path: Path) -> None:
    with path.open("wb") as file:
        write_pdf(file, labels, SHEET)


def _plain(labels: list[Label], path: Path) -> None:
    """The same symbols at the same dots on the same pages, with qrcode and Pillow alone; no words, no read-back."""
    one = place(labels[0], 0, SHEET)
    for number, cells in enumerate(split_pages(labels, SHEET)):
        page = Image.new("1", SHEET.page_dots, 1)
        for position, label in cells:
            code = qrcode.QRCode(
                version=2, error_correction=qrcode.constants.ERROR_CORRECT_Q, box_size=one.fit.module_dots, border=0
            )
            code.add_data(label.address_url)
            code.make(fit=False)
            left, top = (mm * SHEET.dots_per_mm for mm in SHEET.cell_mm(position))
            corner = (round(left) + one.dots(one.fit.symbol_left_mm), round(top) + one.dots(one.fit.symbol_top_mm))
            page.paste(code.make_image().get_image(), corner)
        page.save(path, "PDF", resolution=SHEET.dpi, append=number > 0)
