"""The care sheet as sections of plain text: what pages, the file to keep and the message to share are all made of."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from math import ceil

from webapp.fit.findings import Finding, Note, Report
from webapp.fit.profile import Profile
from webapp.fit.specimen import UsedTo
from webapp.words import terms
from webapp.words.factors import factor_name, quantity_of
from webapp.words.language import later
from webapp.words.places import VERDICTS
from webapp.words.report import ToldReport
from webapp.words.sentences import finished
from webapp.words.speaker import Speaker
from webapp.words.take_home_changes import changes_by_deed, hints
from webapp.words.take_home_normal import ASK_US, BRING, NORMAL, NOT_NORMAL
from webapp.words.take_home_short import mate_names, short_sentence
from webapp.words.take_home_times import Timed, put_on_the_clock

TITLES = {
    "caution": later("Caution"),
    "targets": later("What it wants"),
    "where": later("Where"),
    "changes": later("What to change first"),
    "hours": later("From the bag into the tank"),
    "light": later("Light, step by step"),
    "weeks": later("The first weeks"),
    "food": later("Food"),
    "normal": later("Normal"),
    "not_normal": later("Not normal"),
    "mates": later("Keep away"),
    "papers": later("Papers"),
    "terms": later("Our terms"),
}
BLANK = "____"
"""To be filled in by hand."""
IN_THE_TABLE = frozenset({"spot_light_decides", "spot_flow_decides"})
"""Of the reasons of a place those whose number the table of ranges has too."""
_MOST_OF_A_PLACE = 4
_GROWTH_SHARE = 4  # a quarter of the grown size on top of its reach, as the fit check asks of neighbours


@dataclass(frozen=True, slots=True)
class Section:
    """One part of a sheet under `title`. rows: (what, ideal, the buyer's) with the heading in `columns`."""

    key: str
    title: str
    lines: tuple[str, ...] = ()
    steps: tuple[tuple[str, str], ...] = ()
    columns: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to say."""
        return not (self.lines or self.steps or self.rows)


@dataclass(frozen=True, slots=True)
class Told:
    """What a sheet is told of. `report` and `told` are None where no tank was given. start: on the reader's clock."""

    profile: Profile
    report: Report | None
    told: ToldReport | None
    acclimation: Sequence[Note]
    safety: Sequence[Note]
    papers: Sequence[str]
    poisons_line: str
    terms: str
    start: datetime
    used_to: Mapping[str, UsedTo] = field(default_factory=dict)


def sections(of: Told, speaker: Speaker, *, brief: bool = False) -> tuple[Section, ...]:
    """Every section that has something to say, in the order in which it is read.

    brief: regular steps by their rhythm, days without their weekday, light and flow of the place in the table alone.
    """
    timed = put_on_the_clock(of.acclimation, speaker, of.start, brief=brief)
    made = (
        _section("caution", speaker, caution_lines(of, speaker)),
        _targets(of, speaker),
        _section("where", speaker, where_lines(of, speaker, brief=brief)),
        _changes_first(of, speaker),
        _section("hours", speaker, steps=timed.hours),
        _section("light", speaker, steps=timed.light),
        _section("weeks", speaker, steps=timed.weeks),
        _section("food", speaker, [finished(speaker.translate(of.profile.feeding)) + "."]),
        _section("normal", speaker, _all(NORMAL[of.profile.group], speaker)),
        _section("not_normal", speaker, _all((*NOT_NORMAL[of.profile.group], ASK_US), speaker)),
        _section("mates", speaker, mates_lines(of.profile, speaker)),
        _section("papers", speaker, of.papers),
        _section("terms", speaker, [*filter(None, [of.terms]), speaker.translate(BRING)]),
    )
    return tuple(one for one in made if not one.is_empty)


def timed_of(of: Told, speaker: Speaker) -> Timed:
    """The hours, the light and the weeks alone."""
    return put_on_the_clock(of.acclimation, speaker, of.start)


def _section(key: str, speaker: Speaker, lines: Iterable[str] = (), steps: Iterable[tuple[str, str]] = ()) -> Section:
    return Section(key, speaker.translate(TITLES[key]), tuple(lines), tuple(steps))


def _all(sentences: Iterable[str], speaker: Speaker) -> list[str]:
    return [speaker.translate(sentence) for sentence in sentences]


def caution_lines(of: Told, speaker: Speaker) -> list[str]:
    """What can hurt a person, and whom to call; nothing where nothing can."""
    profile = of.profile
    lines = [short_sentence(note, speaker) for note in of.safety]
    if not lines and profile.toxicity_note:
        lines = [finished(speaker.translate(profile.toxicity_note)) + "."]
    if not lines:
        return []
    lines.append(speaker.translate(later("Wash your hands after work in the tank. Keep children and pets away.")))
    line = of.poisons_line or 5 * BLANK
    lines.append(speaker.say(later("Ill or hurt: a doctor, or the local poisons line: %(line)s"), line=line))
    return lines


def where_lines(of: Told, speaker: Speaker, *, brief: bool = False) -> list[str]:
    """The place, its light and flow (brief: without, as the table has them), and the room it needs."""
    profile = of.profile
    if of.report is not None and of.told is not None and of.told.spot is not None and of.report.spot is not None:
        depth = of.told.spot.sentences[: len(of.told.spot.sentences) - len(of.report.spot.reasons)]
        reasons = [note for note in of.report.spot.reasons if note.code != "spot_as_usual"] or of.report.spot.reasons
        reasons = reasons[: _MOST_OF_A_PLACE - len(depth)]
        reasons = [note for note in reasons if not (brief and note.code in IN_THE_TABLE)]
        lines = [*depth, *(short_sentence(note, speaker) for note in reasons)]
    else:
        lines = [speaker.translate(terms.PLACEMENT[profile.placement])]
    clear = ceil(profile.sting_reach_cm + profile.adult_cm / _GROWTH_SHARE)
    room = later("Other kinds %(clear)s away: it reaches %(reach)s and grows to %(adult)s.")
    if not profile.sting_reach_cm:
        room = later("Other kinds %(clear)s away: it grows to %(adult)s.")
    places = {"clear": clear, "reach": profile.sting_reach_cm, "adult": profile.adult_cm}
    told = {name: speaker.reading("length", value, rough=True) for name, value in places.items()}
    return [*lines, speaker.say(room, **told)]


def mates_lines(profile: Profile, speaker: Speaker) -> list[str]:
    """Who would bite it, who might, whom it would eat."""
    told = (
        (later("These eat it: %(names)s."), profile.nipped_by, "never"),
        (later("These may bite it: %(names)s."), profile.nipped_by, "risk"),
        (later("It eats: %(names)s."), profile.catches, "never"),
        (later("It may catch: %(names)s."), profile.catches, "risk"),
    )
    lines = []
    for sentence, found, severity in told:
        names = mate_names([key for key, how in found.items() if how == severity], speaker)
        if names:
            lines.append(speaker.say(sentence, names=", ".join(names)))
    return lines


def _targets(of: Told, speaker: Speaker) -> Section:
    """Ideal ranges, and beside them what the buyer measured, else what it is used to here; units stand once a row."""
    columns = [later("Reading"), later("Ideal"), later("Yours") if of.report else later("Here")]
    found = {one.factor: one for one in of.report.findings} if of.report else {}
    rows = []
    for factor, band in of.profile.bands.items():
        quantity = str(quantity_of("light" if factor == "par" else factor))
        row = [factor_name(factor, speaker.translate), span_of(quantity, band.ideal_low, band.ideal_high, speaker)]
        if of.report:
            row.append(_yours(found.get("light" if factor == "par" else factor), quantity, speaker))
        else:
            row.append(speaker.bare(quantity, of.used_to[factor].median) if factor in of.used_to else "")
        rows.append(tuple(row))
    translated = tuple(speaker.translate(one) for one in columns)
    return Section("targets", speaker.translate(TITLES["targets"]), columns=translated, rows=tuple(rows))


def span_of(quantity: str, low: float, high: float, speaker: Speaker) -> str:
    """'8–12 dKH', as tables have it."""
    ends = {"low": speaker.bare(quantity, low), "high": speaker.bare(quantity, high)}
    span = speaker.say(later("%(low)s–%(high)s"), **ends)
    return span if quantity == "ph" else speaker.written(quantity, speaker.unit(quantity), span)


def _yours(finding: Finding | None, quantity: str, speaker: Speaker) -> str:
    if finding is None or finding.estimate is None:
        return BLANK
    reading = speaker.bare(quantity, finding.estimate.mid)
    if finding.verdict == "suits":
        return reading
    word = speaker.translate(VERDICTS[finding.verdict])
    return speaker.say(later("%(reading)s: %(verdict)s"), reading=reading, verdict=word)


def _changes_first(of: Told, speaker: Speaker) -> Section:
    """What comes before the animal: what no day's plan mends, each with what to do, then the water, deed by deed."""
    if of.report is None:
        return _section("changes", speaker)
    steps = beside_the_water(of, speaker)
    water = changes_by_deed(of.report.schedule, of.start, speaker)
    before = later("Do this, test again, then fetch it; dates count from then.")
    lines = [speaker.translate(before)] if (steps or water) and of.report.whole == "change_first" else []
    return _section("changes", speaker, [*lines, *hints(of.report.schedule, speaker)], [*steps, *water])


def beside_the_water(of: Told, speaker: Speaker) -> list[tuple[str, str]]:
    """(factor, what to do) of what must change first and no day's plan mends; where only several things that are close
    together make it so, of these."""
    if of.report is None:
        return []
    which = [one for one in of.report.findings if one.verdict == "change_first"]
    if not which and of.report.whole == "change_first":
        which = [one for one in of.report.findings if one.verdict == "close"]
    return [
        (
            factor_name(one.factor, speaker.translate),
            " ".join(short_sentence(note, speaker, one) for note in one.advice),
        )
        for one in which
        if one.advice and one.plan is None and one.factor not in of.profile.bands
    ]
