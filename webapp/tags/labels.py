"""Labels to paper: pages, one PDF, PNG files. Every symbol is read back from its page before anything is handed out."""

import io
import zipfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import closing
from dataclasses import dataclass
from itertools import islice
from typing import BinaryIO

from PIL import Image

from webapp.errors import BadInput
from webapp.tags.fonts import not_covered
from webapp.tags.page import Label, Placed, draw_page, fit_words, place, split_pages
from webapp.tags.pdf import PdfWriter, packed_page, unpacked_page
from webapp.tags.pieces import PLUG_DISC_25, Piece
from webapp.tags.readback import check_page
from webapp.tags.ready_sheets import roll
from webapp.tags.sheets import Sheet

Progress = Callable[[int, int], object]
_WORKERS = 2  # a page at 600 dpi takes 35 MB while it is drawn


class Stopped(Exception):
    """Raised by a progress callable to end a job; nothing is handed out."""


@dataclass(frozen=True)
class _Page:
    placed: list[Placed]
    packed: bytes


def render_pages(
    labels: Sequence[Label],
    sheet: Sheet,
    start_position: int = 1,
    progress: Progress | None = None,
    piece: Piece | None = None,
) -> Iterator[Image.Image]:
    """1-bit pages, each read back. `progress(done, total)` counts labels; what it raises ends the job.

    BadInput for a start position that the sheet does not have; CannotPrint for a label that does not fit or read.
    """
    done = 0
    for cells in split_pages(_some(labels), sheet, start_position):
        placed = [place(label, position, sheet, piece) for position, label in cells]
        page = draw_page(placed, sheet)
        check_page(page, placed)
        done += len(cells)
        if progress:
            progress(done, len(labels))
        yield page


def to_pdf(
    labels: Sequence[Label],
    sheet: Sheet,
    start_position: int = 1,
    progress: Progress | None = None,
    piece: Piece | None = None,
) -> bytes:
    """One PDF of exact page size. Symbols are read back from the very bits in the PDF; errors as for `render_pages`."""
    out = io.BytesIO()
    write_pdf(out, labels, sheet, start_position, progress, piece)
    return out.getvalue()


def write_pdf(
    file: BinaryIO,
    labels: Sequence[Label],
    sheet: Sheet,
    start_position: int = 1,
    progress: Progress | None = None,
    piece: Piece | None = None,
) -> None:
    """`to_pdf` into a file, page by page, made on two cores. After an error the file is incomplete: throw it away."""
    writer = PdfWriter(file)
    done = 0
    cells_of_pages = split_pages(_some(labels), sheet, start_position)
    with closing(_in_order(lambda cells: _finished_page(cells, sheet, piece), cells_of_pages)) as pages:
        for page in pages:
            writer.add_page(sheet.page_width_mm, sheet.page_height_mm, sheet.page_dots, page.packed, sheet.dots_per_mm)
            done += len(page.placed)
            if progress:
                progress(done, len(labels))
    writer.close()


def to_png(label: Label, piece: Piece = PLUG_DISC_25, dpi: int = 300) -> bytes:
    """One label as a 1-bit PNG of its piece, with its resolution in it."""
    sheet = roll(piece.width_mm, piece.height_mm, dpi, piece.shape)
    placed = place(label, 0, sheet, piece)
    page = draw_page([placed], sheet)
    check_page(page, [placed])
    out = io.BytesIO()
    density = sheet.dots_per_mm * 25.4
    page.save(out, "PNG", dpi=(density, density))
    return out.getvalue()


def to_png_zip(
    labels: Sequence[Label], piece: Piece = PLUG_DISC_25, dpi: int = 300, progress: Progress | None = None
) -> bytes:
    """A zip of PNG files, one a label, named by code."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for done, label in enumerate(_some(labels), 1):
            archive.writestr(f"{done:04d}-{label.code}.png", to_png(label, piece, dpi))
            if progress:
                progress(done, len(labels))
    return out.getvalue()


def label_warnings(labels: Sequence[Label], sheet: Sheet, piece: Piece | None = None) -> list[str]:
    """What to tell before printing: small modules, words shortened or left out, letters that no font here has."""
    found: dict[str, None] = {}
    for label in labels:
        one = place(label, 0, sheet, piece)
        if one.fit.warning:
            found[one.fit.warning] = None
        if one.fit.text_box_mm is None:
            continue
        missing = not_covered(label.title + label.subtitle)
        if missing:
            found[
                f"Label {label.code}: no font on this computer has '{missing}'. They are left out. "
                "Install a font that has them on the shop's computer."
            ] = None
        if any(block.shortened for block in fit_words(one)):
            found[f"Label {label.code}: '{label.title}' is too long for this label and is shortened."] = None
    return list(found)


def _some(labels: Sequence[Label]) -> Sequence[Label]:
    if not labels:
        raise BadInput("There are no labels to print. Choose at least one specimen or tank.")
    return labels


def _finished_page(cells: list[tuple[int, Label]], sheet: Sheet, piece: Piece | None) -> _Page:
    placed = [place(label, position, sheet, piece) for position, label in cells]
    packed = packed_page(draw_page(placed, sheet))
    check_page(unpacked_page(packed, sheet.page_dots), placed)
    return _Page(placed, packed)


def _in_order(make: Callable[[list], _Page], items: Iterable[list]) -> Iterator[_Page]:
    """Results in order, made on `_WORKERS` threads, never more than one page ahead of them."""
    waiting = iter(items)
    with ThreadPoolExecutor(_WORKERS) as pool:
        ahead: list[Future[_Page]] = [pool.submit(make, item) for item in islice(waiting, _WORKERS + 1)]
        try:
            while ahead:
                result = ahead.pop(0).result()
                ahead.extend(pool.submit(make, item) for item in islice(waiting, 1))
                yield result
        finally:
            for future in ahead:
                future.cancel()
