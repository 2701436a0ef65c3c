"""The drawing of a sheet shows what will be printed where."""

from xml.etree import ElementTree

import pytest

from webapp.tags.preview import sheet_svg
from webapp.tags.ready_sheets import READY_SHEETS

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("key", READY_SHEETS)
def test_every_label_is_drawn_inside_the_page(key):
    sheet = READY_SHEETS[key]
    root = ElementTree.fromstring(sheet_svg(sheet))
    cells = [e for e in root if e.get("class")]
    assert len(cells) == sheet.per_page
    for cell in cells:
        if cell.tag == f"{SVG}circle":
            x, y, r = (float(cell.get(name)) for name in ("cx", "cy", "r"))
            box = (x - r, y - r, x + r, y + r)
        else:
            x, y, w, h = (float(cell.get(name)) for name in ("x", "y", "width", "height"))
            box = (x, y, x + w, y + h)
        assert min(box) >= -0.01
        assert box[2] <= sheet.page_width_mm + 0.01 and box[3] <= sheet.page_height_mm + 0.01


def test_used_positions_are_told_from_those_to_print_by_class_and_number():
    svg = sheet_svg(READY_SHEETS["a4-5x13"], start_position=10, count=4, label='A "half" sheet')
    root = ElementTree.fromstring(svg)
    kinds = [e.get("class") for e in root if e.get("class")]
    assert kinds == ["passed"] * 9 + ["taken"] * 4 + ["free"] * 52
    assert [e.text for e in root.iter(f"{SVG}text")] == ["1", "2", "3", "4"]
    assert root.get("aria-label") == 'A "half" sheet'
    assert "style" not in svg


def test_each_position_can_be_an_address():
    sheet = READY_SHEETS["a4-disc-25"]
    root = ElementTree.fromstring(sheet_svg(sheet, 3, 2, link=lambda position: f"/x?a=1&start={position}"))
    links = root.findall(f"{SVG}a")
    assert [one.get("href") for one in links] == [f"/x?a=1&start={n}" for n in range(1, sheet.per_page + 1)]
    assert all(one.get("aria-label") for one in links)
    assert root.get("role") == "group"
