"""Where each label stands on its page, and the drawing of it: 1-bit, whole dots."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from PIL import Image, ImageDraw

from webapp.errors import BadInput
from webapp.tags.lettering import Block, draw_block, draw_code, fit_block
from webapp.tags.pieces import MM_PER_POINT, Fit, Piece, fits
from webapp.tags.sheets import Sheet
from webapp.tags.symbol import Symbol, make_symbol

_LEAST_SUBTITLE_POINTS = 5.0
_HAIRLINE_MM = 0.1
_TICK_MM = 1.0


@dataclass(frozen=True)
class Label:
    """What a tag says: its code in clear, the address in its symbol, and a title and a subtitle where there is room."""

    code: str
    address_url: str
    title: str = ""
    subtitle: str = ""


@dataclass(frozen=True)
class Placed:
    """A label on a page: its piece's top left corner in dots."""

    label: Label
    symbol: Symbol
    piece: Piece
    fit: Fit
    left: int
    top: int
    dots_per_mm: float

    def dots(self, mm: float) -> int:
        """A length in whole dots."""
        return round(mm * self.dots_per_mm)

    @property
    def box(self) -> tuple[int, int, int, int]:
        """The piece in dots: left, top, right, bottom."""
        return (
            self.left,
            self.top,
            self.left + self.dots(self.piece.width_mm),
            self.top + self.dots(self.piece.height_mm),
        )


def page_count(labels: int, sheet: Sheet, start_position: int = 1) -> int:
    """Pages that `labels` labels take. BadInput when the sheet has no such position."""
    if not 1 <= start_position <= sheet.per_page:
        raise BadInput(f"This sheet has positions 1 to {sheet.per_page}.", "start_position")
    return -(-(labels + start_position - 1) // sheet.per_page) if labels else 0


def split_pages(labels: Sequence[Label], sheet: Sheet, start_position: int = 1) -> Iterator[list[tuple[int, Label]]]:
    """For each page its labels, each with its position (0 is the first)."""
    skip = start_position - 1
    for number in range(page_count(len(labels), sheet, start_position)):
        first = number * sheet.per_page - skip
        yield [(i - first, labels[i]) for i in range(max(first, 0), min(first + sheet.per_page, len(labels)))]


def place(label: Label, position: int, sheet: Sheet, piece: Piece | None = None) -> Placed:
    """A label at a position of the sheet, its piece in the middle of the cell. CannotPrint if it does not fit."""
    piece = piece or sheet.piece()
    symbol = make_symbol(label.address_url)
    left, top = sheet.cell_mm(position)
    left += (sheet.label_width_mm - piece.width_mm) / 2
    top += (sheet.label_height_mm - piece.height_mm) / 2
    density = sheet.dots_per_mm
    fit = fits(piece, symbol, sheet.dpi)
    return Placed(label, symbol, piece, fit, round(left * density), round(top * density), density)


def draw_page(placed: Sequence[Placed], sheet: Sheet) -> Image.Image:
    """A white page with the labels on it."""
    page = Image.new("1", sheet.page_dots, 1)
    draw = ImageDraw.Draw(page)
    draw.fontmode = "1"
    for one in placed:
        if sheet.cut_lines:
            _cut_line(draw, one)
        draw_label(page, draw, one)
    return page


def draw_label(page: Image.Image, draw: ImageDraw.ImageDraw, one: Placed) -> None:
    """Symbol, code in clear and what text there is room for."""
    fit = one.fit
    size = one.symbol.size
    bits = Image.new("1", (size, size))
    bits.putdata([0 if dark else 255 for row in one.symbol.modules for dark in row])
    picture = bits.resize((size * fit.module_dots, size * fit.module_dots), Image.Resampling.NEAREST)
    page.paste(picture, (one.left + one.dots(fit.symbol_left_mm), one.top + one.dots(fit.symbol_top_mm)))
    left, top, _, height = fit.code_box_mm
    code_px = round(fit.code_points * MM_PER_POINT * one.dots_per_mm)
    draw_code(draw, one.left + one.dots(left), one.top + one.dots(top + height), one.label.code, code_px)
    if fit.text_box_mm:
        title, subtitle = fit_words(one)
        x, y = one.left + one.dots(fit.text_box_mm[0]), one.top + one.dots(fit.text_box_mm[1])
        middle = one.dots(fit.text_box_mm[2]) if one.piece.text == "under" else 0
        below = draw_block(draw, x, y, title, middle)
        draw_block(draw, x, below, subtitle, middle)


def fit_words(one: Placed) -> tuple[Block, Block]:
    """Title and subtitle as they will be set; both empty where the piece has no room for words."""
    if not one.fit.text_box_mm:
        return Block((), 1, bool(one.label.title)), Block((), 1, bool(one.label.subtitle))
    point = MM_PER_POINT * one.dots_per_mm
    width, height = (one.dots(mm) for mm in one.fit.text_box_mm[2:])
    least = one.piece.least_title_points * point
    share = 0.65 if one.label.subtitle else 1.0
    title = fit_block(one.label.title, width, height * share, max(least, height * 0.4), least)
    if not title.lines:  # what it is comes before where it stands
        title = fit_block(one.label.title, width, height, least, least)
    spare = height - len(title.lines) * title.size_px * 1.2
    largest = max(_LEAST_SUBTITLE_POINTS * point, title.size_px * 0.7)
    return title, fit_block(one.label.subtitle, width, spare, largest, _LEAST_SUBTITLE_POINTS * point)


def _cut_line(draw: ImageDraw.ImageDraw, one: Placed) -> None:
    """A hairline along the edge and, for a punch, ticks that point at the centre."""
    left, top, right, bottom = one.box
    width = max(1, one.dots(_HAIRLINE_MM))
    if one.piece.shape == "rect":
        draw.rectangle((left, top, right, bottom), outline=0, width=width)
        return
    draw.ellipse((left, top, right, bottom), outline=0, width=width)
    x, y, tick = (left + right) // 2, (top + bottom) // 2, one.dots(_TICK_MM)
    for end in (top - tick, bottom):
        draw.line((x, end, x, end + tick), fill=0, width=width)
    for end in (left - tick, right):
        draw.line((end, y, end + tick, y), fill=0, width=width)
