"""The buyer's tank in litres and centimetres, and the questions when they do not fit each other."""

from dataclasses import dataclass

from webapp.fit.asking import answer_for, ask, canonical
from webapp.fit.findings import Question
from webapp.fit.tank import BuyerTank, Measured
from webapp.science.units import INCH_CM, QUANTITIES

DISAGREE = 0.12
SIDES = ("length", "width", "height")
PROPORTIONS = (2.0, 1.0, 1.0)
"""Length : width : depth taken where only the volume is known (common practice)."""


@dataclass(frozen=True, slots=True)
class Size:
    """volume_l: as said, else of the box; sides in cm, None where not known. `guessed`: sides from the volume."""

    volume_l: float | None
    length_cm: float | None
    width_cm: float | None
    depth_cm: float | None
    guessed: bool = False

    @property
    def longest_cm(self) -> float | None:
        """The longest level side that the buyer gave, cm."""
        sides = [side for side in (self.length_cm, self.width_cm) if side is not None]
        return None if self.guessed or not sides else max(sides)


def size_of(tank: BuyerTank) -> tuple[Size, tuple[Question, ...]]:
    """Volume and sides. Whatever carries an open question is left out."""
    questions = []
    given: dict[str, float | None] = {}
    for name in ("volume", *SIDES):
        measured = getattr(tank, name)
        given[name] = None
        if measured is None:
            continue
        quantity = "volume" if name == "volume" else "length"
        question = ask(quantity, measured, tank.answers, name=name)
        if question:
            questions.append(question)
        else:
            given[name] = canonical(quantity, measured.value, measured.unit, None, 35.0)
    box = _box(given)
    conflict = _conflict(tank, given["volume"], box)
    if conflict:
        questions.append(conflict)
        return Size(None, None, None, None), tuple(questions)
    volume = given["volume"] if given["volume"] is not None else box
    if any(given[side] is None for side in SIDES) and volume is not None:
        return _guessed(volume, given), tuple(questions)
    return Size(volume, given["length"], given["width"], given["height"]), tuple(questions)


def _box(given: dict[str, float | None]) -> float | None:
    length, width, height = (given[side] for side in SIDES)
    return None if length is None or width is None or height is None else length * width * height / 1000


def _guessed(volume_l: float, given: dict[str, float | None]) -> Size:
    unit_cm = (volume_l * 1000 / (PROPORTIONS[0] * PROPORTIONS[1] * PROPORTIONS[2])) ** (1 / 3)
    length, width, depth = (
        given[side] if given[side] is not None else unit_cm * share
        for side, share in zip(SIDES, PROPORTIONS, strict=True)
    )
    return Size(volume_l, length, width, depth, guessed=True)


def _conflict(tank: BuyerTank, volume_l: float | None, box_l: float | None) -> Question | None:
    """Volume against the box, in both directions, from 12 %; offers are the readings of either that agree."""
    if volume_l is None or box_l is None or tank.volume is None or abs(volume_l - box_l) <= DISAGREE * box_l:
        return None
    answer = answer_for("volume", tank.volume)
    if answer in tank.answers:
        return None
    return Question(
        "volume",
        "volume_against_size",
        tank.volume.value,
        tank.volume.unit,
        _agreeing(tank.volume, box_l),
        {
            "volume_l": volume_l,
            "size_volume_l": box_l,
            "difference_percent": 100 * (volume_l - box_l) / box_l,
            "sides_may_be": _other_sides(tank, volume_l, box_l),
            "answer": answer,
        },
    )


def _agreeing(volume: Measured, box_l: float) -> tuple[tuple[str, float, float], ...]:
    offers = []
    for unit in QUANTITIES["volume"].units:
        at = canonical("volume", volume.value, unit, None, 35.0)
        if unit != volume.unit and at is not None and abs(at - box_l) <= DISAGREE * box_l:
            offers.append((unit, volume.value, at))
    return tuple(offers)


def _other_sides(tank: BuyerTank, volume_l: float, box_l: float) -> str:
    """'in' or 'cm' where the sides, read in that unit instead, agree with the volume; else ''."""
    units = {side.unit for side in (tank.length, tank.width, tank.height) if side is not None}
    for typed, other, factor in (("cm", "in", INCH_CM**3), ("in", "cm", INCH_CM**-3)):
        if units == {typed} and abs(volume_l - box_l * factor) <= DISAGREE * box_l * factor:
            return other
    return ""
