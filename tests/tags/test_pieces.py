"""Pieces: what fits, by geometry worked out here on its own."""

import math
import re

import pytest

from webapp.errors import CannotPrint
from webapp.tags.pieces import (
    PLUG_DISC_19,
    PLUG_DISC_25,
    PLUG_DISC_32,
    PLUG_SQUARE_20,
    READY_PIECES,
    TANK_PLACARD,
    Piece,
    dots_per_mm,
    fits,
)
from webapp.tags.symbol import make_symbol

SHORT = make_symbol("http://SHOP.LOCAL/7K3QXM4")
LONG = make_symbol("http://192.168.1.20/7K3QXM4")
TOO_SMALL = (PLUG_DISC_19, LONG, 203)  # 15 dots are the first size of 5 points or more, half a millimetre too wide
GRID = [(piece, symbol, dpi) for piece in READY_PIECES for symbol in (SHORT, LONG) for dpi in (203, 300, 600)]
GRID.remove(TOO_SMALL)


@pytest.mark.parametrize(
    ("piece", "dpi", "dots", "module_mm"),
    # the largest whole-dot module for a 25-module symbol whose every row keeps 4 clear modules: R / 20.7
    [
        (PLUG_DISC_19, 203, 3, 0.375),
        (PLUG_DISC_19, 300, 5, 0.423),
        (PLUG_DISC_19, 600, 10, 0.423),
        (PLUG_DISC_25, 203, 4, 0.5),
        (PLUG_DISC_25, 300, 6, 0.508),
        (PLUG_DISC_32, 203, 5, 0.625),
        (PLUG_DISC_32, 300, 8, 0.677),
        (PLUG_SQUARE_20, 300, 6, 0.508),
    ],
)
def test_usual_plugs(piece, dpi, dots, module_mm):
    fit = fits(piece, SHORT, dpi)
    assert fit.module_dots == dots
    assert fit.module_mm == pytest.approx(module_mm, abs=0.001)
    assert fit.side_mm == pytest.approx(33 * fit.module_mm)


@pytest.mark.parametrize(("piece", "symbol", "dpi"), GRID)
def test_symbol_quiet_zone_and_code_stay_on_the_piece_and_apart(piece, symbol, dpi):
    fit = fits(piece, symbol, dpi)
    m, size, left, top = fit.module_mm, symbol.size * fit.module_mm, fit.symbol_left_mm, fit.symbol_top_mm
    assert m == pytest.approx(fit.module_dots / dots_per_mm(dpi))
    assert m >= 0.3386
    assert fit.code_points >= 5
    code_dots = fit.code_points * 25.4 / 72 * dots_per_mm(dpi)
    assert code_dots == pytest.approx(round(code_dots))
    right, bottom = left + size, top + size
    clear = [(left - 4 * m, top), (right + 4 * m, bottom), (left, top - 4 * m), (right, bottom + 4 * m)]
    x, y, w, h = fit.code_box_mm
    corners = [(x, y), (x + w, y), (x, y + h), (x + w, y + h)]
    for px, py in clear + corners:
        if piece.shape == "disc":
            middle = piece.width_mm / 2
            assert math.hypot(px - middle, py - middle) <= middle - piece.inset_mm + 1e-6
        else:
            assert piece.inset_mm - 1e-6 <= px <= piece.width_mm - piece.inset_mm + 1e-6
            assert piece.inset_mm - 1e-6 <= py <= piece.height_mm - piece.inset_mm + 1e-6
    assert y >= top + size + 4 * m - 1e-6 or x >= left + size + 4 * m - 1e-6


def test_one_dot_more_would_not_fit():
    radius = PLUG_DISC_19.width_mm / 2 - PLUG_DISC_19.inset_mm
    fit = fits(PLUG_DISC_19, SHORT, 600)
    larger = (fit.module_dots + 1) / dots_per_mm(600)
    assert math.hypot(16.5 * larger, 12.5 * larger) > radius


@pytest.mark.parametrize(
    ("piece", "symbol", "dpi"),
    [
        TOO_SMALL,
        (Piece("Disc", "disc", 12, 12), SHORT, 300),
        (Piece("Strip", "rect", 60, 8, text="beside"), LONG, 203),
        (Piece("Square", "rect", 9, 9), SHORT, 600),
        (Piece("Sliver", "rect", 15, 40, text="beside"), SHORT, 300),
    ],
)
def test_what_does_not_fit_names_the_smallest_that_does(piece, symbol, dpi):
    with pytest.raises(CannotPrint, match="smallest that fits is") as caught:
        fits(piece, symbol, dpi)
    sentence = str(caught.value)
    numbers = re.findall(r"[\d.]*\d", sentence.split("fits is ")[1])
    width, height = float(numbers[0]), float(numbers[-1])
    assert fits(Piece("Named", piece.shape, width, height, text=piece.text), symbol, dpi)
    with pytest.raises(CannotPrint):
        fits(Piece("Smaller", piece.shape, width - 0.5, height - 0.5, text=piece.text), symbol, dpi)


def test_a_large_label_leaves_room_for_a_name_and_a_place():
    """Two lines that are read at arm's length: 9 and 6 points."""
    for side in (45.0, 50.8, 76.2):
        box = fits(Piece("Square label", "rect", side, side), LONG, 600).text_box_mm
        assert box[3] >= (9 + 6) * 25.4 / 72


def test_small_modules_warn_and_comfortable_ones_do_not():
    small = fits(Piece("Label", "rect", 44.45, 12.7, text="beside"), SHORT, 600)
    assert "small" in small.warning
    assert fits(PLUG_DISC_25, SHORT, 300).warning is None


def test_a_placard_is_read_from_two_metres():
    """28-point capitals are 7.1 mm high; signs are read from about 300 times their capitals (common practice)."""
    assert TANK_PLACARD.least_title_points * 25.4 / 72 * 0.72 * 300 >= 2000
    assert fits(TANK_PLACARD, LONG, 300).module_mm >= 1.0
