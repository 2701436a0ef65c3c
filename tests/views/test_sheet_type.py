"""Widths of text against fonts: Liberation Sans, made to the widths of Arial, where this computer has it."""

import shutil
import subprocess
import unicodedata

import pytest
from PIL import ImageFont

from webapp.views.sheet_type import columns_em, lines, run_em, width_em

LETTERS = [chr(number) for number in range(32, 127)] + list("°µ²³–—…×äöüéßøÄÖÜÉ€’“”−")


def font(style: str) -> ImageFont.FreeTypeFont:
    """Liberation Sans, as fontconfig finds it; it stands in for Arial wherever the browser tests run."""
    asked = [shutil.which("fc-match") or "fc-match", "-f", "%{file}", f"Liberation Sans:style={style}"]
    return ImageFont.truetype(subprocess.run(asked, capture_output=True, check=True, text=True).stdout, 2000)


@pytest.mark.parametrize("letter", LETTERS)
def test_letters_are_as_wide_as_those_of_the_font(letter):
    assert width_em(letter) == pytest.approx(font("Regular").getlength(letter) / 2000, abs=0.004)


def test_bold_words_are_as_wide_as_those_of_the_bold_font():
    bold = font("Bold")
    for text in ("Calcium chloride dihydrate", "Until Wed 2 Dec", "Not normal", "14:15 to 15:15", "Wasser wechseln"):
        assert run_em((text, True)) == pytest.approx(bold.getlength(text) / 2000, rel=0.01)


def test_letters_with_marks_are_as_wide_as_without():
    for letter in "áçñšžőű":
        assert width_em(letter) == width_em(unicodedata.normalize("NFD", letter)[0])


def test_lines_break_between_words_and_within_one_that_is_longer_than_a_line():
    """By hand: 'aaaa' is 4 × 0.556 = 2.224 em, a space 0.278 em."""
    assert lines([("aaaa aaaa", False)], 4.73) == 1
    assert lines([("aaaa aaaa", False)], 4.72) == 2
    assert lines([("aaaa", True), ("aaaa", False), ("aaaa", False)], 5.0) == 2
    assert lines([("aaaaaaaaaaaa", False)], 3.0) == 3
    assert lines([("", False)], 3.0) == 1


def test_lines_break_after_a_hyphen_between_letters_and_nowhere_else_in_a_word():
    """UAX 14, classes HY and NU: 'aaaa-' is 2.224 + 0.333 em wide."""
    assert lines([("aaaa aaaa-aaaa aaaa", False)], 5.1) == 2
    assert lines([("aaaa aaaa-5555 aaaa", False)], 5.1) == 3
    assert lines([("aaaa 5555-aaaa aaaa", False)], 5.1) == 3
    hebrew = "אבגד"  # of 0.6 em each; LB21a: no break after a Hebrew letter and a hyphen
    assert lines([(f"{hebrew} {hebrew}-{hebrew} {hebrew}", False)], 5.6) == 3


def test_columns_of_a_table_get_their_whole_text_where_there_is_room_and_never_less_than_a_word():
    rows = [("a", "b"), ("aaaa aaaa", "aa")]
    wide = columns_em(rows, 20.0, 0.5)
    assert sum(wide) + 2 * 0.5 == pytest.approx(20.0)
    assert wide[0] > width_em("aaaa aaaa")
    narrow = columns_em(rows, 5.0, 0.5)
    assert narrow[0] >= width_em("aaaa")
    assert narrow[1] >= width_em("aa")
