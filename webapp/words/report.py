"""The whole answer of a fit check in sentences, ready for a page or a sheet."""

from dataclasses import dataclass, replace

from webapp.fit.findings import Finding, Note, Report, Spot, Verdict
from webapp.fit.methods import method_for
from webapp.words.acclimation_told import tell_acclimation
from webapp.words.factor_told import ToldFactor, tell_factor
from webapp.words.factors import factor_inside, quantity_of
from webapp.words.language import later
from webapp.words.notes import note_sentence, sentence_of
from webapp.words.places import VERDICTS, places_of
from webapp.words.plans import ToldStep, planned, tell_schedule
from webapp.words.questions import name_of, offers_of, question_text
from webapp.words.sentences import filled, finished
from webapp.words.speaker import Speaker

ZONES = {
    "upper": later("Where in your tank: the upper third"),
    "middle": later("Where in your tank: the middle third"),
    "lower": later("Where in your tank: the lower third"),
    "bottom": later("Where in your tank: on the sand"),
}
DRAWN = {
    "upper": later("Side view of the tank: the place is in the upper third."),
    "middle": later("Side view of the tank: the place is in the middle third."),
    "lower": later("Side view of the tank: the place is in the lower third."),
    "bottom": later("Side view of the tank: the place is on the sand."),
}

ENEMIES = frozenset({"would_be_eaten", "would_eat"})


@dataclass(frozen=True, slots=True)
class ToldQuestion:
    """offers: (unit key, what the button says, value as typed); meant: the string for BuyerTank.answers, or ''."""

    quantity: str
    name: str
    text: str
    offers: list[tuple[str, str, float]]
    meant: str


@dataclass(frozen=True, slots=True)
class ToldSpot:
    """The place in the tank."""

    title: str
    sentences: list[str]
    drawing_alt: str


@dataclass(frozen=True, slots=True)
class ToldReport:
    """Everything a page shows of an answer. settle_next: names inside a sentence, the most worth knowing first."""

    whole: Verdict
    whole_word: str
    whole_sentences: list[str]
    factors: list[ToldFactor]
    questions: list[ToldQuestion]
    spot: ToldSpot | None
    settle_next: list[str]
    schedule: list[ToldStep]
    schedule_notes: list[str]
    acclimation: list[tuple[str, str]]
    safety: list[str]
    paperwork: list[str]
    unknowable: list[str]


def tell(report: Report, speaker: Speaker) -> ToldReport:
    """All of `report` in sentences."""
    readings = {f.factor: f.estimate.mid for f in report.findings if f.estimate}
    speaker = knowing_the_water(speaker, report, readings)
    moved = planned((f.factor for f in report.findings if f.plan), readings)
    return ToldReport(
        whole=report.whole,
        whole_word=speaker.translate(VERDICTS[report.whole]),
        whole_sentences=[_whole(note, report, speaker) for note in report.whole_reasons],
        factors=[tell_factor(finding, speaker) for finding in report.findings],
        questions=[
            ToldQuestion(
                question.quantity, name_of(question, speaker), question_text(question, speaker),
                offers_of(question, speaker), str(question.values.get("answer", "")),
            )
            for question in report.questions
        ],
        spot=_spot(report.spot, speaker) if report.spot and report.whole != "not_here" else None,
        settle_next=[factor_inside(factor, speaker.translate) for factor in report.settle_next],
        schedule=tell_schedule(report.schedule, moved, speaker),
        schedule_notes=_all(report.schedule_notes, speaker),
        acclimation=tell_acclimation(report.acclimation, speaker),
        safety=_all(report.safety, speaker),
        paperwork=_all(report.paperwork, speaker),
        unknowable=_all(report.unknowable, speaker),
    )  # fmt: skip


def tell_whole(report: Report, speaker: Speaker) -> list[str]:
    """Only why the whole is so, for lists of many kinds."""
    readings = {f.factor: f.estimate.mid for f in report.findings if f.estimate}
    speaker = knowing_the_water(speaker, report, readings)
    return [_whole(note, report, speaker) for note in report.whole_reasons]


def knowing_the_water(speaker: Speaker, report: Report, readings: dict[str, float]) -> Speaker:
    """For units that hang on the water's warmth and salinity, so that a reading is shown as it was typed."""
    hydrometer = method_for("salinity", "hydrometer_glass")[0].basis  # shared by hydrometers alone
    return replace(
        speaker,
        temp_c=readings.get("temp", speaker.temp_c),
        salinity_ppt=readings.get("salinity", speaker.salinity_ppt),
        floats_in_tank=any(hydrometer in finding.basis for finding in report.findings),
    )


def _all(notes: tuple[Note, ...], speaker: Speaker) -> list[str]:
    return [note_sentence(note, speaker) for note in notes]


def _whole(note: Note, report: Report, speaker: Speaker) -> str:
    """Why the whole is so; a factor that was measured is named with its reading."""
    places = places_of(note, speaker)
    if "factors" in note.values:
        found = {finding.factor: finding for finding in report.findings}
        named = (_named(found[factor], speaker) for factor in note.values["factors"])
        places["factors"] = speaker.listed(named)
    return finished(filled(sentence_of(note), note.values, places, speaker))


def _named(finding: Finding, speaker: Speaker) -> str:
    name, quantity = factor_inside(finding.factor, speaker.translate), quantity_of(finding.factor)
    enemies = [speaker.tankmate(str(n.values["tankmate"])) for n in finding.reasons if n.code in ENEMIES]
    if enemies:
        return "; ".join(dict.fromkeys(enemies))
    if finding.estimate is None or quantity is None:
        return name
    if quantity == "ph":  # the reading names it
        return speaker.reading(quantity, finding.estimate.mid)
    return speaker.say(
        later("%(name)s (%(reading)s)"), name=name, reading=speaker.reading(quantity, finding.estimate.mid)
    )


def _spot(spot: Spot, speaker: Speaker) -> ToldSpot:
    sentences = [note_sentence(note, speaker) for note in spot.reasons]
    if spot.depth_cm is not None and (spot.light or spot.flow) and spot.zone != "bottom":
        sentences.insert(0, _depth(spot, speaker))
    return ToldSpot(speaker.translate(ZONES[spot.zone]), sentences, speaker.translate(DRAWN[spot.zone]))


def _depth(spot: Spot, speaker: Speaker) -> str:
    depth = speaker.reading("length", round(spot.depth_cm))
    low, high = (round(end) for end in spot.depth_range_cm or (spot.depth_cm, spot.depth_cm))
    if high - low < 2:
        return speaker.say(later("About %(depth)s below the surface."), depth=depth)
    between = speaker.span("length", low, high)
    return speaker.say(
        later("About %(depth)s below the surface; %(between)s is as good."), depth=depth, between=between
    )
