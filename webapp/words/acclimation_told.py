"""From the shop's water to the buyer's: (when, what to do) in the order in which it is done."""

from collections.abc import Iterable

from webapp.fit.findings import Note
from webapp.words.acclimation_notes import WHEN
from webapp.words.language import later
from webapp.words.notes import note_sentence
from webapp.words.speaker import Speaker

DAYS_A_WEEK = 7


def tell_acclimation(notes: Iterable[Note], speaker: Speaker) -> list[tuple[str, str]]:
    """(when, what) of each step from the shop's water to the buyer's; what falls on one time is told together."""
    told: list[tuple[str, str]] = []
    for note in notes:
        when, text = when_of(note, speaker), note_sentence(note, speaker)
        if told and told[-1][0] == when:
            told[-1] = when, f"{told[-1][1]} {text}"
        else:
            told.append((when, text))
    return told


def when_of(note: Note, speaker: Speaker) -> str:
    """The heading of a step: what it is about, 'Day 4' (the first day is day 1) or 'After 2 weeks'."""
    if note.code in WHEN:
        return speaker.translate(WHEN[note.code])
    day = int(note.values["day"])
    if note.code == "look_on_day" and day % DAYS_A_WEEK == 0:
        weeks = day // DAYS_A_WEEK
        return speaker.count(later("After %(weeks)s week"), later("After %(weeks)s weeks"), weeks, weeks=weeks)
    return speaker.say(later("Day %(day)s"), day=str(day + 1))
