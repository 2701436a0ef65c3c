"""A drawing of a sheet for a page: every label's outline, and which ones the batch will take."""

from collections.abc import Callable
from xml.sax.saxutils import quoteattr

from webapp.tags.sheets import Sheet

_INK, _PAPER, _TAKEN, _PASSED = "#222", "#fff", "#cde", "#eee"


def sheet_svg(
    sheet: Sheet,
    start_position: int = 1,
    count: int = 0,
    label: str = "Sheet of labels",
    link: Callable[[int], str] | None = None,
) -> str:
    """An inline SVG in millimetres with presentation attributes only. Takes what the first page shows.

    Positions before `start_position` are grey, the next `count` tinted and numbered; each cell has the class `passed`,
    `taken` or `free`, so that the difference is not one of colour alone. `label` names it for those who do not see it.
    `link` gives each position an address.
    """
    cells = "".join(
        _linked(_cell(sheet, position, start_position, count), position, link)
        for position in range(1, sheet.per_page + 1)
    )
    role = "group" if link else "img"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {sheet.page_width_mm:g} {sheet.page_height_mm:g}" '
        f'role="{role}" aria-label={quoteattr(label)}>'
        f'<rect width="{sheet.page_width_mm:g}" height="{sheet.page_height_mm:g}" fill="{_PAPER}" stroke="{_INK}" '
        f'stroke-width="0.4"/>{cells}</svg>'
    )


def _linked(cell: str, position: int, link: Callable[[int], str] | None) -> str:
    """A cell to tap. Not a stop of the Tab key: there may be a hundred, and the position can be typed too."""
    if link is None:
        return cell
    return f'<a href={quoteattr(link(position))} tabindex="-1" aria-label="Start at position {position}">{cell}</a>'


def _cell(sheet: Sheet, position: int, start_position: int, count: int) -> str:
    left, top = sheet.cell_mm(position - 1)
    width, height = sheet.label_width_mm, sheet.label_height_mm
    place = "passed" if position < start_position else "taken" if position < start_position + count else "free"
    fill = {"passed": _PASSED, "taken": _TAKEN, "free": _PAPER}[place]
    look = f'class="{place}" fill="{fill}" stroke="{_INK}" stroke-width="0.3"'
    if sheet.shape == "disc":
        outline = f'<circle cx="{left + width / 2:.2f}" cy="{top + height / 2:.2f}" r="{width / 2:g}" {look}/>'
    else:
        corner = f'rx="{sheet.corner_mm:g}"'
        outline = f'<rect x="{left:.2f}" y="{top:.2f}" width="{width:g}" height="{height:g}" {corner} {look}/>'
    if place != "taken":
        return outline
    size = min(width, height) / 3
    return outline + (
        f'<text x="{left + width / 2:.2f}" y="{top + height / 2 + size / 3:.2f}" font-size="{size:.1f}" '
        f'text-anchor="middle" fill="{_INK}">{position - start_position + 1}</text>'
    )
