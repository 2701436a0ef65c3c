"""The take-home sheet: to print, to keep as a file, to share as a message; and sheets issued under a number."""

from typing import Any

from flask import Blueprint, redirect, render_template, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from webapp.services import sheets
from webapp.services.profiles import newest_profiles
from webapp.tags.symbol import make_symbol, symbol_svg
from webapp.views.identity import author, shop, staff_only
from webapp.views.keeping import picture_data, sheet_css, sheet_text
from webapp.views.language import translate
from webapp.views.saving import memory, now, reading, revision, saving
from webapp.views.sheet_heights import RUN_IN
from webapp.views.sheet_layout import PAPERS
from webapp.views.sheet_made import Made, make
from webapp.words.language import LANGUAGES, later

bp = Blueprint("sheet", __name__)


@bp.get("/<string(length=7):code>/sheet")
def show(code: str) -> str:
    """The sheet, to be printed from the browser."""
    made = make(code)
    return render_template(
        "sheet/show.html", made=made, papers=PAPERS, languages=LANGUAGES, text=sheet_text(made),
        kept=[pair for pair in request.args.items(multi=True) if pair[0] not in ("paper", "from", "lang")],
        query=request.query_string.decode(), **_looks(made),
    )  # fmt: skip


@bp.get("/<string(length=7):code>/sheet.txt")
def text(code: str) -> Response:
    """The words alone, for a message."""
    return Response(sheet_text(make(code)), mimetype="text/plain", headers={"Cache-Control": "no-store"})


@bp.get("/<string(length=7):code>/keep")
def keep(code: str) -> Response:
    """One page with everything inside it, to be kept where the shop's server is out of reach."""
    made = make(code)
    looks = _looks(made) | {"picture": picture_data(made)}
    page = render_template("sheet/keep.html", made=made, css=sheet_css(), **looks)
    name = f"{made.card.code}.html"
    held = {"Content-Disposition": f"attachment; filename={name}", "Cache-Control": "no-store"}
    return Response(page, mimetype="text/html", headers=held)


@bp.post("/<string(length=7):code>/sheet")
@staff_only
def issue(code: str) -> Response:
    """Keep this sheet under a number, as it is now."""
    made = make(code)
    profile = (made.card.profile.key, made.card.profile.revision)
    with saving() as session:
        number = sheets.issue(session, author(), made.card.id, profile, now())
        body = render_template("sheet/body.html", made=made, **(_looks(made) | {"number": number}))
        sheets.keep_text(session, number, body)
    return redirect(url_for("sheet.issued", number=number))


@bp.get("/sheet/<int:number>")
@staff_only
def issued(number: int) -> str:
    """A sheet that was issued: the same text, though the profile has changed since."""
    found = sheets.get_issued(reading(), number)
    kinds = newest_profiles(reading(), memory(), revision())
    newest = kinds[found.profile_key].revision if found.profile_key in kinds else found.profile_revision
    return render_template("sheet/issued.html", issued=found, body=Markup(found.html), newest=newest)


def _looks(made: Made) -> dict[str, Any]:
    """What the body of a sheet shows beside its words."""
    card = made.card
    address = "card.thumb" if card.photo_id else "card.drawing"
    key = {"photo_id": card.photo_id} if card.photo_id else {"key": card.profile.key}
    label = translate(later("Its symbol; it works on the Wi-Fi of the shop"))
    symbol = symbol_svg(make_symbol(shop().address.url(card.code)), label=label)
    return {"number": None, "picture": url_for(address, **key), "symbol": Markup(symbol), "run_in": RUN_IN}
