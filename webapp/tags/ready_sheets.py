"""A handful of ready sheets and rolls, described by size only. No standard fixes these grids; each is common practice.

The key of a sheet is what the shop's settings remember; keys are not changed.
"""

from webapp.errors import BadInput
from webapp.tags.pieces import RACK_EDGE, TANK_PLACARD, Piece
from webapp.tags.sheets import A4_MM, LETTER_MM, Sheet


def roll(width_mm: float, height_mm: float, dpi: int, shape: str = "rect") -> Sheet:
    """A roll of single labels: the page is the label."""
    size = f"{width_mm:g} mm round" if shape == "disc" else f"{width_mm:g} x {height_mm:g} mm"
    whole = (width_mm, height_mm)
    return Sheet(f"Roll, {size}, {dpi} dpi", *whole, 1, 1, *whole, *whole, 0, 0, shape, dpi=dpi)


def cut_sheet(
    page: str, shape: str, size_mm: float, dpi: int = 600, gap_mm: float = 2.0, margin_mm: float = 8.0
) -> Sheet:
    """A plain page ('A4' or 'Letter') filled with discs or squares to punch or cut out along hairlines."""
    kind = "discs" if shape == "disc" else "squares"
    return _filled(page, shape, (size_mm, size_mm), f"{kind} of {size_mm:g} mm", dpi, gap_mm, margin_mm)


def cut_pieces(page: str, piece: Piece, dpi: int = 600, gap_mm: float = 2.0, margin_mm: float = 8.0) -> Sheet:
    """A plain page filled with strips or placards to cut out along hairlines."""
    size = (piece.width_mm, piece.height_mm)
    words = f"pieces of {piece.width_mm:g} x {piece.height_mm:g} mm"
    return _filled(page, piece.shape, size, words, dpi, gap_mm, margin_mm, piece.inset_mm)


def _filled(
    page: str, shape: str, size: tuple[float, float], words: str, dpi: int, gap: float, edge: float, inset: float = 0.5
) -> Sheet:
    (width, height), pitch = A4_MM if page == "A4" else LETTER_MM, (size[0] + gap, size[1] + gap)
    columns, rows = int((width - 2 * edge + gap) // pitch[0]), int((height - 2 * edge + gap) // pitch[1])
    if columns < 1 or rows < 1:
        raise BadInput("These pieces are larger than the page.", "label_width_mm")
    left, top = (width - columns * pitch[0] + gap) / 2, (height - rows * pitch[1] + gap) / 2
    name = f"{page}, {columns * rows} {words} to cut out"
    return Sheet(
        name, width, height, columns, rows, *size, *pitch, left, top, shape, dpi=dpi, inset_mm=inset, cut_lines=True
    )


def _grid(
    page: str, columns: int, rows: int, label: tuple[float, float], pitch: tuple[float, float], corner: float
) -> Sheet:
    """A sheet whose grid stands in the middle of the page."""
    width, height = A4_MM if page == "A4" else LETTER_MM
    left = (width - (columns - 1) * pitch[0] - label[0]) / 2
    top = (height - (rows - 1) * pitch[1] - label[1]) / 2
    name = f"{page}, {columns} x {rows} labels of {label[0]:g} x {label[1]:g} mm"
    return Sheet(name, width, height, columns, rows, *label, *pitch, left, top, corner_mm=corner)


READY_SHEETS: dict[str, Sheet] = {
    "a4-5x13": _grid("A4", 5, 13, (38.1, 21.2), (40.6, 21.2), 1.5),
    "a4-4x12": _grid("A4", 4, 12, (45.7, 21.2), (48.3, 21.2), 1.5),
    "a4-4x10": _grid("A4", 4, 10, (45.7, 25.4), (48.3, 25.4), 1.5),
    "a4-3x8": _grid("A4", 3, 8, (63.5, 33.9), (66.0, 33.9), 2),
    "a4-2x7": _grid("A4", 2, 7, (99.1, 38.1), (101.6, 38.1), 2),
    "letter-4x20": _grid("Letter", 4, 20, (44.45, 12.7), (52.07, 12.7), 1),
    "letter-3x10": _grid("Letter", 3, 10, (66.675, 25.4), (69.85, 25.4), 1.5),
    "letter-2x5": _grid("Letter", 2, 5, (101.6, 50.8), (104.775, 50.8), 2),
    "letter-3x4": _grid("Letter", 3, 4, (50.8, 50.8), (57.15, 57.15), 2),
    "a4-disc-19": cut_sheet("A4", "disc", 19),
    "a4-disc-20": cut_sheet("A4", "disc", 20),
    "a4-disc-25": cut_sheet("A4", "disc", 25),
    "a4-disc-32": cut_sheet("A4", "disc", 32),
    "a4-square-20": cut_sheet("A4", "rect", 20),
    "a4-square-25": cut_sheet("A4", "rect", 25),
    "a4-strip": cut_pieces("A4", RACK_EDGE),
    "a4-placard": cut_pieces("A4", TANK_PLACARD),
    "letter-disc-19": cut_sheet("Letter", "disc", 19),
    "letter-strip": cut_pieces("Letter", RACK_EDGE),
    "letter-placard": cut_pieces("Letter", TANK_PLACARD),
    "letter-disc-25": cut_sheet("Letter", "disc", 25),
    "letter-square-20": cut_sheet("Letter", "rect", 20),
    "roll-50x30-203": roll(50, 30, 203),
    "roll-40x30-203": roll(40, 30, 203),
    "roll-57x32-300": roll(57, 32, 300),
    "roll-25-300": roll(25, 25, 300, "disc"),
    "roll-50x25-600": roll(50, 25, 600),
    "roll-100x50-203": roll(100, 50, 203),
}
