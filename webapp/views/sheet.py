"""The take-home sheet: for one specimen and, when given, one buyer's tank; and sheets that were issued under a number."""

from dataclasses import dataclass

from flask import Blueprint, redirect, render_template, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from webapp.errors import NotFound
from webapp.fit.acclimate import acclimate
from webapp.fit.findings import Report
from webapp.services import cards, sheets
from webapp.services.fitting import check_specimen
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.tags.codes import normalise
from webapp.tags.symbol import make_symbol, symbol_svg
from webapp.views.fit import asked_from, speaker
from webapp.views.identity import author, shop, staff_only
from webapp.views.saving import memory, now, reading, saving
from webapp.words.report import ToldReport, tell, tell_acclimation

bp = Blueprint("sheet", __name__)


@dataclass(frozen=True, slots=True)
class Made:
    """What a sheet is made of; report and told are None where no tank was given."""

    card: cards.Card
    report: Report | None
    told: ToldReport | None
    arrival: list[tuple[str, str]]


@bp.get("/<string(length=7):code>/sheet")
def show(code: str) -> str:
    """The sheet, to be printed from the browser."""
    made = _made(code)
    return render_template("sheet/show.html", made=made, number=None, query=request.query_string.decode(), qr_svg=_qr)


@bp.post("/<string(length=7):code>/sheet")
@staff_only
def issue(code: str) -> Response:
    """Keep this sheet under a number, as it is now."""
    made = _made(code)
    profile = (made.card.profile.key, made.card.profile.revision)
    with saving() as session:
        number = sheets.issue(session, author(), made.card.id, profile, now())
        body = render_template("sheet/body.html", made=made, number=number, qr_svg=_qr)
        sheets.keep_text(session, number, body)
    return redirect(url_for("sheet.issued", number=number))


@bp.get("/sheet/<int:number>")
@staff_only
def issued(number: int) -> str:
    """A sheet that was issued: the same text, though the profile has changed since."""
    found = sheets.get_issued(reading(), number)
    kinds = newest_profiles(reading(), memory(), revision(reading()))
    newest = kinds[found.profile_key].revision if found.profile_key in kinds else found.profile_revision
    return render_template("sheet/issued.html", issued=found, body=Markup(found.html), newest=newest)


def _made(code: str) -> Made:
    found = cards.find(reading(), normalise(code))
    card = cards.card(reading(), memory(), found, now()) if found.kind == "specimen" else None
    if card is None:
        raise NotFound("No animal here carries this code. Look at the tag again.")
    asked = asked_from(request.args)
    if asked.is_blank or asked.errors:
        notes = acclimate(card.specimen, None, None, None, light_hours=None)
        return Made(card, None, None, tell_acclimation(notes, speaker(asked)))
    report = check_specimen(reading(), memory(), card.specimen, asked.tank)
    told = tell(report, speaker(asked))
    return Made(card, report, told, told.acclimation)


def _qr(code: str) -> Markup:
    return Markup(symbol_svg(make_symbol(shop().address.url(code))))
