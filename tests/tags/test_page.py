"""Which label stands where: every label once, none on a used position."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.tags.making import make_labels
from webapp.errors import BadInput
from webapp.tags.page import page_count, place, split_pages
from webapp.tags.ready_sheets import READY_SHEETS

SHEETS = st.sampled_from(list(READY_SHEETS.values()))
LABELS = make_labels(200)


@given(SHEETS, st.integers(0, 200), st.data())
def test_every_label_has_one_position_and_they_follow_on(sheet, count, data):
    start = data.draw(st.integers(1, sheet.per_page))
    pages = list(split_pages(LABELS[:count], sheet, start))
    assert len(pages) == page_count(count, sheet, start)
    assert [label for page in pages for _, label in page] == LABELS[:count]
    places = [number * sheet.per_page + position for number, page in enumerate(pages) for position, _ in page]
    assert places == list(range(start - 1, start - 1 + count))
    assert all(0 <= position < sheet.per_page for page in pages for position, _ in page)


def test_a_position_beyond_the_sheet_is_refused():
    with pytest.raises(BadInput, match="1 to 65"):
        page_count(1, READY_SHEETS["a4-5x13"], 66)


@pytest.mark.parametrize("key", READY_SHEETS)
def test_symbols_stand_on_whole_dots_inside_their_label(key):
    sheet = READY_SHEETS[key]
    for position in (0, sheet.per_page - 1):
        placed = place(LABELS[0], position, sheet)
        left, top = (mm * sheet.dots_per_mm for mm in sheet.cell_mm(position))
        assert (placed.left, placed.top) == (round(left), round(top))
        side = placed.symbol.size * placed.fit.module_dots
        assert placed.dots(placed.fit.symbol_left_mm) + side <= placed.dots(sheet.label_width_mm)
        assert placed.dots(placed.fit.symbol_top_mm) + side <= placed.dots(sheet.label_height_mm)
