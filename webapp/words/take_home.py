"""The care sheet as sections of plain text: what pages, the file to keep and the message to share are all made of."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from math import ceil

from webapp.fit.findings import Note, Report
from webapp.fit.profile import Profile
from webapp.fit.specimen import UsedTo
from webapp.words import terms
from webapp.words.dates import day_of_month
from webapp.words.factors import factor_name, quantity_of
from webapp.words.language import later
from webapp.words.notes import note_sentence
from webapp.words.places import VERDICTS
from webapp.words.plans import ToldStep
from webapp.words.report import ToldReport
from webapp.words.sentences import finished
from webapp.words.speaker import Speaker
from webapp.words.take_home_normal import ASK_US, BRING, NORMAL, NOT_NORMAL
from webapp.words.take_home_times import Steps, Timed, put_on_the_clock

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
_BLANK = "____"
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


def sections(of: Told, speaker: Speaker) -> tuple[Section, ...]:
    """Every section that has something to say, in the order in which it is read."""
    timed = put_on_the_clock(of.acclimation, speaker, of.start)
    made = (
        _section("caution", speaker, caution_lines(of, speaker)),
        _targets(of, speaker),
        _section("where", speaker, where_lines(of, speaker)),
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
    lines = [note_sentence(note, speaker) for note in of.safety]
    if not lines and profile.toxicity_note:
        lines = [finished(speaker.translate(profile.toxicity_note)) + "."]
    if not lines:
        return []
    lines.append(speaker.translate(later("Wash your hands after you worked in the tank. Keep children and pets away.")))
    line = of.poisons_line or 5 * _BLANK
    lines.append(speaker.say(later("Ill or hurt: a doctor, or the local poisons line: %(line)s"), line=line))
    return lines


def where_lines(of: Told, speaker: Speaker) -> list[str]:
    """The place, its light and flow, and the room it needs."""
    profile = of.profile
    if of.told is not None and of.told.spot is not None:
        lines = list(of.told.spot.sentences[:3])
    else:
        lines = [speaker.translate(terms.PLACEMENT[profile.placement])]
    clear = ceil(profile.sting_reach_cm + profile.adult_cm / _GROWTH_SHARE)
    room = later("Keep %(clear)s clear to other kinds: it reaches %(reach)s and grows to %(adult)s.")
    places = {"clear": clear, "reach": profile.sting_reach_cm, "adult": profile.adult_cm}
    told = {name: speaker.reading("length", value, rough=True) for name, value in places.items()}
    return [*lines, speaker.say(room, **told)]


def mates_lines(profile: Profile, speaker: Speaker) -> list[str]:
    """Who would bite it, who might, whom it would eat."""
    told = (
        (later("Never with it, they eat it: %(names)s."), profile.nipped_by, "never"),
        (later("They may bite it: %(names)s."), profile.nipped_by, "risk"),
        (later("It eats them: %(names)s."), profile.catches, "never"),
        (later("It may catch them: %(names)s."), profile.catches, "risk"),
    )
    lines = []
    for sentence, found, severity in told:
        names = [speaker.tankmate(key).split(" (")[0] for key, how in found.items() if how == severity]
        if names:
            lines.append(speaker.say(sentence, names=", ".join(names)))
    return lines


def _targets(of: Told, speaker: Speaker) -> Section:
    columns = [later("Of"), later("Ideal"), later("Yours") if of.told else later("Here")]
    yours = {one.factor: one for one in of.told.factors} if of.told else {}
    rows = []
    for factor, band in of.profile.bands.items():
        quantity = quantity_of("light" if factor == "par" else factor)
        row = [factor_name(factor, speaker.translate), speaker.span(str(quantity), band.ideal_low, band.ideal_high)]
        if of.told:
            row.append(_reading(yours.get("light" if factor == "par" else factor), speaker))
        else:
            row.append(speaker.reading(str(quantity), of.used_to[factor].median) if factor in of.used_to else "")
        rows.append(tuple(row))
    translated = tuple(speaker.translate(one) for one in columns)
    return Section("targets", speaker.translate(TITLES["targets"]), columns=translated, rows=tuple(rows))


def _reading(one: object, speaker: Speaker) -> str:
    reading, verdict = getattr(one, "reading", ""), getattr(one, "verdict", "suits")
    if not reading:
        return _BLANK
    if verdict == "suits":
        return str(reading)
    word = speaker.translate(VERDICTS[verdict])
    return speaker.say(later("%(reading)s: %(verdict)s"), reading=reading, verdict=word)


def _changes_first(of: Told, speaker: Speaker) -> Section:
    steps = _changes(of, speaker)
    again = later("Test before each step.")
    before = later("These come before the animal: fetch it when they are done, and test again first.")
    lines = [speaker.translate(before)] if steps and of.report and of.report.whole == "change_first" else []
    return _section("changes", speaker, [*lines, *([speaker.translate(again)] if steps else [])], steps)


def _changes(of: Told, speaker: Speaker) -> Steps:
    """The plan for the buyer's water by date; what is done again and again is told once, with all its days."""
    by_text: dict[str, list[str]] = {}
    for step in of.told.schedule if of.told else ():
        by_text.setdefault(step.text, []).append(_days(of.start, step, speaker))
    return [(", ".join(days), text) for text, days in by_text.items()]


def _days(start: datetime, step: ToldStep, speaker: Speaker) -> str:
    first, last = (
        day_of_month(speaker.translate, start + timedelta(days=day)) for day in (step.first_day, step.last_day)
    )
    return first if first == last else speaker.say(later("%(begins)s to %(ends)s"), begins=first, ends=last)
