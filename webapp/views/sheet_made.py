"""What a care sheet is made of: the animal, the buyer's tank where one was given, the paper, the hour it begins."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from flask import request
from markupsafe import Markup

from webapp.errors import NotFound
from webapp.fit.acclimate import acclimate
from webapp.fit.beside import paperwork_of, safety_of
from webapp.fit.findings import Report, Spot
from webapp.services import cards, sheets
from webapp.services.fitting import check_specimen
from webapp.tags.codes import normalise
from webapp.tags.symbol import make_symbol, symbol_svg
from webapp.views.drawn import TankView, tank_view
from webapp.views.fit import asked_from, speaker
from webapp.views.fit_drawn import side_view
from webapp.views.identity import shop
from webapp.views.language import translate
from webapp.views.rendering import day
from webapp.views.saving import memory, now, reading
from webapp.views.sheet_layout import PAPERS, Head, Paper, Side, roll_mm, sides
from webapp.words import terms
from webapp.words.language import later, say
from webapp.words.report import ToldReport, knowing_the_water, tell
from webapp.words.speaker import Speaker
from webapp.words.take_home import Section, Told, sections
from webapp.words.take_home_short import short_sentence
from webapp.words.take_home_verdict import verdict_sentences, verdict_word

#: Where the size of paper is not said: what most printers hold.
USUAL_PAPER = "a4"


@dataclass(frozen=True, slots=True)
class Made:
    """A sheet ready to be shown; `told` is None where no tank was given."""

    card: cards.Card
    told: ToldReport | None
    source: Told
    sections: tuple[Section, ...]
    head: Head
    sides: list[Side]
    paper: Paper
    view: TankView
    start: datetime

    @property
    def roll_mm(self) -> int:
        """The length of its page on a roll, 0 on sheets of paper."""
        return roll_mm(self.paper, self.sides)


def make(code: str) -> Made:
    """The sheet that this address asks for."""
    card = find(code)
    asked = asked_from(request.args)
    given = not (asked.is_blank or asked.errors)
    report = check_specimen(reading(), memory(), card.specimen, asked.tank) if given else None
    says = speaker_for(speaker(asked), report)
    source, paper = told_of(card, report, says), asked_paper()
    parts, head = sections(source, says), head_of(card, source, says)
    drawing = report and side_view(asked.tank, report)

    def in_brief() -> tuple[Sequence[Section], Head]:
        return sections(source, says, brief=True), head_of(card, source, says, brief=True)

    laid = sides(parts, paper, head, in_brief)
    view = drawing or tank_view(None, None, Spot(card.profile.placement, None, None, None, None))
    return Made(card, source.told, source, parts, head, laid, paper, view, source.start)


def find(code: str) -> cards.Card:
    """The animal behind a code. Raises NotFound."""
    found = cards.find(reading(), normalise(code))
    card = cards.card(reading(), memory(), found, now()) if found.kind == "specimen" else None
    if card is None:
        raise NotFound(later("No animal here carries this code. Look at the tag again."))
    return card


def asked_paper() -> Paper:
    """The paper that this address names."""
    return PAPERS.get(request.args.get("paper", ""), PAPERS[USUAL_PAPER])


def speaker_for(says: Speaker, report: Report | None) -> Speaker:
    """Knowing the water, for units that hang on it."""
    return knowing_the_water(says, report, _readings(report)) if report else says


def _readings(report: Report) -> dict[str, float]:
    return {one.factor: one.estimate.mid for one in report.findings if one.estimate}


def head_of(card: cards.Card, source: Told, says: Speaker, *, brief: bool = False) -> Head:
    """What stands over the sections."""
    facts = []
    if card.size_mm:
        facts.append(says.say(later("%(size)s mm"), size=says.number(card.size_mm)))
    if card.heads:
        facts.append(says.count(later("%(n)s head"), later("%(n)s heads"), card.heads, n=card.heads))
    if card.origin == "own":
        facts.append(says.say(later("cut %(day)s"), day=day(card.started_at)))
    over = " · ".join(filter(None, [shop().name, day(source.start)]))
    kind = f"{translate(card.profile.trade_name)}, {terms.latin_name(card.profile.scientific, translate)}"
    verdict = verdict_word(source.report, says) if source.report else ""
    why = verdict_sentences(source.report, card.profile, says, brief=brief) if source.report else ()
    reasons = " ".join(why)
    return Head(over, card.name, kind, card.code, tuple(facts), verdict, reasons)


def told_of(card: cards.Card, report: Report | None, says: Speaker) -> Told:
    """What the words need of one animal."""
    read = _readings(report) if report else {}
    notes = (report.acclimation if report else ()) or acclimate(
        card.specimen, read.get("temp"), read.get("salinity"), None
    )  # an animal that should not go there is told how to be put in all the same: it may go
    safety = report.safety if report else safety_of(card.profile, doses=False, work=False)
    return Told(
        card.profile, report, tell(report, says) if report else None, notes, safety, _papers(card, says),
        shop().poisons_line, shop().terms, begins_at(), card.used_to,
    )  # fmt: skip


def symbol_of(card: cards.Card) -> Markup:
    """Its QR symbol."""
    label = translate(later("Its symbol; it works on the Wi-Fi of the shop"))
    return Markup(symbol_svg(make_symbol(shop().address.url(card.code)), label=label))


def begins_at() -> datetime:
    """When the bag goes into the water: `?from=14:30` today on the shop's clock, else now."""
    local = shop().local(now()).replace(second=0, microsecond=0)
    try:
        typed = datetime.strptime(request.args.get("from", "")[:5], "%H:%M")
    except ValueError:
        return local
    return local.replace(hour=typed.hour, minute=typed.minute)


def _papers(card: cards.Card, says: Speaker) -> list[str]:
    """Where it comes from; for a listed kind the permit too, and what the listing means."""
    origin = translate(terms.ORIGIN.get(card.origin, card.origin))
    lines = [say(translate, later("Origin: %(origin)s."), origin=origin)]
    listed = paperwork_of(card.profile)
    if listed:
        permit = sheets.papers_of(reading(), card.id) or "____________"
        lines.append(say(translate, later("Permit or proof of origin: %(permit)s."), permit=permit))
    return [*lines, *(short_sentence(note, says) for note in listed)]
