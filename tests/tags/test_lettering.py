"""Words into boxes: shrink to the least size, then shorten at a word."""

import io

import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw

from tests.tags.making import make_labels
from webapp.tags import fonts, pieces
from webapp.tags.labels import to_png
from webapp.tags.lettering import draw_block, fit_block
from webapp.tags.page import Label

NAME = "Zoanthus with a green centre, an orange rim and a very long description"


def test_short_words_take_the_largest_size():
    block = fit_block("Reef", 1000, 100, 60, 20)
    assert (block.lines, block.size_px, block.shortened) == (("Reef",), 60, False)


def test_longer_words_wrap_and_shrink_before_anything_is_left_out():
    block = fit_block(NAME, 400, 200, 60, 20)
    assert " ".join(block.lines) == NAME
    assert 20 <= block.size_px < 60
    assert not block.shortened


def test_at_the_least_size_whole_words_go_and_an_ellipsis_tells():
    block = fit_block(NAME, 200, 50, 60, 20)
    assert block.shortened
    assert block.size_px == 20
    shown = " ".join(block.lines)
    assert shown.endswith("…")
    assert NAME.startswith(shown[:-1])
    assert NAME[len(shown) - 1] in " ,"


def test_one_endless_word_is_cut_within():
    block = fit_block("x" * 300, 200, 30, 60, 20)
    assert block.shortened
    assert block.lines[0].startswith("xx") and block.lines[0].endswith("…")


def test_a_long_word_is_broken_where_that_makes_it_much_larger():
    word = "Hyacinthkelchkoralle"
    block = fit_block(word, 200, 120, 60, 10)
    assert "".join(line.removesuffix("-") for line in block.lines) == word
    assert len(block.lines) > 1 and not block.shortened
    assert block.size_px >= 1.4 * fit_block(word, 200, 20, 60, 10).size_px


def test_a_word_that_fits_well_is_not_broken():
    assert fit_block("Acropora", 200, 120, 60, 10).lines == ("Acropora",)


def test_letters_that_join_are_not_broken():
    assert len(fit_block("\u0634" * 30, 300, 200, 60, 10).lines) == 1


def test_letters_of_no_font_leave_no_gap():
    assert fit_block("\ue000 Glow \ue000 Coral", 1000, 100, 30, 20).lines == ("Glow Coral",)
    assert fit_block("\ue000\ue001", 1000, 100, 30, 20).lines == ()


def test_no_room_gives_no_lines():
    assert fit_block("Reef", 100, 5, 60, 20).lines == ()


@given(
    st.text(st.characters(codec="latin-1", categories=("L", "N", "P", "Zs")), min_size=1, max_size=80),
    st.integers(60, 500),
    st.integers(24, 200),
)
def test_what_is_drawn_stays_in_its_box(text, width, height):
    block = fit_block(text, width, height, 60, 20)
    assert block.size_px >= 20
    page = Image.new("1", (width + 200, height + 200), 1)
    draw = ImageDraw.Draw(page)
    draw_block(draw, 100, 100, block)
    ink = page.convert("L").point(lambda v: 255 - v).getbbox()
    if ink:
        slack = block.size_px * 0.35  # swashes and accents reach a little beyond the advance width
        assert ink[0] >= 100 - slack and ink[2] <= 100 + width + slack
        assert ink[1] >= 100 - slack and ink[3] <= 100 + height + slack


def test_letters_of_no_font_are_named_and_left_out():
    assert fonts.not_covered("Reef \ue000\ue001 tank") == "\ue000\ue001"
    assert "".join(run.text for run in fonts.runs("Reef \ue000tank")) == "Reef tank"
    assert fonts.not_covered("Acropora, Żółw, Ünal") == ""


@pytest.fixture
def no_system_fonts(monkeypatch):
    """A computer without fonts: what was measured before is forgotten, then and afterwards."""
    remembered = (
        fonts._first_of,
        fonts._font_for_all,
        fonts._other_fonts,
        fonts.code_width_em,
        fonts.width_em,
        pieces._largest,
    )
    for cached in remembered:
        cached.cache_clear()
    monkeypatch.setattr(fonts, "_CODE_FONTS", ())
    monkeypatch.setattr(fonts, "_TEXT_FONTS", ())
    monkeypatch.setattr(fonts, "_FOLDERS", [])
    yield
    for cached in remembered:
        cached.cache_clear()


def test_what_has_no_shape_is_not_missed():
    """Zero width joiner and variation selector 16 (The Unicode Standard, 23.2 and 23.4)."""
    assert fonts.not_covered("Reef\u200d\ufe0f") == ""


def test_without_any_system_font_pillow_s_own_serves(no_system_fonts):
    assert fonts.code_font_path() is None
    assert [run.font_path for run in fonts.runs("Reef 12")] == [None]
    assert fonts.not_covered("珊瑚") == "珊瑚"


@pytest.mark.parametrize("piece", [pieces.PLUG_DISC_25, pieces.RACK_EDGE, pieces.TANK_PLACARD], ids=lambda p: p.name)
def test_labels_are_whole_without_system_fonts(no_system_fonts, piece):
    """The code stays inside its box: beside the ink of the symbol there is none at the piece's edge."""
    (label,) = make_labels(1)
    wide = Label("WWWWWWW", label.address_url, "Reef 珊瑚")
    picture = Image.open(io.BytesIO(to_png(wide, piece, 600))).convert("L")
    assert zxingcpp.read_barcode(picture).text == label.address_url
    ink = picture.point(lambda v: 255 - v).getbbox()
    edge = round(piece.inset_mm * 600 / 25.4) - 2
    assert min(ink[0], ink[1], picture.width - ink[2], picture.height - ink[3]) >= edge
