"""How a sheet gives way when its text is long: first the type, then whole sections, in a stated order, to another side.

Nothing is cut off, and what moved is named on the first side.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil

from webapp.views.sheet_heights import Style, balanced, banner, box, pieces_of
from webapp.views.sheet_type import MM_PER_PT, em, lines
from webapp.words.take_home import Section

COLUMN_GAP_MM, PACKED_GAP_MM = 4.5, 3.0
#: Letters 0.02 em closer: so much more in a line, as letters and spaces of text are 0.46 em wide in the mean.
CLOSER_LETTERS = 1.044
#: Browsers round lines and rules to their own grid: so much of a side is left free.
SPARE_SHARE = 0.006
#: In columns a browser now and then breaks a line more: half of one is kept for that, as it is shared by two columns; a
#: whole one where there is another side anyway.
KEPT_LINES = 0.5
#: Pages of a roll, mm, in steps: all that a sheet may ask for; and what is clear at both ends.
ROLL_LENGTHS_MM = range(60, 5001, 5)
ROLL_CLEAR_MM = 8.0
#: Sections in the order in which they leave the first side; what is not named leaves it last, and 'caution' never.
GIVES_WAY = (
    "terms", "papers", "mates", "food", "normal", "weeks", "not_normal", "light", "targets", "where", "changes",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Paper:
    """A kind of paper. width, height: inside its margins, mm; height None: a roll.

    styles: those to try, the most open first. portrait: width and height of the picture, mm; symbol: side of the QR;
    title: size of the name, pt; columns: of text, and of the box of cautions.
    """

    key: str
    name: str
    width: float
    height: float | None
    columns: int
    styles: tuple[Style, ...]
    portrait: tuple[float, float]
    symbol: float
    title: float
    box_columns: int = 1


_OPEN = tuple(Style(points) for points in (12.0, 11.5, 11.0, 10.5, 10.0, 9.5))
_TIGHT = (
    Style(9.5, tight=True), Style(9.0, tight=True), Style(9.0, tight=True, line=1.15),
    Style(9.0, tight=True, line=1.15, frugal=True), Style(9.0, tight=True, line=1.15, frugal=True, dense=True),
    *(Style(9.0, tight=True, line=line, frugal=True, dense=True, packed=True) for line in (1.2, 1.15, 1.1)),
)  # fmt: skip
#: For what still does not fit in its brief forms: lines closer again, at last as high as the type.
_BRIEF_ONLY = tuple(Style(9.0, tight=True, line=line, frugal=True, dense=True, packed=True) for line in (1.05, 1.0))
LAST = _BRIEF_ONLY[-1]
#: Of picture and name in frugal styles, and the symbol, which phones must still read at arm's length, mm; then packed.
FRUGAL_SHARE, FRUGAL_SYMBOL_MM = 0.75, 20.0
PACKED_PORTRAIT_MM, PACKED_SYMBOL_MM, PACKED_CLEAR_MM = (20.0, 15.0), 16.0, 2.5
PAPERS = {
    "a4": Paper("a4", "A4", 194.0, 281.0, 2, (*_OPEN, *_TIGHT), (40.0, 30.0), 24.0, 24.0, 2),
    "letter": Paper("letter", "US Letter", 199.9, 263.4, 2, (*_OPEN, *_TIGHT), (40.0, 30.0), 24.0, 24.0, 2),
    "a5": Paper("a5", "A5", 139.4, 201.0, 2, (*_OPEN[4:], *_TIGHT), (28.0, 21.0), 20.0, 15.0),
    "roll": Paper("roll", "80 mm", 72.0, None, 1, (Style(9.5),), (72.0, 46.0), 24.0, 17.0),
}


@dataclass(frozen=True, slots=True)
class Head:
    """What stands on top of the first side, as text: over the name, the name, its kind, its code and facts after it.

    verdict, reasons: the answer of the check, '' where no tank was given. pictures: whether picture and symbol are.
    """

    over: str
    title: str
    kind: str
    code: str
    facts: tuple[str, ...]
    verdict: str = ""
    reasons: str = ""
    pictures: bool = True


InBrief = Callable[[], tuple[Sequence[Section], Head]]


@dataclass(frozen=True, slots=True)
class Side:
    """One side: its sections, its style, the titles of those that moved on to a later side. high: estimated, mm.

    reasons: of the verdict, as this side tells them.
    """

    sections: tuple[Section, ...]
    style: Style
    moved: tuple[str, ...] = ()
    high: float = 0.0
    reasons: str = ""


def roll_mm(paper: Paper, done: Sequence[Side]) -> int:
    """The length of the page on a roll, 0 on sheets of paper."""
    if paper.height is not None:
        return 0
    needs = sum(side.high for side in done) + ROLL_CLEAR_MM
    return next((mm for mm in ROLL_LENGTHS_MM if mm >= needs), ROLL_LENGTHS_MM[-1])


def sides(sections: Sequence[Section], paper: Paper, head: Head, in_brief: InBrief | None = None) -> list[Side]:
    """The sections on as few sides as they need.

    in_brief: gives sections and head in their brief forms, for a first side that does not hold the full ones.
    """
    first = _fitting(sections, paper, head, paper.styles)
    if first is None and in_brief:
        brief, brief_head = in_brief()
        first = _fitting(brief, paper, brief_head, [*(one for one in paper.styles if one.packed), *_BRIEF_ONLY])
        first = first or _without_some(brief, paper, brief_head)
    done = [first or _without_some(sections, paper, head)]
    while done[-1].moved:
        staying = {section.key for side in done for section in side.sections}
        left = [section for section in sections if section.key not in staying]
        done.append(_fitting(left, paper, None, paper.styles) or _without_some(left, paper, None))
    return done


def _fitting(sections: Sequence[Section], paper: Paper, head: Head | None, styles: Sequence[Style]) -> Side | None:
    """All of them on one side, in the most open of these styles that holds them."""
    for style in styles:
        high = side_mm(sections, paper, style, head)
        if paper.height is None or high <= paper.height:
            return Side(tuple(sections), style, high=high, reasons=head.reasons if head else "")
    return None


def _without_some(sections: Sequence[Section], paper: Paper, head: Head | None) -> Side:
    """In the last style: sections leave in their order until the rest fits; then what still fits comes back.

    At least one stays, however long it is.
    """
    style, order = LAST, [key for key in (*GIVES_WAY, "hours") if any(one.key == key for one in sections)]
    gone: list[str] = []

    def tried(without: Sequence[str]) -> Side:
        staying = tuple(one for one in sections if one.key not in without)
        titles = tuple(one.title for one in sections if one.key in without)
        high = side_mm(staying, paper, style, head, titles)
        return Side(staying, style, titles, high, head.reasons if head else "")

    while len(gone) < min(len(order), len(sections) - 1) and tried(gone).high > (paper.height or 0.0):
        gone.append(order[len(gone)])
    for key in reversed(gone[:-1]):
        fewer = [one for one in gone if one != key]
        if tried(fewer).high <= (paper.height or 0.0):
            gone = fewer
    return tried(gone)


def side_mm(
    sections: Sequence[Section], paper: Paper, style: Style, head: Head | None, moved: Sequence[str] = ()
) -> float:
    """How high these stand on this paper in this style, under their head (None: a further side)."""
    wide, column = em(paper.width, style.points) * (CLOSER_LETTERS if style.closest else 1.0), column_em(paper, style)
    high = head_em(head, paper, style) if head else style.line + em(1.5, style.points)
    high += sum(box(one, wide, style, paper.box_columns) for one in sections if one.key == "caution")
    high += balanced(pieces_of([one for one in sections if one.key != "caution"], column, style), paper.columns)
    if paper.height is not None:
        high += (1.0 if moved else KEPT_LINES) * style.line
    if moved:
        high += style.line * lines([(f"On the other side: {', '.join(moved)}.", True)], wide) + em(1.0, style.points)
    return high * style.points * MM_PER_PT * (1 + SPARE_SHARE)


def column_em(paper: Paper, style: Style) -> float:
    """Width of a column, em; where letters stand closer, as if it were wider."""
    gap = em(PACKED_GAP_MM if style.packed else COLUMN_GAP_MM, style.points)
    wide = (em(paper.width, style.points) - (paper.columns - 1) * gap) / paper.columns
    return wide * (CLOSER_LETTERS if style.closest else 1.0)


def head_em(head: Head, paper: Paper, style: Style) -> float:
    """Height of the head, what is clear below it with it."""
    if style.packed and head.pictures:
        return _packed_head_em(head, paper, style)
    gap, share = em(3.0, style.points), FRUGAL_SHARE if style.frugal else 1.0
    symbol_mm = FRUGAL_SYMBOL_MM if style.frugal else paper.symbol
    picture, symbol = em(share * paper.portrait[1], style.points), em(symbol_mm, style.points)
    taken = symbol_mm if paper.columns == 1 else symbol_mm + share * paper.portrait[0]
    wide = em(paper.width - taken, style.points) - gap * paper.columns
    larger = share * paper.title / style.points
    if not head.pictures:
        wide, picture, symbol, gap = em(paper.width, style.points), 0.0, 0.0, 0.0
    facts = [(head.code, True), (" · ".join(("", *head.facts)), False)]
    rows = [[*facts, (f" · {head.over}", False)]] if style.frugal else [facts, [(head.over, False)]]
    if not head.code:
        rows = [[(head.over, False)]]
    small = sum(lines(runs, wide) for runs in ([(head.kind, False)], *rows))
    text = style.line * small + 1.1 * larger * lines([(head.title, True)], wide / larger) + 0.6
    high = picture + gap + max(text, symbol) if paper.columns == 1 else max(text, symbol, picture)
    if head.verdict:
        high += banner(head.verdict, head.reasons, em(paper.width, style.points), style, paper.columns)
    return high + em(2.0, style.points)


def _packed_head_em(head: Head, paper: Paper, style: Style) -> float:
    """Height of the packed head: kind, facts and verdict run around picture and symbol, and on below."""
    closer = CLOSER_LETTERS if style.closest else 1.0
    wide, beside = (
        em(mm, style.points) * closer
        for mm in (paper.width, paper.width - PACKED_PORTRAIT_MM[0] - PACKED_SYMBOL_MM - 2 * PACKED_CLEAR_MM)
    )
    larger, symbol = FRUGAL_SHARE * paper.title / style.points, em(PACKED_SYMBOL_MM, style.points)
    facts = [(head.code, True), (" · ".join(("", *head.facts, head.over)), False)]
    text = 1.1 * larger * lines([(head.title, True)], beside / larger)
    verdict = [(head.verdict, True), (head.reasons, False)] if head.verdict else []
    there = max(0, ceil((symbol - text) / style.line))
    text += style.line * lines([(head.kind, False), *facts, *verdict], wide, (there, beside))
    return max(text, symbol) + em(0.6, style.points)
