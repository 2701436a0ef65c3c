"""How wide text is in Arial and the fonts cut to its widths, and into how many lines it breaks.

Sheets ask for Arial, Helvetica or Liberation Sans, whose widths are the same by design: those of Helvetica in the font
metrics that Adobe published for the 14 core fonts of PDF. Letters with marks are as wide as without; of scripts that
are not in the table a wide mean is taken, so that lines are rather too many than too few.
"""

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from unicodedata import combining, east_asian_width, normalize

MM_PER_PT = 25.4 / 72
#: Thousandths of an em: the characters of that width.
_WIDTHS = {
    191: "'", 222: "ijl‘’", 260: "|", 278: " !,./:;I[\\]ft\u00a0ı", 333: "-()`r·²³“”", 334: "{}", 355: '"', 389: "*",
    400: "°", 469: "^", 500: "Jcksvxyz", 556: "#$?0123456789L_abdeghnopqu–€", 576: "µμ", 584: "+<=>~−×÷±", 611: "FTZßø",
    667: "&ABEKPSVXY", 722: "CDHNRUw", 778: "GOQØ", 833: "Mm", 889: "%æ", 944: "W", 1000: "—…", 1015: "@",
}  # fmt: skip
_WIDTH = {character: width / 1000 for width, characters in _WIDTHS.items() for character in characters}
#: Of other scripts: a wide mean of their letters, and characters of full width.
_OTHER, _FULL = 0.6, 1.0
#: What is wider in bold, and by how much: the strokes of narrow letters, nothing of digits.
_WIDER_IN_BOLD, _BOLD_EM = frozenset("bcdfghijklmnopqrstuvwxyABJKL:;!?&"), 0.056

#: Hebrew letters keep their hyphen's other side (UAX 14, LB21a).
_BREAKS = re.compile(r"(?<=[^\W\d\u0590-\u05ff]-)(?=[^\W\d])")

#: Of a table's width: what its whole texts may take to be certain of one line each, as letters of scripts that are not
#: in the table above are only wide in the mean.
CERTAIN_SHARE = 0.97
#: A piece of text and whether it is bold.
Run = tuple[str, bool]


@lru_cache(maxsize=4096)
def width_em(text: str) -> float:
    """Width of a text in one line, upright and not bold, in em."""
    return sum(map(_character_em, normalize("NFD", text)))


def _character_em(character: str) -> float:
    known = _WIDTH.get(character)
    if known is not None:
        return known
    if combining(character):
        return 0.0
    return _FULL if east_asian_width(character) in "WF" else _OTHER


def run_em(run: Run) -> float:
    """Width of a piece in one line, in em."""
    text, bold = run
    return width_em(text) + (_BOLD_EM * sum(one in _WIDER_IN_BOLD for one in normalize("NFD", text)) if bold else 0.0)


def lines(runs: Iterable[Run], wide_em: float, beside: tuple[int, float] = (0, 0.0)) -> int:
    """Lines that pieces set one after the other fill in a column of `wide_em`, broken between words and after hyphens
    between letters, as browsers do (UAX 14, class HY).

    beside: how many lines at the beginning are narrower, beside a drawing, and how wide these are, em.
    """
    count, at, space = 1, 0.0, width_em(" ")
    few, narrow = beside
    for text, bold in runs:
        for word in text.split(" "):
            for number, part in enumerate(_BREAKS.split(word)):
                wide, before = run_em((part, bold)), 0.0 if number else space
                if at and at + before + wide > (narrow if count <= few else wide_em):
                    count, at = count + 1, 0.0
                at += wide + (before if at else 0.0)
            while at > (room := narrow if count <= few else wide_em):  # a word longer than a line is broken within
                count, at = count + 1, at - room
    return count


def em(mm: float, points: float) -> float:
    """A length on paper in em of type of this size."""
    return mm / (points * MM_PER_PT)


def columns_em(rows: Sequence[Sequence[str]], wide_em: float, gap_em: float) -> list[float]:
    """Widths that a browser gives the columns of a table, between longest word and whole text (CSS 2.1, 17.5.2.2).

    rows: of cells, the first one bold. gap_em: clear at the end of each cell. The widths are without it.
    """
    least, most = [], []
    for column in zip(*rows, strict=True):
        cells = [(cell, n == 0) for n, cell in enumerate(column)]
        least.append(gap_em + max(run_em((word, bold)) for cell, bold in cells for word in cell.split(" ")))
        most.append(gap_em + max(map(run_em, cells)))
    spare, wanted = wide_em - sum(least), sum(most) - sum(least)
    if sum(most) <= CERTAIN_SHARE * wide_em:
        return [one * wide_em / sum(most) - gap_em for one in most]
    share = 0.9 * max(0.0, spare) / wanted if wanted else 0.0  # browsers share it out a little otherwise: rather less
    return [low + share * (high - low) - gap_em for low, high in zip(least, most, strict=True)]
