"""How high the parts of a sheet stand in type of a given size: the numbers of static/css/sheet.css, worked out again.

All lengths are in em of the side's type. What may stand in either of two columns is a list of heights ('pieces'): a
column may end after each of them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from webapp.views.sheet_type import Run, columns_em, em, lines, run_em
from webapp.words.take_home import Section
from webapp.words.unbroken import NO_BREAK

HANG = 1.15  # lines of a step but for its mark
CELL_GAP = 0.55
DRAWING_MM, SMALL_DRAWING_MM, SMALLEST_DRAWING_MM = (31.0, 22.0), (24.0, 17.0), (18.0, 12.75)
DRAWING_GAP_MM = 2.0
RULE_MM = 0.35
RUN_IN_RULE = 0.18  # of a section whose heading stands in its text: its rule and what is clear below that
BRIEF = 200  # characters: cautions so short stand in one column
#: Sections whose heading stands in the first line of their text where a style says so.
RUN_IN = frozenset({"food", "normal", "not_normal", "mates", "papers", "terms"})
#: Sections whose steps run in, one after the other, in frugal styles.
STEPS_RUN_IN = frozenset({"changes", "light", "weeks"})
#: Sections that follow one another without a break where lines stand closest, as those that run in do.
FLOW_ON = STEPS_RUN_IN | {"hours"}
BOX = "\N{BALLOT BOX}"  # as wide as the mark of a step that runs in
_TOGETHER = 3  # lines of a paragraph that no column's end tears: two stay above, two go on


@dataclass(frozen=True, slots=True)
class Style:
    """points: size of the type. tight: less white, headings of short sections run in. line: from line to line, em.

    frugal: smaller pictures and name, steps run in. dense: ranges and short sections run in one after the other.
    packed: pictures and symbol smaller again, the verdict beside them, every heading and every step runs in.
    """

    points: float
    tight: bool = False
    line: float = 1.2
    frugal: bool = False
    dense: bool = False
    packed: bool = False

    @property
    def css_class(self) -> str:
        """'pt-95', 'pt-90 tight', 'pt-90 tight close frugal'."""
        on = {
            "tight": self.tight, "close": self.line < 1.2, "closest": self.closest, "frugal": self.frugal,
            "near": self.line == 1.05, "solid": self.line < 1.05, "dense": self.dense, "packed": self.packed,
        }  # fmt: skip
        return " ".join([f"pt-{round(self.points * 10)}", *(name for name, is_on in on.items() if is_on)])

    @property
    def closest(self) -> bool:
        """Whether lines and letters stand as close as they may."""
        return self.line < 1.15

    @property
    def section_gap(self) -> float:
        """Clear below a section, em."""
        return 0.15 if self.packed else 0.3 if self.frugal else 0.4 if self.tight else 0.7

    @property
    def line_gap(self) -> float:
        """Clear below a paragraph, a step, em."""
        return 0.08 if self.tight else 0.22

    @property
    def row_gap(self) -> float:
        """Clear in a row of a table, its rule with it, em."""
        return 0.125 if self.frugal else 0.165 if self.tight else 0.315

    @property
    def heading(self) -> float:
        """The heading of a section: its rule, its line, what is clear below, em. A packed one stands in the text."""
        if self.packed:
            return RUN_IN_RULE
        return 1.1 * (self.line + 0.1) + em(RULE_MM, self.points)


def pieces_of(sections: Sequence[Section], wide_em: float, style: Style) -> list[float]:
    """The pieces of all these in their order."""
    flow = (RUN_IN if style.dense else frozenset()) | (FLOW_ON if style.closest else frozenset())
    apart = [one for one in sections if one.key not in flow]
    pieces = [piece for one in apart for piece in section_pieces(one, wide_em, style)]
    runs = [run for one in sections if one not in apart for run in _run_in(one)]
    if runs:
        pieces += paragraph(runs, wide_em, style)
        pieces[-1] += style.section_gap + RUN_IN_RULE
    return pieces


def _run_in(section: Section) -> list[Run]:
    steps = [run for when, text in section.steps for run in ((BOX, False), (when, True), (text, False))]
    return [(BOX, False), (section.title, True), *((line, False) for line in section.lines), *steps]


def _ranges_run_in(section: Section) -> list[Run]:
    """Rows one after the other, no range torn; the last cell of each is bold."""
    runs: list[Run] = []
    for name, *cells, last in (section.columns, *section.rows):
        runs += [(name, False), *((cell.replace(" ", NO_BREAK), False) for cell in cells), (f"{last};", True)]
    return runs


def section_pieces(section: Section, wide_em: float, style: Style) -> list[float]:
    """The pieces of a section in a column of this width."""
    title = [(section.title, True)] if style.packed else []
    if section.key in STEPS_RUN_IN and style.frugal or section.steps and style.packed:
        pieces = paragraph(_run_in(section)[1 if style.packed else 2 :], wide_em, style)
        pieces = [pieces[0] + style.heading, *pieces[1:]]
        pieces = pieces if style.dense else [sum(pieces)]
    elif style.dense and section.rows:
        pieces = [style.heading + style.line * lines([*title, *_ranges_run_in(section)], wide_em)]
    elif section.key == "where":
        pieces = [style.heading + _beside_drawing(section, wide_em, style)]
    elif style.tight and section.key in RUN_IN:
        pieces = paragraph(_run_in(section)[1:], wide_em, style)
        pieces[0] += RUN_IN_RULE
    else:
        pieces = _with_heading(section, wide_em, style)
    pieces[-1] += style.section_gap
    return pieces


def _with_heading(section: Section, wide_em: float, style: Style) -> list[float]:
    pieces: list[float] = []
    for line in section.lines:
        pieces += paragraph([(line, False)], wide_em, style)
        pieces[-1] += style.line_gap
    for when, text in section.steps:
        pieces.append(style.line * lines([(when, True), (text, False)], wide_em - HANG) + style.line_gap)
    if section.rows:
        pieces.append(_table(section, wide_em, style))
    else:
        pieces[-1] -= style.line_gap  # it falls together with what is clear below the section
    return [style.heading + pieces[0], *pieces[1:]]


def paragraph(runs: Sequence[Run], wide_em: float, style: Style) -> list[float]:
    """The pieces of running text."""
    count = lines(runs, wide_em)
    if count <= _TOGETHER:
        return [count * style.line]
    return [2 * style.line, *[style.line] * (count - 4), 2 * style.line]


def _table(section: Section, wide_em: float, style: Style) -> float:
    rows = (section.columns, *section.rows)
    wide = columns_em(rows, wide_em, CELL_GAP)
    high = 0.0
    for number, row in enumerate(rows):
        cells = (lines([(cell, number == 0)], column + 1e-6) for cell, column in zip(row, wide, strict=True))
        high += style.line * max(cells) + style.row_gap
    return high


def _beside_drawing(section: Section, wide_em: float, style: Style) -> float:
    """Text that runs around the drawing of the tank at its end."""
    size = SMALLEST_DRAWING_MM if style.packed else SMALL_DRAWING_MM if style.frugal else DRAWING_MM
    wide, drawing = (em(one, style.points) for one in size)
    beside = wide_em - wide - em(DRAWING_GAP_MM, style.points)
    if style.tight:
        there, title = ceil(drawing / style.line), [(section.title, True)] if style.packed else []
        runs = [*title, *((line, False) for line in section.lines)]
        return max(drawing, style.line * lines(runs, wide_em, (there, beside)))
    high = 0.0
    for line in section.lines:
        there = max(0, ceil((drawing - high) / style.line))
        high += style.line * lines([(line, False)], wide_em, (there, beside)) + style.line_gap
    return max(drawing, high - style.line_gap)


def box(section: Section, wide_em: float, style: Style, in_columns: int) -> float:
    """The cautions across the whole side: run in, then whom to call on a line of its own."""
    *said, call = section.lines
    columns = 1 if sum(map(len, said)) < BRIEF else in_columns
    wide_em -= em(6.6, style.points)
    column = (wide_em - (columns - 1) * em(4.0, style.points)) / columns
    runs = [(f"! {section.title}", True), *((line, False) for line in said)]
    if style.frugal and in_columns == 1:
        clear = 3.4 if style.packed else 4.8
        return style.line * lines([*runs, (call, True)], wide_em) + em(clear, style.points)
    high = ceil(lines(runs, column) / columns) * style.line
    return high + style.line * lines([(call, True)], wide_em) + em(5.8, style.points)


def banner(word: str, reasons: str, wide_em: float, style: Style, columns: int) -> float:
    """The verdict in its line; on a roll (one column) above its reasons."""
    if columns == 1:
        said = lines([(reasons, False)], wide_em - em(6.3, style.points))
        return 1.3 + style.line * said + em(4.6, style.points)
    larger, clear = (1.1, 3.1) if style.frugal else (1.3, 4.1)
    beside = wide_em - em(9.3, style.points) - larger * run_em((word, True))
    return max(larger, style.line * lines([(reasons, False)], beside)) + em(clear, style.points)


def balanced(pieces: Sequence[float], columns: int) -> float:
    """Height of the columns, one or two, that hold these pieces in their order."""
    if columns == 1 or len(pieces) < 2:
        return sum(pieces)
    whole, above, best = sum(pieces), 0.0, sum(pieces)
    for piece in pieces:
        above += piece
        best = min(best, max(above, whole - above))
    return best
