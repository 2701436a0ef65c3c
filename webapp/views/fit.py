"""'Will it suit my tank?': the form, the answer, and the other way round: what here suits my tank."""

from collections import Counter
from collections.abc import Iterable
from typing import Any

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.datastructures import MultiDict
from werkzeug.wrappers import Response

from webapp.errors import NotFound
from webapp.fit.findings import Verdict
from webapp.fit.methods import METHODS
from webapp.schemas.tankmates import load_tankmates
from webapp.science.units import QUANTITIES, from_canonical, to_canonical
from webapp.services import cards
from webapp.services.fitting import check_specimen
from webapp.services.own_evidence import evidence
from webapp.services.profiles import newest_profiles
from webapp.services.suiting import Case, rank
from webapp.tags.codes import normalise
from webapp.views import fit_drawn, handling
from webapp.views.fit_query import MOST_NEIGHBOURS, MOST_PUMPS, READINGS, Asked
from webapp.views.fit_short import BESIDE, holds_all, six_for, still_blank
from webapp.views.language import translate, translate_count
from webapp.views.saving import memory, now, reading, revision
from webapp.words import choices
from webapp.words.handling import ROCK
from webapp.words.language import DECIMAL, later
from webapp.words.report import ToldQuestion, tell, tell_whole
from webapp.words.speaker import Speaker

bp = Blueprint("fit", __name__)
#: Where a box has no unit of its own.
SHARED_UNITS = {
    "summer": ("temp", "temp_unit"), "width": ("length", "length_unit"), "height": ("length", "length_unit"),
}  # fmt: skip
#: Beyond these the address is not one that our form makes.
LONGEST_QUERY = 4000


@bp.get("/<string(length=7):code>/fit")
def form(code: str) -> str:
    """The form, filled with what the address already says."""
    return _form(asked_from(request.args), _card(code))


@bp.get("/<string(length=7):code>/answer")
def answer(code: str) -> str | tuple[str, int] | Response:
    """The verdict, factor by factor. With nothing said there is nothing to judge: back to the form."""
    card, asked = _card(code), asked_from(request.args)
    if asked.errors:
        return _form(asked, card), 422
    if handling.stands_before(card.profile):
        return redirect(url_for("handling.show", code=card.code, **request.args.to_dict(flat=False)))
    if asked.is_blank:
        return redirect(url_for("fit.form", code=card.code, empty=1, rock=asked.text("rock") or None))
    report = check_specimen(reading(), memory(), card.specimen, asked.tank)
    told = tell(report, speaker(asked))
    return render_template(
        "fit/answer.html", card=card, report=report, told=told, lines=fit_drawn.lines(report),
        view=fit_drawn.side_view(asked.tank, report), query=request.query_string.decode(),
        answered=_with_answers, repaired=_with_unit,
        evidence=evidence(reading(), memory(), revision(), card.profile.key, now()),
        **_left_open(report.settle_next, asked),
    )  # fmt: skip


@bp.get("/suits")
def suiting() -> str:
    """The form for the other way round."""
    return _form(asked_from(request.args), None)


@bp.get("/suits/answer")
def suiting_answer() -> str | tuple[str, int] | Response:
    """Everything for sale by verdict; why not for the rest."""
    asked = asked_from(request.args)
    if asked.errors:
        return _form(asked, None), 422
    if asked.is_blank:
        return redirect(url_for("fit.suiting", empty=1))
    by_verdict = rank(reading(), memory(), asked.tank, now())
    says = speaker(asked)
    return render_template(
        "fit/suiting.html", by_verdict=by_verdict, query=request.query_string.decode(),
        questions=_questions(by_verdict, says), answered=_with_answers, repaired=_with_unit,
        why=lambda report: tell_whole(report, says), **_left_open(_wanted_most(by_verdict), asked),
    )  # fmt: skip


def _wanted_most(by_verdict: dict[Verdict, list[Case]]) -> list[str]:
    """Factors that are open, that of most kinds first."""
    cases = [case for cases in by_verdict.values() for case in cases]
    kinds = Counter(factor for case in cases for factor in case.report.settle_next)
    return [factor for factor, _count in kinds.most_common()]


def _left_open(factors: Iterable[str], asked: Asked) -> dict[str, Any]:
    """What may be said beside the answer, and how."""
    blank = still_blank(factors, request.args)
    boxes = {box for one in blank for box in BESIDE[one]}
    return {"blank": blank, "blank_boxes": boxes, "asked": asked, "choices": choices, "rock": ()}


def _questions(by_verdict: dict[Verdict, list[Case]], says: Speaker) -> list[ToldQuestion]:
    """What is asked of the tank is the same for every kind."""
    reports = [case.report for cases in by_verdict.values() for case in cases]
    return tell(reports[0], says).questions if reports else []


def speaker(asked: Asked) -> Speaker:
    """How the answer is worded: names of kinds and tankmates, the units that the buyer typed."""
    kinds = newest_profiles(reading(), memory(), revision())
    return Speaker(
        kinds={key: kind.trade_name for key, kind in kinds.items()},
        tankmates={key: mate.plain_name for key, mate in load_tankmates().items()},
        typed={name: readings[0].unit for name, readings in asked.tank.readings.items()},
        translate=translate,
        ngettext=translate_count,
        decimal=translate(DECIMAL),
    )


def _card(code: str) -> cards.Card:
    found = cards.find(reading(), normalise(code))
    card = cards.card(reading(), memory(), found, now()) if found.kind == "specimen" else None
    if card is None:
        raise NotFound(
            later("No animal here carries this code. Look at the tag again, or type the code on the start page.")
        )
    return card


def asked_from(args: MultiDict[str, str]) -> Asked:
    """The tank that an address describes. Raises NotFound when the address is longer than our form makes."""
    if len(request.query_string) > LONGEST_QUERY:
        raise NotFound(later("This address is longer than our form makes. Open the form again from the card."))
    kinds = newest_profiles(reading(), memory(), revision())
    return Asked(args, kinds, load_tankmates())


def _form(asked: Asked, card: cards.Card | None) -> str:
    kinds = newest_profiles(reading(), memory(), revision())
    six = six_for(card.profile if card else None)
    short = holds_all(six, request.args)
    return render_template(
        "fit/short.html" if short else "fit/form.html", six=six, asked=asked, card=card, readings=READINGS,
        methods=METHODS, tankmates=load_tankmates(),
        kinds=sorted(((kind.key, kind.trade_name) for kind in kinds.values()), key=lambda pair: pair[1].casefold()),
        choices=choices, rock=ROCK if card and card.profile.toxic else (),
        most_neighbours=MOST_NEIGHBOURS, most_pumps=MOST_PUMPS,
        target=url_for("fit.answer", code=card.code) if card else url_for("fit.suiting_answer"),
    )  # fmt: skip


def _with_answers(meant: str) -> str:
    """This page's address with a value confirmed as meant."""
    return _address({"meant": [*request.args.getlist("meant"), meant]})


def _with_unit(box: str, unit: str, value: float) -> str:
    """This page's address with a value in the unit that was meant; in the shared one where boxes share theirs."""
    if unit == "lux":
        return _address({"light_way": ["lux"], "lux": [f"{value:g}"], "par": []})
    if unit.startswith("sides_"):
        return _address({"length_unit": [unit.removeprefix("sides_")]})
    if box in SHARED_UNITS:
        quantity, shared = SHARED_UNITS[box]
        in_shared = request.args.get(shared) or QUANTITIES[quantity].canonical_unit
        meant = from_canonical(quantity, to_canonical(quantity, value, unit), in_shared)
        return _address({box: [f"{meant:.4g}"]})
    return _address({box: [f"{value:g}"], f"{box}_unit": [unit]})


def _address(changes: dict[str, list[str]]) -> str:
    args: dict[str, Any] = request.args.to_dict(flat=False) | changes
    assert request.endpoint is not None
    return url_for(request.endpoint, **(request.view_args or {}), **args)
