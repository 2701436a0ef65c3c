"""Several animals on as few sides as they need: the shared plan first, then each animal's part, whole on one side."""

from collections.abc import Sequence
from dataclasses import dataclass

from webapp.views.sheet_heights import Style, balanced, pieces_of
from webapp.views.sheet_layout import SPARE_SHARE, Head, Paper, Side, column_em, side_mm
from webapp.views.sheet_type import MM_PER_PT, em, lines
from webapp.words.take_home import Section

PORTRAIT_MM, SYMBOL_MM, GAP_MM, RULE_MM = (21.0, 16.0), 16.0, 2.0, 0.8
NAME_EM, OWN_GAP_EM = 1.2, 0.15


@dataclass(frozen=True, slots=True)
class PartText:
    """One animal's part as text: name, kind, code, and its own sections, which run in."""

    name: str
    kind: str
    code: str
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True)
class SeveralSide:
    """One side: what is shared, and which parts (by their place in the sale). high: estimated, mm."""

    sections: tuple[Section, ...]
    parts: tuple[int, ...]
    style: Style
    high: float


def several_sides(
    shared: Sequence[Section], parts: Sequence[PartText], paper: Paper, head: Head
) -> list[SeveralSide]:
    """The fewest sides, and of the styles that need so few the most open one."""
    return min((_filled(shared, parts, paper, head, style) for style in paper.styles), key=len)


def roll_of(done: Sequence[SeveralSide]) -> list[Side]:
    """The same as sides of a sheet for one, for the length of a roll."""
    return [Side(side.sections, side.style, high=side.high) for side in done]


def _filled(
    shared: Sequence[Section], parts: Sequence[PartText], paper: Paper, head: Head, style: Style
) -> list[SeveralSide]:
    """Side after side in one style: what is shared in its order, then on each side every part that still fits."""
    done: list[SeveralSide] = []
    left, waiting = list(shared), list(range(len(parts)))

    def side(sections: Sequence[Section], here: Sequence[int]) -> SeveralSide:
        high = _side_mm(sections, [parts[one] for one in here], paper, style, None if done else head)
        return SeveralSide(tuple(sections), tuple(here), style, high)

    def fits(sections: Sequence[Section], here: Sequence[int]) -> bool:
        return paper.height is None or not (sections[1:] or here) or side(sections, here).high <= paper.height

    while left or waiting:
        sections: list[Section] = []
        while left and fits([*sections, left[0]], []):
            sections.append(left.pop(0))
        here: list[int] = []
        for one in [] if left else list(waiting):
            if fits(sections, [*here, one]) or not (sections or here):
                here.append(one)
                waiting.remove(one)
        done.append(side(sections, here))
    return done


def _side_mm(
    sections: Sequence[Section], parts: Sequence[PartText], paper: Paper, style: Style, head: Head | None
) -> float:
    column = column_em(paper, style)
    flowing = [one for one in sections if one.key != "caution"]
    pieces = pieces_of(flowing, column, style)
    pieces += [piece for part in parts for piece in _part_pieces(part, column, style)]
    above = side_mm([one for one in sections if one.key == "caution"], paper, style, head)
    return above + balanced(pieces, paper.columns) * style.points * MM_PER_PT * (1 + SPARE_SHARE)


def _part_pieces(part: PartText, wide_em: float, style: Style) -> list[float]:
    """The pieces of one animal's part: its head with what comes first, then a paragraph each."""
    beside = wide_em - em(PORTRAIT_MM[0] + SYMBOL_MM + 2 * GAP_MM, style.points)
    rows = ([(part.kind, False)], [(part.code, True)])
    text = style.line * sum(lines(runs, beside) for runs in rows)
    text += 1.1 * NAME_EM * lines([(part.name, True)], beside / NAME_EM) + 0.2
    pieces = [max(text, em(PORTRAIT_MM[1], style.points)) + em(RULE_MM, style.points) + 0.2]
    for number, one in enumerate(part.sections):
        runs = [(f"{one.title}:", True), *((line, False) for line in one.lines)]
        runs += [run for when, said in one.steps for run in ((when, True), (said, False))]
        high = style.line * lines(runs, wide_em) + OWN_GAP_EM
        pieces = [*pieces, high] if number else [pieces[0] + high]
    pieces[-1] += style.section_gap
    return pieces
