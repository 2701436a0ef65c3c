"""The pieces that tags are made of, and how large a symbol each can carry.

Rules, from published guidance and from trials with a synthetic camera: whole printer dots a module; four clear modules
around the symbol (ISO/IEC 18004); a module of 0.5 mm is aimed at, under 0.375 mm is a warning, under four dots of a
300 dpi head (0.3387 mm) is refused. The code stands in clear beside the symbol in bold capitals of 5 points or more.
"""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from webapp.errors import CannotPrint
from webapp.tags.fonts import code_width_em
from webapp.tags.symbol import QUIET_MODULES, Symbol

FLOOR_MODULE_MM = 4 * 25.4 / 300
WARN_MODULE_MM = 0.375
TARGET_MODULE_MM = 0.5
CODE_POINTS = 5.0
MM_PER_POINT = 25.4 / 72
READING_DISTANCE = 400  # how many modules away a phone still reads: the synthetic camera's single frame

_CODE_HEIGHT_EM = 0.76  # capitals of the usual bold fonts are 0.66 to 0.73 em high
_GAP_MM = 0.3
_ROOM_FOR_WORDS_MM = 0.7  # from this module on a label gives up symbol size for a title and a place
_WORDS_POINTS = 9.0 + 6.0  # of both lines, where there is that room
_MOST_OF_WIDTH = 0.6  # what a symbol may take of a label with text beside it

Box = tuple[float, float, float, float]  # left, top, width, height in mm
Arrangement = tuple[float, float, Box, Box | None]  # symbol's left and top, the code's box, the words' box


@dataclass(frozen=True)
class Piece:
    """A tag's outline. `inset_mm` is kept clear all round for cutting and feeding errors.

    `shape` is 'disc' (width = height = diameter) or 'rect'; `text` is 'under' (plugs) or 'beside' (strips, placards).
    """

    name: str
    shape: str
    width_mm: float
    height_mm: float
    text: str = "under"
    inset_mm: float = 0.5
    least_title_points: float = 5.0


@dataclass(frozen=True)
class Fit:
    """How a symbol sits on a piece. `side_mm` includes the quiet zone; offsets are from the piece's top left corner."""

    module_dots: int
    module_mm: float
    side_mm: float
    symbol_left_mm: float
    symbol_top_mm: float
    code_points: float
    code_box_mm: Box
    text_box_mm: Box | None

    @property
    def reach_mm(self) -> float:
        """From how far a phone's ordinary camera reads it, at a guess."""
        return READING_DISTANCE * self.module_mm

    @property
    def warning(self) -> str | None:
        """A sentence when the modules are smaller than advised."""
        if self.module_mm >= WARN_MODULE_MM:
            return None
        return (
            f"Modules of {self.module_mm:.2f} mm are small: a phone must come within {self.reach_mm / 10:.0f} cm. "
            f"{WARN_MODULE_MM} mm or more is better, {TARGET_MODULE_MM} mm is best."
        )


PLUG_DISC_19 = Piece("Round plug tag, 19 mm", "disc", 19, 19)
PLUG_DISC_20 = Piece("Round plug tag, 20 mm", "disc", 20, 20)
PLUG_DISC_25 = Piece("Round plug tag, 25 mm", "disc", 25, 25)
PLUG_DISC_32 = Piece("Round plug tag, 32 mm", "disc", 32, 32)
PLUG_SQUARE_20 = Piece("Square plug tag, 20 mm", "rect", 20, 20)
PLUG_SQUARE_25 = Piece("Square plug tag, 25 mm", "rect", 25, 25)
RACK_EDGE = Piece("Rack-edge strip, 60 x 18 mm", "rect", 60, 18, text="beside")
# Letters are read from 300 times their height (common practice): 28 points have capitals of 7 mm, read from two metres.
TANK_PLACARD = Piece("Tank placard, 148 x 74 mm", "rect", 148, 74, text="beside", inset_mm=3, least_title_points=28)
READY_PIECES = (
    PLUG_DISC_19, PLUG_DISC_20, PLUG_DISC_25, PLUG_DISC_32, PLUG_SQUARE_20, PLUG_SQUARE_25, RACK_EDGE, TANK_PLACARD,
)  # fmt: skip


def dots_per_mm(dpi: float) -> float:
    """Dots a millimetre. A head called 203 dpi has 8 dots a millimetre exactly."""
    return 8.0 if dpi == 203 else dpi / 25.4


def fits(piece: Piece, symbol: Symbol, dpi: float) -> Fit:
    """The largest symbol that fits `piece` at `dpi`. CannotPrint names the least piece of its shape that would do."""
    found = _largest(piece, symbol.size, dpi)
    if found:
        return found
    least = _smallest_piece(piece, symbol.size, dpi)
    size = f"{least.width_mm:g} mm across" if piece.shape == "disc" else f"{least.width_mm:g} x {least.height_mm:g} mm"
    raise CannotPrint(
        f"{piece.name}: too small for this symbol of {symbol.size} modules at {dpi:g} dpi with its code in clear. "
        f"The smallest that fits is {size}."
    )


@lru_cache(maxsize=1024)
def _largest(piece: Piece, modules: int, dpi: float) -> Fit | None:
    density = dots_per_mm(dpi)
    most = int(min(piece.width_mm, piece.height_mm) * density // (modules + 2 * QUIET_MODULES))
    least = math.ceil(FLOOR_MODULE_MM * density - 1e-9)
    candidates = (
        fit
        for dots in range(most, least - 1, -1)
        for points in (20, 14, 12, 10, 9, 8, 7, 6, CODE_POINTS)
        if (fit := _arranged(piece, modules, dots, dots / density, points))
    )
    first = None
    for fit in candidates:
        first = first or fit
        if fit.module_mm < _ROOM_FOR_WORDS_MM:
            break
        if piece.shape == "disc" or (fit.text_box_mm and fit.text_box_mm[3] >= _WORDS_POINTS * MM_PER_POINT * 1.2):
            return fit
    return first


def _smallest_piece(piece: Piece, modules: int, dpi: float) -> Piece:
    for step in range(1, 2000):
        w, h = piece.width_mm + step / 2, piece.height_mm + step / 2
        grown = [(w, w)] if piece.shape == "disc" else [(w, piece.height_mm), (piece.width_mm, h), (w, h)]
        for width, height in grown:
            larger = replace(piece, width_mm=width, height_mm=height)
            if _largest(larger, modules, dpi):
                return larger
    raise CannotPrint(f"At {dpi:g} dpi no piece of this shape carries a symbol of {modules} modules.")


def _arranged(piece: Piece, modules: int, dots: int, module_mm: float, points: float) -> Fit | None:
    code_dots = math.ceil(points * MM_PER_POINT * dots / module_mm - 1e-9)  # whole, and never under these points
    points = code_dots * module_mm / dots / MM_PER_POINT
    arrange = _on_disc if piece.shape == "disc" else _beside if piece.text == "beside" else _under
    code_mm = (code_width_em() * points * MM_PER_POINT, _CODE_HEIGHT_EM * points * MM_PER_POINT)
    placed = arrange(piece, modules * module_mm, QUIET_MODULES * module_mm, code_mm)
    if placed is None:
        return None
    left, top, code_box, text_box = placed
    side = (modules + 2 * QUIET_MODULES) * module_mm
    return Fit(dots, module_mm, side, left, top, points, code_box, text_box)


def _on_disc(piece: Piece, size: float, quiet: float, code: tuple[float, float]) -> Arrangement | None:
    """Every row and column of the symbol keeps its quiet zone inside the disc; the code sits under the lower one."""
    radius = piece.width_mm / 2 - piece.inset_mm
    half_code = code[0] / 2
    if half_code >= radius:
        return None
    lowest = math.sqrt(radius**2 - half_code**2)  # where a line as wide as the code meets the edge
    lift = max(0.0, size / 2 + quiet + code[1] - lowest)
    if math.hypot(size / 2 + quiet, size / 2 + lift) > radius or math.hypot(size / 2, size / 2 + quiet + lift) > radius:
        return None
    middle = piece.width_mm / 2
    code_top = middle + size / 2 + quiet - lift
    return middle - size / 2, middle - size / 2 - lift, (middle - half_code, code_top, *code), None


def _under(piece: Piece, size: float, quiet: float, code: tuple[float, float]) -> Arrangement | None:
    width, height = piece.width_mm - 2 * piece.inset_mm, piece.height_mm - 2 * piece.inset_mm
    side = size + 2 * quiet
    spare = height - side - code[1]
    if side > width or code[0] > width or spare < 0:
        return None
    words = None
    least_text = CODE_POINTS * MM_PER_POINT * 1.2 + _GAP_MM
    above = 0.0 if spare >= least_text else spare / 2
    code_top = piece.inset_mm + above + side
    if spare >= least_text:
        words = (piece.inset_mm, code_top + code[1] + _GAP_MM, width, spare - _GAP_MM)
    left = (piece.width_mm - size) / 2
    return left, piece.inset_mm + above + quiet, ((piece.width_mm - code[0]) / 2, code_top, *code), words


def _beside(piece: Piece, size: float, quiet: float, code: tuple[float, float]) -> Arrangement | None:
    width, height = piece.width_mm - 2 * piece.inset_mm, piece.height_mm - 2 * piece.inset_mm
    side = size + 2 * quiet
    column = width - side
    if side > height or side > _MOST_OF_WIDTH * width or column < code[0] or code[1] > height / 8:
        return None
    left = piece.inset_mm + side
    top = piece.inset_mm + (height - side) / 2
    code_top = piece.height_mm - piece.inset_mm - code[1] - _GAP_MM
    words = (left, piece.inset_mm + _GAP_MM, column, code_top - piece.inset_mm - 2 * _GAP_MM)
    return piece.inset_mm + quiet, top + quiet, (left, code_top, *code), words
