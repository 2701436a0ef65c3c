"""A page to print once on plain paper and hold against a sheet of labels: rulers, and the outline of every label."""

import io

from PIL import Image, ImageDraw

from webapp.tags.fonts import font, runs
from webapp.tags.pdf import PdfWriter, packed_page
from webapp.tags.pieces import MM_PER_POINT
from webapp.tags.sheets import Sheet

_RULER_MM = 100
_TICKS_MM = {10: 4.0, 5: 2.8, 1: 1.6}
_LINE_MM = 0.15
_WORDS_POINTS = 8
_WORDS = (
    "Print at 100 %, without 'fit to page'.",
    f"Each ruler must measure {_RULER_MM} mm.",
    "Hold against a sheet of labels.",
    "If the outlines sit beside the labels,",
    "enter the difference as the offset.",
)


def alignment_pdf(sheet: Sheet) -> bytes:
    """One page of the sheet's exact size: an outline of every label, and rulers to measure what the printer did."""
    out = io.BytesIO()
    writer = PdfWriter(out)
    packed = packed_page(alignment_page(sheet))
    writer.add_page(sheet.page_width_mm, sheet.page_height_mm, sheet.page_dots, packed, sheet.dots_per_mm)
    writer.close()
    return out.getvalue()


def alignment_page(sheet: Sheet) -> Image.Image:
    """The page as a 1-bit picture. The long rulers measure 100 mm where the page has room, else a multiple of 10 mm."""
    page = Image.new("1", sheet.page_dots, 1)
    draw = ImageDraw.Draw(page)
    draw.fontmode = "1"
    density = sheet.dots_per_mm
    width = max(1, round(_LINE_MM * density))
    for position in range(sheet.per_page):
        left, top = (round(mm * density) for mm in sheet.cell_mm(position))
        box = (left, top, left + round(sheet.label_width_mm * density), top + round(sheet.label_height_mm * density))
        if sheet.shape == "disc":
            draw.ellipse(box, outline=0, width=width)
        else:
            draw.rounded_rectangle(box, round(sheet.corner_mm * density), outline=0, width=width)
    across, down = _ruler_length(sheet.page_width_mm), _ruler_length(sheet.page_height_mm)
    x, y = (sheet.page_width_mm - across) / 2, (sheet.page_height_mm - down) / 2
    _clear(draw, density, x - 2, sheet.page_height_mm / 2 - 6, across + 4, 12)
    _clear(draw, density, sheet.page_width_mm / 2 - 6, y - 2, 12, down + 4)
    _ruler(draw, density, x, sheet.page_height_mm / 2, across, upright=False)
    _ruler(draw, density, sheet.page_width_mm / 2, y, down, upright=True)
    if across >= _RULER_MM <= down:
        _words(draw, density, sheet.page_width_mm / 2 + 12, sheet.page_height_mm / 2 - 32)
    return page


def _ruler_length(page_mm: float) -> int:
    return min(_RULER_MM, int((page_mm - 10) // 10) * 10)


def _clear(draw: ImageDraw.ImageDraw, density: float, x: float, y: float, width: float, height: float) -> None:
    draw.rectangle([round(v * density) for v in (x, y, x + width, y + height)], fill=1)


def _ruler(draw: ImageDraw.ImageDraw, density: float, x: float, y: float, length: int, *, upright: bool) -> None:
    """A ruler from (x, y) mm: its first and last tick are `length` mm apart, centre to centre."""
    width = max(1, round(_LINE_MM * density))
    for mm in range(length + 1):
        tick = next(size for step, size in _TICKS_MM.items() if mm % step == 0)
        start, end = ((x, y + mm), (x + tick, y + mm)) if upright else ((x + mm, y), (x + mm, y + tick))
        draw.line([round(v * density) for v in (*start, *end)], fill=0, width=width)
    end = (x, y + length) if upright else (x + length, y)
    draw.line([round(v * density) for v in (x, y, *end)], fill=0, width=width)


def _words(draw: ImageDraw.ImageDraw, density: float, x: float, y: float) -> None:
    size = round(_WORDS_POINTS * MM_PER_POINT * density)
    face = font(runs("A")[0].font_path, size)
    widest = max(face.getlength(line) for line in _WORDS)
    left, top = round(x * density), round(y * density)
    draw.rectangle((left - size, top - size, left + widest + size, top + size * 1.4 * len(_WORDS) + size), fill=1)
    for number, line in enumerate(_WORDS):
        draw.text((left, top + round(number * 1.4 * size)), line, fill=0, font=face)
