"""The alignment page has its rulers and outlines on every ready sheet."""

from dataclasses import replace

import pytest
from PIL import ImageChops

from webapp.tags.alignment import alignment_page, alignment_pdf
from webapp.tags.ready_sheets import READY_SHEETS, roll


@pytest.mark.parametrize("key", ["a4-disc-25", "letter-4x20", "roll-40x30-203", "roll-25-300"])
def test_a_page_of_the_sheet_s_size_with_ink_and_paper(key):
    sheet = READY_SHEETS[key]
    page = alignment_page(sheet)
    assert page.size == sheet.page_dots
    assert page.convert("L").getextrema() == (0, 255)
    assert alignment_pdf(sheet).startswith(b"%PDF-1.7")


def test_rulers_of_a_small_label_are_as_long_as_fits():
    """50 x 30 mm leaves 40 mm across and 20 mm down: at 8 dots a millimetre, lines of 320 and 160 dots."""
    page = alignment_page(roll(50, 30, 203)).convert("L")
    row = [page.getpixel((x, 15 * 8)) for x in range(5, 395)]
    column = [page.getpixel((25 * 8, y)) for y in range(5, 235)]
    assert abs(row.count(0) - 320) <= 2
    assert abs(column.count(0) - 160) <= 2


def test_an_offset_moves_the_outlines_and_not_the_rulers():
    plain = roll(60, 40, 203)
    moved = alignment_page(replace(plain, offset_x_mm=1.0)).convert("L")
    still = alignment_page(plain).convert("L")
    changed = ImageChops.difference(moved, still).getbbox()
    assert changed[0] <= 1
    inner = (40, 80, 440, 240)
    assert ImageChops.difference(moved.crop(inner), still.crop(inner)).getbbox() is None
