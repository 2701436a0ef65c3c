"""Why the whole is as it is, in one line: factors by name, and with a reading those that no table of a sheet shows."""

from collections.abc import Iterator, Sequence

from webapp.fit.findings import Finding, Note, Report
from webapp.fit.profile import Profile
from webapp.words.factors import factor_inside, quantity_of
from webapp.words.language import later
from webapp.words.notes import sentence_of
from webapp.words.places import VERDICTS, places_of
from webapp.words.report import ENEMIES
from webapp.words.sentences import filled, finished
from webapp.words.speaker import Speaker
from webapp.words.take_home_short import SHORT, mate_name

#: Reasons beside what must change first.
_WEAKER = frozenset({"whole_also_close", "whole_unsettled"})


def verdict_word(report: Report, speaker: Speaker) -> str:
    """The verdict on the whole."""
    return speaker.translate(VERDICTS[report.whole])


def verdict_sentences(report: Report, profile: Profile, speaker: Speaker, *, brief: bool = False) -> list[str]:
    """Its reasons. brief: where something must change first, what else the table of ranges marks is left to it."""
    notes = list(_each_once(report.whole_reasons))
    if brief and any(note.values.get("verdict") == "change_first" for note in notes):
        notes = [one for note in notes if (one := _outside_the_table(note, profile))]
    return [_reason(note, report, profile, speaker) for note in notes]


def _outside_the_table(note: Note, profile: Profile) -> Note | None:
    """A weaker reason without the factors that the table of ranges has; None where nothing is left of it."""
    if note.code not in _WEAKER:
        return note
    left = tuple(one for one in note.values["factors"] if not _in_the_table(one, profile))  # type: ignore[union-attr]
    return Note(note.code, {**note.values, "factors": left}) if left else None


def _in_the_table(factor: str, profile: Profile) -> bool:
    return factor in profile.bands or factor == "light"


def _each_once(notes: Sequence[Note]) -> Iterator[Note]:
    """Where something must change first anyway, what is close is only named, and only where nothing else names it."""
    named = {one: note.code for note in notes for one in note.values.get("factors", ())}  # type: ignore[union-attr]
    must_change = any(note.values.get("verdict") == "change_first" for note in notes)
    for note in notes:
        if note.code != "whole_three_close" or not must_change:
            yield note
        elif close := tuple(one for one in note.values["factors"] if named[one] == note.code):  # type: ignore[union-attr]
            yield Note("whole_also_close", {"factors": close})


def _reason(note: Note, report: Report, profile: Profile, speaker: Speaker) -> str:
    places = places_of(note, speaker)
    if "factors" in note.values:
        found = {finding.factor: finding for finding in report.findings}
        places["factors"] = speaker.listed(_named(found[one], profile, speaker) for one in note.values["factors"])  # type: ignore[union-attr]
    return finished(filled(SHORT.get(note.code) or sentence_of(note), note.values, places, speaker))


def _named(finding: Finding, profile: Profile, speaker: Speaker) -> str:
    name, quantity = factor_inside(finding.factor, speaker.translate), quantity_of(finding.factor)
    enemies = [mate_name(str(note.values["tankmate"]), speaker) for note in finding.reasons if note.code in ENEMIES]
    if enemies:
        return ", ".join(dict.fromkeys(enemies))
    if _in_the_table(finding.factor, profile) or finding.estimate is None or quantity is None:
        return name
    reading = speaker.reading(quantity, finding.estimate.mid)
    return speaker.say(later("%(name)s (%(reading)s)"), name=name, reading=reading)
