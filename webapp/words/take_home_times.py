"""The acclimation put on the clock and the calendar of one day: (when, what) for the hours, the light and the weeks."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import pairwise

from webapp.fit.findings import Note
from webapp.words.acclimation_told import when_of
from webapp.words.dates import clock, day_of_month, short_day
from webapp.words.language import later
from webapp.words.speaker import Speaker
from webapp.words.take_home_short import short_sentence

Steps = list[tuple[str, str]]
#: Notes whose steps follow them, and the way of those.
_IN_STEPS = {"light_by_dimmer": "dimmer", "light_by_moving": "move"}
_WAYS = {"light_by_dimmer": later("With a dimmer"), "light_by_moving": later("Without one")}
_FEWEST_IN_A_RHYTHM = 4
LIFT_OVER = later("Lift it into its place.")
_UNTIL = {"no_feeding_yet": "days", "leave_in_peace": "days"}
_IN_THE_WEEKS = frozenset({
    "flow_low_first", "hold_still", "no_feeding_yet", "feed_from_day", "leave_in_peace", "look_on_day",
})  # fmt: skip


@dataclass
class Timed:
    """hours: from the bag into the tank, by the clock; light: its steps; weeks: all that comes after, by the day."""

    hours: Steps = field(default_factory=list)
    light: Steps = field(default_factory=list)
    weeks: Steps = field(default_factory=list)
    in_the_tank: datetime | None = None


def put_on_the_clock(notes: Sequence[Note], speaker: Speaker, start: datetime, *, brief: bool = False) -> Timed:
    """`notes` in the order of fit.acclimate; `start`: the reader's clock when the bag is put into the water.

    brief: days without their weekday, and steps of the light that come at regular days by their rhythm.
    """
    timed, walker = Timed(), _Walker(speaker, start, brief=brief)
    for note in notes:
        if note.code in ("light_step", "final_spot_on_day"):
            continue
        text = short_sentence(note, speaker)
        if note.code == "no_bag_water":
            text = f"{speaker.translate(LIFT_OVER)} {text}"
        if note.code in _IN_STEPS:
            _add(timed.light, walker.day_of(note), f"{text} {walker.light_steps(notes, _IN_STEPS[note.code])}")
        elif note.code.startswith("light_"):
            _add(timed.light, walker.day_of(note), text)
        elif note.code in _IN_THE_WEEKS:
            _add(timed.weeks, walker.day_of(note), text)
        else:
            _add(timed.hours, walker.hour_of(note), text)
        if note.code == "no_bag_water":
            timed.in_the_tank = walker.at
    return timed


def _add(steps: Steps, when: str, text: str) -> None:
    if steps and steps[-1][0] == when:
        steps[-1] = when, f"{steps[-1][1]} {text}"
    else:
        steps.append((when, text))


class _Walker:
    """Goes through the hours: `at` is when the next step may begin."""

    def __init__(self, speaker: Speaker, start: datetime, *, brief: bool = False) -> None:
        self.speaker, self.start, self.at, self.brief = speaker, start, start, brief
        self._drip_from = start

    def hour_of(self, note: Note) -> str:
        """Its heading, and the time it takes is gone."""
        minutes = note.values.get("minutes")
        if note.code == "pour_half_away":
            every, times = float(note.values["every_minutes"]), int(note.values["times"])  # type: ignore[arg-type]
            moments = [self._drip_from + timedelta(minutes=every * n) for n in range(1, times + 1)]
            return self.speaker.listed(self._clock(moment) for moment in moments)
        if note.code in ("tub", "tub_clean_water"):
            return self._day(0)
        if note.code == "tub_day":
            self.at = self.start + timedelta(days=int(note.values["day"]))  # type: ignore[arg-type]
            return self._day(int(note.values["day"]))  # type: ignore[arg-type]
        if note.code == "no_bag_water" and self.at.date() > self.start.date() + timedelta(days=1):
            return self._named(self.at)
        if note.code == "dim_first":
            return self._clock(self.start)
        if minutes and note.code != "long_journey":
            return self._span(float(minutes), drips=note.code == "drip")  # type: ignore[arg-type]
        return self._clock(self.at)

    def day_of(self, note: Note) -> str:
        """The day of a step of the weeks, or what it is about where it has no day."""
        if note.code in _UNTIL:
            day = self._day(int(note.values[_UNTIL[note.code]]))  # type: ignore[arg-type]
            return self.speaker.say(later("Until %(day)s"), day=day)
        if "day" in note.values:
            return self._day(int(note.values["day"]))  # type: ignore[arg-type]
        if note.code in _WAYS:
            return self.speaker.translate(_WAYS[note.code])
        return when_of(note, self.speaker)

    def light_steps(self, notes: Sequence[Note], way: str) -> str:
        """All steps of one way in one sentence, each with its day; brief: regular ones by their rhythm."""
        steps = [note for note in notes if note.code == "light_step" and note.values["way"] == way]
        days = [int(note.values["day"]) for note in steps]  # type: ignore[arg-type]
        strengths = [self._strength(note, way) for note in steps]
        gaps = {later - earlier for earlier, later in pairwise(days)}
        if self.brief and len(days) >= _FEWEST_IN_A_RHYTHM and len(gaps) == 1:
            sentence = later("Lamp, every %(n)s days, %(begins)s to %(ends)s: %(steps)s.")
            if way != "dimmer":
                sentence = later("Light (µmol/m²/s), every %(n)s days, %(begins)s to %(ends)s: %(steps)s.")
            ends = {"begins": self._date(days[0]), "ends": self._date(days[-1])}
            return self.speaker.say(sentence, n=gaps.pop(), steps=", ".join(strengths), **ends)
        told = ", ".join(
            self.speaker.say(later("%(day)s %(strength)s"), day=self._date(day), strength=strength)
            for day, strength in zip(days, strengths, strict=True)
        )
        sentence = later("Lamp: %(steps)s.") if way == "dimmer" else later("Light (µmol/m²/s): %(steps)s.")
        return self.speaker.say(sentence, steps=told)

    def _strength(self, note: Note, way: str) -> str:
        share, par = float(note.values["share"]), float(note.values["par"])  # type: ignore[arg-type]
        return self.speaker.percent(share) if way == "dimmer" else self.speaker.number(par)

    def _span(self, minutes: float, *, drips: bool) -> str:
        begins, self.at = self.at, self.at + timedelta(minutes=minutes)
        if drips:
            self._drip_from = begins
        return self.speaker.say(later("%(begins)s–%(ends)s"), begins=self._clock(begins), ends=self._clock(self.at))

    def _clock(self, moment: datetime) -> str:
        return clock(self.speaker.translate, moment)

    def _day(self, days: int) -> str:
        return self._named(self.start + timedelta(days=days))

    def _named(self, day: datetime) -> str:
        return (day_of_month if self.brief else short_day)(self.speaker.translate, day)

    def _date(self, days: int) -> str:
        return day_of_month(self.speaker.translate, self.start + timedelta(days=days))
