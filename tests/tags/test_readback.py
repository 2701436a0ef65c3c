"""Read-back must fail where a phone would: these labels are spoilt on purpose."""

import pytest
from PIL import ImageDraw, ImageFilter

from tests.tags.making import make_labels
from webapp.errors import CannotPrint
from webapp.tags.page import draw_page, place
from webapp.tags.readback import check_page, read_label
from webapp.tags.ready_sheets import READY_SHEETS, roll

SHEET = READY_SHEETS["roll-50x30-203"]


def drawn(sheet=SHEET):
    label = make_labels(1)[0]
    placed = place(label, 0, sheet)
    return draw_page([placed], sheet), placed


def symbol_box(placed):
    left = placed.left + placed.dots(placed.fit.symbol_left_mm)
    top = placed.top + placed.dots(placed.fit.symbol_top_mm)
    side = placed.symbol.size * placed.fit.module_dots
    return left, top, left + side, top + side


def test_a_good_label_reads_as_itself_alone():
    page, placed = drawn()
    check_page(page, [placed])
    assert read_label(page, placed) == [placed.label.address_url]


@pytest.mark.long
@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("key", ["a4-disc-19", "letter-4x20", "roll-25-300", "a4-5x13"])
def test_good_labels_pass_at_every_size(key, seed):
    sheet = READY_SHEETS[key]
    labels = make_labels(60 + seed)[: sheet.per_page]
    placed = [place(label, position, sheet) for position, label in enumerate(labels)]
    check_page(draw_page(placed, sheet), placed)


def test_a_lost_finder_is_noticed_and_the_label_named():
    page, placed = drawn()
    left, top, _, _ = symbol_box(placed)
    lost = 5 * placed.fit.module_dots
    ImageDraw.Draw(page).rectangle((left, top, left + lost, top + lost), fill=1)
    with pytest.raises(CannotPrint, match=placed.label.code):
        check_page(page, [placed])


def test_a_dark_edge_against_the_symbol_is_noticed():
    """No quiet zone at all: a clean full-size picture of it decodes, the reduced one must not be trusted to."""
    page, placed = drawn()
    left, top, right, bottom = symbol_box(placed)
    draw = ImageDraw.Draw(page)
    margin = 4 * placed.fit.module_dots
    for box in (
        (left - margin, top - margin, right + margin, top - 1),
        (left - margin, bottom, right + margin, bottom + margin),
        (left - margin, top - margin, left - 1, bottom + margin),
        (right, top - margin, right + margin, bottom + margin),
    ):
        draw.rectangle(box, fill=0)
    with pytest.raises(CannotPrint, match="no reader finds"):
        check_page(page, [placed])


def test_ink_that_spreads_by_half_a_module_is_noticed():
    sheet = roll(50, 30, 600)
    page, placed = drawn(sheet)
    width = placed.fit.module_dots | 1
    spread = page.convert("L").filter(ImageFilter.MinFilter(width)).convert("1")
    with pytest.raises(CannotPrint):
        check_page(spread, [placed])


def test_another_label_in_its_place_is_noticed():
    page, placed = drawn()
    other = place(make_labels(2)[1], 0, SHEET)
    with pytest.raises(CannotPrint, match="it reads 'http://SHOP.LOCAL/"):
        check_page(page, [other])
    assert read_label(page, placed)
