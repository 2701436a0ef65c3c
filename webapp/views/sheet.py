"""The take-home sheet: to print, to keep as a file, to share as a message; and sheets issued under a number."""

from typing import Any

from flask import Blueprint, redirect, render_template, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from webapp.errors import NotFound
from webapp.services import sheets
from webapp.services.profiles import newest_profiles
from webapp.views.assets import YEAR_S
from webapp.views.identity import author, staff_only
from webapp.views.keeping import picture_address, picture_data, roll_css, sheet_css, sheet_text
from webapp.views.saving import memory, now, reading, revision, saving
from webapp.views.sheet_heights import RUN_IN
from webapp.views.sheet_layout import PAPERS, ROLL_LENGTHS_MM
from webapp.views.sheet_made import Made, make, symbol_of
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
    looks = _looks(made) | {"picture": picture_data(made.card)}
    page = render_template("sheet/keep.html", made=made, css=sheet_css(made.roll_mm), **looks)
    name = f"{made.card.code}.html"
    held = {"Content-Disposition": f"attachment; filename={name}", "Cache-Control": "no-store"}
    return Response(page, mimetype="text/html", headers=held)


@bp.get("/sheet/roll-<int:mm>.css")
def roll(mm: int) -> Response:
    """The length of the page of a sheet on a roll: style sheets are files here, and each sheet has its own length."""
    if mm not in ROLL_LENGTHS_MM:
        raise NotFound(later("No roll is as long as that."))
    kept = {"Cache-Control": f"public, max-age={YEAR_S}, immutable"}
    return Response(roll_css(mm), mimetype="text/css", headers=kept)


@bp.post("/<string(length=7):code>/sheet")
@staff_only
def issue(code: str) -> Response:
    """Keep this sheet under a number, as it is now."""
    made = make(code)
    card = made.card
    with saving() as session:
        numbers = sheets.issue(session, author(), [(card.id, card.profile.key, card.profile.revision)], now())
        body = render_template("sheet/body.html", made=made, **(_looks(made) | {"number": numbers[0]}))
        sheets.keep_text(session, numbers, body, made.roll_mm)
    return redirect(url_for("sheet.issued", number=numbers[0]))


@bp.get("/sheet/<int(max=999999999):number>")
@staff_only
def issued(number: int) -> str:
    """A sheet that was issued: the same text, though the profile has changed since."""
    found = sheets.get_issued(reading(), number)
    kinds = newest_profiles(reading(), memory(), revision())
    changed = [key for key, revision_then in found.profiles if key in kinds and kinds[key].revision > revision_then]
    return render_template("sheet/issued.html", issued=found, body=Markup(found.html), changed=changed, kinds=kinds)


def _looks(made: Made) -> dict[str, Any]:
    """What the body of a sheet shows beside its words."""
    return {"number": None, "picture": picture_address(made.card), "symbol": symbol_of(made.card), "run_in": RUN_IN}
