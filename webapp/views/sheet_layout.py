"""How a sheet gives way when its text is long: first the type, then whole sections, in a stated order, to another side.

Heights are estimated from the number of characters, on the safe side: a browser's own margins and fonts differ, and a
server cannot ask them. Nothing is cut off, and what moved is named on the first side.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil

from webapp.words.take_home import Section

MM_PER_PT = 25.4 / 72
CHARACTER_EM = 0.465  # the mean advance of upright text in Arial and fonts of its widths
LINE_EM = 1.22
LOST_CHARACTERS = 3.0  # at the end of a line, where no whole word fits
SMALLEST_PT = 9.0
DRAWING_MM = 29.0
#: Sections in the order in which they leave the first side; what is not named leaves it last, and 'caution' never.
GIVES_WAY = (
    "terms", "papers", "mates", "food", "weeks", "normal", "light", "targets", "where", "changes", "not_normal",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Paper:
    """A kind of paper. width, height: what can be printed on inside the margins, mm; height None: a roll.

    columns: of text side by side. sizes: type to try, the largest first, pt. head: height of what stands on top, mm.
    """

    key: str
    name: str
    width: float
    height: float | None
    columns: int
    sizes: tuple[float, ...]
    head: float


PAPERS = {
    "a4": Paper("a4", "A4", 190.0, 275.0, 2, (10.5, 10.0, 9.5, 9.0), 25.0),
    "letter": Paper("letter", "US Letter", 195.0, 258.0, 2, (10.5, 10.0, 9.5, 9.0), 25.0),
    "a5": Paper("a5", "A5", 134.0, 188.0, 2, (9.5, 9.0), 27.0),
    "roll": Paper("roll", "80 mm", 72.0, None, 1, (9.5,), 60.0),
}


@dataclass(frozen=True, slots=True)
class Side:
    """One side: its sections, the size of its type, the titles of those that moved on to a later side."""

    sections: tuple[Section, ...]
    points: float
    moved: tuple[str, ...] = ()

    @property
    def css_class(self) -> str:
        """The class that sets its type: 'pt-95' is 9.5 pt."""
        return f"pt-{round(self.points * 10)}"


def sides(sections: Sequence[Section], paper: Paper, above: Iterable[str] = ()) -> list[Side]:
    """The sections on as few sides as they need. `above`: sentences across the first side, over the columns."""
    first = _side(sections, paper, tuple(above))
    done = [first]
    while first.moved:
        staying = {section.key for side in done for section in side.sections}
        rest = [section for section in sections if section.key not in staying]
        first = _side(rest, paper, ())
        done.append(first)
    return done


def _side(sections: Sequence[Section], paper: Paper, above: tuple[str, ...]) -> Side:
    """As much as one side holds. At least one section stays, however long it is."""
    for points in paper.sizes:
        if paper.height is None or height_mm(sections, paper, points, above) <= paper.height:
            return Side(tuple(sections), points)
    points, staying = paper.sizes[-1], list(sections)
    for key in (*GIVES_WAY, "hours"):
        if len(staying) > 1:
            staying = [section for section in staying if section.key != key] or staying[:1]
        if paper.height is not None and height_mm(staying, paper, points, above) <= paper.height:
            break
    kept = {section.key for section in staying}
    return Side(tuple(staying), points, tuple(one.title for one in sections if one.key not in kept))


def height_mm(sections: Iterable[Section], paper: Paper, points: float, above: tuple[str, ...]) -> float:
    """How high these stand on this paper in type of this size."""
    gap = 4.0 * (paper.columns - 1)
    column = (paper.width - gap) / paper.columns
    across = [one for one in sections if one.key == "caution"]
    flowing = [one for one in sections if one.key != "caution"]
    full = sum(section_mm(one, paper.width - 6, points) + 3 for one in across)
    full += sum(lines(text, paper.width - 6, points) for text in above) * line_mm(points) + (5 if above else 0)
    heights = [section_mm(one, column, points) for one in flowing]
    # Columns are balanced by whole lines and steps: the longer one holds half, and a few lines more.
    slack = 3.5 * line_mm(points) if paper.columns > 1 else 0.0
    return paper.head + full + sum(heights) / paper.columns + slack


def section_mm(section: Section, width: float, points: float) -> float:
    """Height of one section in a column of `width` mm."""
    high = 1.2 * line_mm(points) + 1.6  # its title
    high += sum(lines(text, width, points) * line_mm(points) + 0.6 for text in section.lines)
    high += sum(lines(f"{when}  {text}", width - 3, points) * line_mm(points) + 0.8 for when, text in section.steps)
    if section.rows:
        shares = (0.22, 0.38, 0.4) if len(section.columns) == 3 else (0.4, 0.6)
        high += sum(_row(row, shares, width, points) for row in (section.columns, *section.rows))
    return high + (DRAWING_MM if section.key == "where" else 0.0)


def _row(cells: Sequence[str], shares: Sequence[float], width: float, points: float) -> float:
    tallest = max(lines(cell, width * share - 2, points, lost=1.0) for cell, share in zip(cells, shares, strict=True))
    return tallest * line_mm(points) + 0.5


def lines(text: str, width: float, points: float, lost: float = LOST_CHARACTERS) -> int:
    """Lines that a text fills in a column of `width` mm."""
    in_a_line = max(8.0, width / (points * MM_PER_PT * CHARACTER_EM) - lost)
    return max(1, ceil(len(text) / in_a_line))


def line_mm(points: float) -> float:
    """Height of a line."""
    return points * MM_PER_PT * LINE_EM

