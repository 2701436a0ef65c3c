"""The till: tags put on it one after another, prices, one deed for all of them.

The list waits in the signed cookie; a phone keeps it too (`static/js/till/`), and goes on with it without signal. The
form of a sale names every animal in it, so that it is the same sale whenever it arrives.
"""

from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, session, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput, ShopError
from webapp.services import selling
from webapp.services.panel import specimen_by_code
from webapp.services.profiles import newest_profiles
from webapp.services.selling_stops import stops_for
from webapp.services.shop import revision
from webapp.services.updating import get_row
from webapp.views.identity import author, staff_only
from webapp.views.saving import afterwards, memory, now, reading, saving
from webapp.views.specimen_forms import DeedForm
from webapp.words.sales import stop_sentence

bp = Blueprint("till", __name__)
MOST = 60
"""More than this would not fit into a cookie."""


@bp.get("/till")
@staff_only
def show() -> str:
    """What is on the till."""
    return _page(DeedForm(None), {}, {})


@bp.post("/till/add")
@staff_only
def add() -> Response | tuple[str, int]:
    """Put one or several tags on the till: codes with spaces between them, or what a phone put there without signal
    ('put', 'gone': ids)."""
    put, gone = request.form.getlist("put"), request.form.getlist("gone")
    codes = request.form.get("code", "").split() or ([] if put or gone else [""])
    session["till"] = [one for one in session.get("till", []) if one not in gone]
    try:
        return put_on([*(get_row(reading(), one).id for one in put),
                       *(specimen_by_code(reading(), code) for code in codes)])  # fmt: skip
    except BadInput as error:
        return _page(DeedForm(None), {"code": str(error)}, {}), 422


def put_on(ids: list[str]) -> Response:
    """Put animals on the till, and go there. Raises BadInput when they are too many."""
    chosen = list(dict.fromkeys([*session.get("till", []), *ids]))
    if len(chosen) > MOST:
        raise BadInput(f"At most {MOST} at once. Sell these first.", "code")
    session["till"] = chosen
    return redirect(url_for("till.show"))


@bp.post("/till/drop")
@staff_only
def drop() -> Response:
    """Take one off the till, or all of them."""
    gone = request.form.get("specimen_id", "")
    session["till"] = [one for one in session.get("till", []) if gone and one != gone]
    return redirect(url_for("till.show"))


@bp.post("/till/sell")
@staff_only
def sell() -> Response | tuple[str, int]:
    """Sell all that is on the till."""
    form, errors = DeedForm(), {}
    if form.validate_on_submit():
        try:
            till = _agreed(list(dict.fromkeys(request.form.getlist("specimen_id")))[:MOST])
            stops, profiles = _stops(till), _profiles()
            with saving() as keeping:
                number = selling.sell(keeping, author(), form.deed.data, till, profiles, now(), stops)
        except ShopError as error:
            errors[getattr(error, "field", None) or "main"] = str(error)
        else:
            sold = {line.specimen_id for line in till.lines}
            session["till"] = [one for one in session.get("till", []) if one not in sold]
            flash(f"Sold as number {number}.", f"undo:{form.deed.data}")
            return redirect(url_for("sales.show", number=number))
    return _page(form, errors or {"main": "Reload the page and try again."}, request.form.to_dict()), 422


def _agreed(ids: list[str]) -> selling.Till:
    return selling.Till([_line(one) for one in ids], bool(request.form.get("talk")), has_left=afterwards())


def _line(specimen_id: str) -> selling.Line:
    def text(name: str) -> str:
        return request.form.get(f"{name}-{specimen_id}", "").strip()

    typed = text("price").replace(" ", "").replace(",", ".")
    try:
        cents = round(float(typed) * 100) if typed else None
    except (ValueError, OverflowError):
        cents = -1
    if cents is not None and not 0 <= cents <= 10_000_000:
        raise BadInput(f"'{typed[:20]}' is not a price. Type digits, as 12.50.", f"price-{specimen_id}")
    if len(text("reason")) > 200 or len(text("word")) > 40:
        raise BadInput("Keep the reason under 200 letters and the word under 40.", f"reason-{specimen_id}")
    sheet = int(text("sheet")) if text("sheet").isdecimal() else None
    asked = int(text("asked")) if text("asked").isdecimal() and afterwards() else None
    return selling.Line(specimen_id, cents, text("reason"), text("word"), sheet, asked)


def _stops(till: selling.Till) -> dict[str, list[str]]:
    rows = {line.specimen_id: get_row(reading(), line.specimen_id) for line in till.lines}
    found = stops_for(reading(), memory(), list(rows.values()))
    return {one: [stop_sentence(rows[one].name, *stop) for stop in stops] for one, stops in found.items()}


def _page(form: DeedForm, errors: dict[str, str], typed: dict[str, Any]) -> str:
    rows = [get_row(reading(), one) for one in session.get("till", [])]
    stops = stops_for(reading(), memory(), rows)
    lines = [
        selling.till_line(
            reading(), row, _profiles(), [stop_sentence(row.name, *one) for one in stops.get(row.id, ())], now()
        )
        for row in rows
    ]
    return render_template(
        "till/show.html", lines=lines, form=form, errors=errors, typed=typed,
        total=sum(line.price_cents or 0 for line in lines), toxic=[one for one in lines if one.profile.toxic],
    )  # fmt: skip


def _profiles() -> Any:
    return newest_profiles(reading(), memory(), revision(reading()))
