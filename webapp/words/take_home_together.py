"""What to change first for several animals of one sale: one list for the tank, and what cannot be met for all."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from webapp.fit.findings import Note
from webapp.fit.together import Common, Together
from webapp.words.factors import factor_name, quantity_of
from webapp.words.language import later
from webapp.words.speaker import Speaker
from webapp.words.take_home import TITLES, Section, beside_the_water, span_of
from webapp.words.take_home_changes import changes_by_deed, deed_of, hints

if TYPE_CHECKING:
    from webapp.words.take_home_several import Piece

APART = later("What does not go together")
#: Of each one's own spot, not of the water that they share.
OF_THE_SPOT = frozenset({"par", "flow"})


def changes_for_all(pieces: Sequence["Piece"], together: Together | None, speaker: Speaker) -> Section:
    """Each change once, with the names of those that ask for it where not all of them do."""
    title = speaker.translate(TITLES["changes"])
    if together is None:
        return Section("changes", title)
    schedule = together.plans.schedule
    names = [[pieces[place].name for place in sorted(places)] for places in _asking(together).values()]
    told = changes_by_deed(schedule, pieces[0].told.start, speaker)
    water = [(deed, for_whom(text, asking, pieces, speaker)) for (deed, text), asking in zip(told, names, strict=True)]
    beside: dict[tuple[str, str], list[str]] = {}
    for piece in _cooled_for_all(pieces):
        for step in beside_the_water(piece.told, speaker):
            beside.setdefault(step, []).append(piece.name)
    steps = [(what, for_whom(text, asking, pieces, speaker)) for (what, text), asking in beside.items()]
    waits = any(piece.told.report and piece.told.report.whole == "change_first" for piece in pieces)
    before = later("Do this, test again, then fetch them; dates count from then.")
    lines = [speaker.translate(before)] if waits and (steps or water) else []
    return Section("changes", title, (*lines, *hints(schedule, speaker)), (*steps, *water))


def _cooled_for_all(pieces: Sequence["Piece"]) -> list["Piece"]:
    """The same, each asking for as much less heat as the one that bears least of it: it is one tank."""
    asked = [
        float(note.values["by_c"])  # type: ignore[arg-type]
        for piece in pieces
        for finding in (piece.told.report.findings if piece.told.report else ())
        for note in finding.advice
        if note.code == "cool_in_summer"
    ]
    return [_cooled(piece, max(asked)) for piece in pieces] if asked else list(pieces)


def _cooled(piece: "Piece", by_c: float) -> "Piece":
    if piece.told.report is None:
        return piece
    cool = Note("cool_in_summer", {"by_c": by_c})
    found = tuple(
        replace(one, advice=tuple(cool if note.code == cool.code else note for note in one.advice))
        for one in piece.told.report.findings
    )
    return replace(piece, told=replace(piece.told, report=replace(piece.told.report, findings=found)))


def _asking(together: Together) -> dict[str, set[int]]:
    """Deed -> places of those that ask for it, in the order in which the deeds begin; nobody for what only follows."""
    asking: dict[str, set[int]] = {deed_of(step): set() for step in together.plans.schedule}
    for factor, plan in together.plans.by_factor.items():
        for step in plan.steps:
            asking[deed_of(step)].update(together.asked_by.get(factor, ()))
    return asking


def for_whom(text: str, names: Iterable[str], pieces: Sequence["Piece"], speaker: Speaker) -> str:
    """The text with names, unless it is for all of them or for nobody's own sake."""
    asking = set(names)
    names = [piece.name for piece in pieces if piece.name in asking]
    others = [piece.name for piece in pieces if piece.name not in asking]
    if not names or not others:
        return text
    if len(names) > 2 * len(others):
        return speaker.say(later("%(text)s For all but %(names)s."), text=text, names=speaker.listed(others))
    return speaker.say(later("%(text)s For %(names)s."), text=text, names=speaker.listed(dict.fromkeys(names)))


def not_for_all(pieces: Sequence["Piece"], common: Common, speaker: Speaker) -> Section:
    """Where two of them cannot both be right in one water, and where none is at its best but none is harmed."""
    lines = []
    for factor, (one, other) in common.apart.items():
        if factor not in OF_THE_SPOT:
            sentence = later(
                "%(reading)s: %(one)s bears %(range)s, %(other)s %(other_range)s. No water suits both: keep one of "
                "them elsewhere."
            )
            names = {"one": pieces[one].name, "other": pieces[other].name}
            low, high = (_bears(pieces[place], factor, speaker) for place in (one, other))
            reading = factor_name(factor, speaker.translate)
            lines.append(speaker.say(sentence, reading=reading, range=low, other_range=high, **names))
    for factor in common.bands:
        if factor in common.compromise and factor not in OF_THE_SPOT:
            sentence = later("%(reading)s: no range is ideal for all; %(range)s harms none of them.")
            reading = factor_name(factor, speaker.translate)
            lines.append(speaker.say(sentence, reading=reading, range=_ideal(common, factor, speaker)))
    return Section("apart", speaker.translate(APART), tuple(lines))


def _bears(piece: "Piece", factor: str, speaker: Speaker) -> str:
    band = piece.told.profile.bands[factor]
    return span_of(str(quantity_of(factor)), band.limit_low, band.limit_high, speaker)


def _ideal(common: Common, factor: str, speaker: Speaker) -> str:
    band = common.bands[factor]
    return span_of(str(quantity_of(factor)), band.ideal_low, band.ideal_high, speaker)
