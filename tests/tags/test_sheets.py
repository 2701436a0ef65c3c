"""Sheet geometries close, and impossible ones are refused with the field named."""

import pytest

from webapp.errors import BadInput
from webapp.tags.ready_sheets import READY_SHEETS, cut_sheet, roll
from webapp.tags.sheets import Sheet

GOOD = {
    "name": "Own", "page_width_mm": 210, "page_height_mm": 297, "columns": 4, "rows": 10, "label_width_mm": 45.7,
    "label_height_mm": 25.4, "pitch_x_mm": 48.3, "pitch_y_mm": 25.4, "left_mm": 9.7, "top_mm": 21.5,
}  # fmt: skip


@pytest.mark.parametrize("key", READY_SHEETS)
def test_ready_grids_close(key):
    """Margins, labels and pitch add up to the page, the same on both sides."""
    sheet = READY_SHEETS[key]
    right = sheet.page_width_mm - sheet.left_mm - (sheet.columns - 1) * sheet.pitch_x_mm - sheet.label_width_mm
    below = sheet.page_height_mm - sheet.top_mm - (sheet.rows - 1) * sheet.pitch_y_mm - sheet.label_height_mm
    assert right == pytest.approx(sheet.left_mm)
    assert below == pytest.approx(sheet.top_mm)
    assert sheet.cell_mm(sheet.per_page - 1)[0] + sheet.label_width_mm <= sheet.page_width_mm + 1e-9


def test_positions_run_along_rows():
    sheet = Sheet(**GOOD, offset_x_mm=0.5, offset_y_mm=-1)
    assert sheet.cell_mm(0) == (pytest.approx(10.2), pytest.approx(20.5))
    assert sheet.cell_mm(1) == (pytest.approx(58.5), pytest.approx(20.5))
    assert sheet.cell_mm(4) == (pytest.approx(10.2), pytest.approx(45.9))


def test_a_roll_of_203_dpi_has_eight_dots_a_millimetre():
    assert roll(50, 30, 203).page_dots == (400, 240)


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"columns": 5}, "left_mm"),
        ({"rows": 12}, "top_mm"),
        ({"left_mm": -1}, "left_mm"),
        ({"pitch_x_mm": 40}, "pitch_x_mm"),
        ({"pitch_y_mm": 20}, "pitch_y_mm"),
        ({"columns": 0}, "columns"),
        ({"rows": 61}, "rows"),
        ({"dpi": 72}, "dpi"),
        ({"shape": "star"}, "shape"),
        ({"shape": "disc"}, "label_height_mm"),
        ({"page_width_mm": 5000}, "page_width_mm"),
        ({"label_width_mm": float("nan")}, "label_width_mm"),
        ({"left_mm": float("nan")}, "left_mm"),
        ({"pitch_x_mm": float("nan")}, "pitch_x_mm"),
        ({"offset_x_mm": 11}, "offset_x_mm"),
        ({"corner_mm": 30}, "corner_mm"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(change, field):
    with pytest.raises(BadInput) as caught:
        Sheet(**(GOOD | change))
    assert caught.value.field == field


def test_pieces_larger_than_the_page_are_refused():
    with pytest.raises(BadInput, match="larger than the page"):
        cut_sheet("A4", "disc", 300)
