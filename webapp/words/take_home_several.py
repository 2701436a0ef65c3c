"""One sheet for several animals of one sale: a plan that they share, and what each needs of its own."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import ceil

from webapp.fit.together import Common, Together
from webapp.words import terms
from webapp.words.dates import clock, short_day
from webapp.words.factors import factor_name, quantity_of
from webapp.words.language import later
from webapp.words.speaker import Speaker
from webapp.words.take_home import BLANK, TITLES, Section, Told, caution_lines, sections, span_of, timed_of
from webapp.words.take_home_normal import ASK_US
from webapp.words.take_home_short import short_sentence
from webapp.words.take_home_together import OF_THE_SPOT, changes_for_all, not_for_all
from webapp.words.take_home_verdict import verdict_sentences, verdict_word

#: Told once for all, as far as it is the same for all; of some what differs stands in each one's own part.
SHARED = ("hours", "weeks", "normal", "not_normal", "papers", "terms")
OWN = ("where", "light", "weeks", "food", "normal", "not_normal", "mates", "papers")
_OF_THE_WORK = frozenset({"safety_dosing", "safety_electricity"})
ALL_TITLES = {
    "order": later("Who goes in first"),
    "gaps": later("Distances between them"),
    "water": later("Water that suits them all"),
}
_FROM_BELOW = ("bottom", "lower", "middle", "anywhere", "upper")


@dataclass(frozen=True, slots=True)
class Piece:
    """One animal of the sale."""

    name: str
    code: str
    told: Told


@dataclass(frozen=True, slots=True)
class Gap:
    """The clear gap that two of them need, cm."""

    one: str
    other: str
    cm: float


def shared_sections(
    pieces: Sequence[Piece], gaps: Iterable[Gap], common: Common, together: Together | None, speaker: Speaker
) -> tuple[Section, ...]:
    """What is told once for all of them. common: the water that they bear; together: the plan of the buyer's tank, None
    where none was given.
    """
    made = [
        _cautions(pieces, speaker),
        _order(pieces, speaker),
        _gaps(gaps, speaker),
        _water(pieces, common, speaker),
        not_for_all(pieces, common, speaker),
        changes_for_all(pieces, together, speaker),
        *(_merged(key, pieces, speaker) for key in SHARED),
    ]
    return tuple(one for one in _asked_last(made, speaker) if not one.is_empty)


def _asked_last(made: Sequence[Section], speaker: Speaker) -> list[Section]:
    """Where 'ask us' is all that holds for all of what is not normal, it stands with the terms, not under that name."""
    ask, kept = (speaker.translate(ASK_US),), []
    alone = any(one.key == "not_normal" and one.lines == ask for one in made)
    for one in made:
        if alone and one.key in ("not_normal", "terms"):
            one = replace(one, lines=() if one.key == "not_normal" else (*one.lines, *ask))
        kept.append(one)
    return kept


def _cautions(pieces: Sequence[Piece], speaker: Speaker) -> Section:
    """What can hurt, with the names where it is not all of them; whom to call stands last."""
    lines: dict[str, list[str]] = {}
    call = ""
    for piece in pieces:
        *said, last = caution_lines(piece.told, speaker) or [""]
        call = last or call
        for line in said:
            lines.setdefault(line, []).append(piece.name)
    notes = {short_sentence(one, speaker) for piece in pieces for one in piece.told.safety if one.code in _OF_THE_WORK}
    told = [text if text in notes else _named(text, names, pieces, speaker) for text, names in lines.items()]
    told.sort(key=lambda text: text in lines)  # what is of one animal first, then what holds for all work
    return Section("caution", speaker.translate(TITLES["caution"]), (*told, call) if call else ())


def own_sections(piece: Piece, pieces: Sequence[Piece], speaker: Speaker) -> tuple[Section, ...]:
    """The verdict on one of them, and what it needs alone: nothing of what all `pieces` share."""
    made = []
    if piece.told.report is not None:
        reasons = verdict_sentences(piece.told.report, piece.told.profile, speaker)
        made.append(Section("verdict", verdict_word(piece.told.report, speaker), tuple(reasons)))
    for one in sections(piece.told, speaker):
        if one.key in OWN:
            lines, steps = _common(one.key, pieces, speaker) if one.key in SHARED else ((), ())
            made.append(
                replace(
                    one, lines=tuple(line for line in one.lines if line not in lines),
                    steps=tuple(step for step in one.steps if step not in steps),
                )
            )  # fmt: skip
    return tuple(one for one in made if not one.is_empty)


def _common(
    key: str, pieces: Sequence[Piece], speaker: Speaker
) -> tuple[tuple[str, ...], tuple[tuple[str, str], ...]]:
    """Lines and steps of a section that are the same for all of them."""
    found = [one for piece in pieces for one in sections(piece.told, speaker) if one.key == key]
    if len(found) < len(pieces):
        return (), ()
    first, *others = found
    return (
        tuple(line for line in first.lines if all(line in one.lines for one in others)),
        tuple(step for step in first.steps if all(step in one.steps for one in others)),
    )


def _order(pieces: Sequence[Piece], speaker: Speaker) -> Section:
    """By the moment at which each is ready, then from below upwards."""
    ready = [(timed_of(piece.told, speaker).in_the_tank or piece.told.start, piece) for piece in pieces]
    ready.sort(key=lambda pair: (pair[0], _FROM_BELOW.index(_zone(pair[1])), pair[1].name))
    steps = []
    for moment, piece in ready:
        today = moment.date() == piece.told.start.date()
        when = clock(speaker.translate, moment) if today else short_day(speaker.translate, moment)
        place = speaker.translate(terms.PLACEMENT[_zone(piece)])
        steps.append((when, speaker.say(later("%(name)s: %(place)s"), name=piece.name, place=place)))
    why = later("Float all bags together. From below upwards, so that no hand or stone falls on one that stands there.")
    return Section("order", speaker.translate(ALL_TITLES["order"]), (speaker.translate(why),), tuple(steps))


def _zone(piece: Piece) -> str:
    spot = piece.told.report.spot if piece.told.report else None
    return spot.zone if spot else piece.told.profile.placement


def _gaps(gaps: Iterable[Gap], speaker: Speaker) -> Section:
    """A line for each animal with its distances to those after it."""
    lines, apart = [], {}
    for gap in gaps:
        if gap.cm:
            length = speaker.reading("length", ceil(gap.cm), rough=True)
            told = speaker.say(later("%(length)s from %(other)s"), length=length, other=gap.other)
            apart.setdefault(gap.one, []).append(told)
        else:
            lines.append(speaker.say(later("%(one)s and %(other)s may touch."), one=gap.one, other=gap.other))
    sentence = later("%(one)s: at least %(others)s.")
    told_apart = [speaker.say(sentence, one=one, others=", ".join(others)) for one, others in apart.items()]
    return Section("gaps", speaker.translate(ALL_TITLES["gaps"]), (*told_apart, *lines))


def _water(pieces: Sequence[Piece], common: Common, speaker: Speaker) -> Section:
    """The range that suits all of them, or harms none, and beside it what the buyer measured."""
    rows, report = [], pieces[0].told.report
    found = {one.factor: one.estimate for one in report.findings if one.estimate} if report else {}
    for factor in pieces[0].told.profile.bands:
        if factor in OF_THE_SPOT:
            continue
        quantity, band = str(quantity_of(factor)), common.bands.get(factor)
        apart = speaker.translate(later("no range suits them all"))
        span = span_of(quantity, band.ideal_low, band.ideal_high, speaker) if band else apart
        row = [factor_name(factor, speaker.translate), span]
        if report:
            row.append(speaker.bare(quantity, found[factor].mid) if factor in found else BLANK)
        rows.append(tuple(row))
    columns = (later("Reading"), later("Ideal"), *([later("Yours")] if report else []))
    told = tuple(map(speaker.translate, columns))
    return Section("water", speaker.translate(ALL_TITLES["water"]), columns=told, rows=tuple(rows))


def _merged(key: str, pieces: Sequence[Piece], speaker: Speaker) -> Section:
    """One section of all of them: what is the same for all; of the hours the rest too, with the names."""
    title = speaker.translate(TITLES[key])
    if key in OWN:
        return Section(key, title, *_common(key, pieces, speaker))
    lines: dict[str, list[str]] = {}
    steps: dict[tuple[str, str], list[str]] = {}
    for piece in pieces:
        for section in sections(piece.told, speaker):
            if section.key == key:
                for line in section.lines:
                    lines.setdefault(line, []).append(piece.name)
                for step in section.steps:
                    steps.setdefault(step, []).append(piece.name)
    return Section(
        key, title,
        tuple(_named(text, names, pieces, speaker) for text, names in lines.items()),
        tuple((when, _named(text, names, pieces, speaker)) for (when, text), names in steps.items()),
    )  # fmt: skip


def _named(text: str, names: list[str], pieces: Sequence[Piece], speaker: Speaker) -> str:
    if len(names) == len(pieces):
        return text
    return speaker.say(later("%(names)s: %(text)s"), names=", ".join(dict.fromkeys(names)), text=text)
