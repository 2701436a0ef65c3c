"""One sheet for several animals of one sale: a plan that they share, and what each needs of its own."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil

from webapp.words import terms
from webapp.words.dates import clock, short_day
from webapp.words.factors import factor_name, quantity_of
from webapp.words.language import later
from webapp.words.speaker import Speaker
from webapp.words.take_home import TITLES, Section, Told, caution_lines, sections, timed_of

SHARED = ("hours", "weeks", "normal", "not_normal", "papers", "terms")
OWN = ("where", "light", "food", "mates")
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


def shared_sections(pieces: Sequence[Piece], gaps: Iterable[Gap], speaker: Speaker) -> tuple[Section, ...]:
    """What is told once for all of them."""
    cautions = dict.fromkeys(line for piece in pieces for line in caution_lines(piece.told, speaker))
    made = [
        Section("caution", speaker.translate(TITLES["caution"]), tuple(cautions)),
        _order(pieces, speaker),
        _gaps(gaps, speaker),
        _water(pieces, speaker),
        *(_merged(key, pieces, speaker) for key in SHARED),
    ]
    return tuple(one for one in made if not one.is_empty)


def own_sections(piece: Piece, speaker: Speaker) -> tuple[Section, ...]:
    """What one of them needs alone."""
    return tuple(one for one in sections(piece.told, speaker) if one.key in OWN)


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
    lines = []
    for gap in gaps:
        if gap.cm:
            length = speaker.reading("length", ceil(gap.cm), rough=True)
            sentence = later("%(one)s and %(other)s: at least %(length)s.")
            lines.append(speaker.say(sentence, one=gap.one, other=gap.other, length=length))
        else:
            lines.append(speaker.say(later("%(one)s and %(other)s may touch."), one=gap.one, other=gap.other))
    return Section("gaps", speaker.translate(ALL_TITLES["gaps"]), tuple(lines))


def _water(pieces: Sequence[Piece], speaker: Speaker) -> Section:
    """The range that lies in the ideal of each of them."""
    rows = []
    for factor in pieces[0].told.profile.bands:
        bands = [piece.told.profile.bands[factor] for piece in pieces if factor in piece.told.profile.bands]
        if factor in ("par", "flow"):  # of each one's own spot
            continue
        low, high = max(band.ideal_low for band in bands), min(band.ideal_high for band in bands)
        apart = speaker.translate(later("no range suits them all"))
        told = speaker.span(str(quantity_of(factor)), low, high) if low <= high else apart
        rows.append((factor_name(factor, speaker.translate), told))
    columns = tuple(speaker.translate(one) for one in (later("Of"), later("Ideal")))
    return Section("water", speaker.translate(ALL_TITLES["water"]), columns=columns, rows=tuple(rows))


def _merged(key: str, pieces: Sequence[Piece], speaker: Speaker) -> Section:
    """One section of all of them: what is the same for all is told once, the rest with the names."""
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
        key, speaker.translate(TITLES[key]),
        tuple(_named(text, names, pieces, speaker) for text, names in lines.items()),
        tuple((when, _named(text, names, pieces, speaker)) for (when, text), names in steps.items()),
    )  # fmt: skip


def _named(text: str, names: list[str], pieces: Sequence[Piece], speaker: Speaker) -> str:
    if len(names) == len(pieces):
        return text
    return speaker.say(later("%(names)s: %(text)s"), names=", ".join(dict.fromkeys(names)), text=text)
