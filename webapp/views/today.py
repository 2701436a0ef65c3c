"""Today: what needs a hand and why, each with one tap to do it. The page people land on after signing in."""

from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import ShopError
from webapp.services.tending import tend
from webapp.services.today import page
from webapp.services.today.day import Due, begin
from webapp.services.updating import get_row, update
from webapp.views.identity import author, staff_only
from webapp.views.look_forms import WELL
from webapp.views.saving import memory, now, reading, saving
from webapp.views.specimen_forms import DeedForm
from webapp.words import today as words

bp = Blueprint("today", __name__)
SHOWN = 3
"""So many of a rule are seen at once; a tap shows all."""
#: rule -> what its button does to a specimen: kind of event, payload, the words on the button, what is said after.
TAPS: dict[str, tuple[str, dict[str, Any], str, str]] = {
    "off_sale": ("status_set", {"status": "kept"}, "Take it off sale", "Off sale."),
    "loose_check": ("checked", {"holds": True}, "It holds", "Noted: it holds."),
    "inspect": ("checked", WELL, "All is well", "Noted: all is well."),
    "ready": ("status_set", {"status": "for_sale"}, "Put it on sale", "On sale."),
    "release": ("status_set", {"status": "healing"}, "Release it", "Released: with those that heal."),
    "feed": ("fed", {"food": "meaty"}, "Fed small meaty bits", "Feeding noted."),
    "price_review": ("priced", {"reason": "looked at, it stays"}, "It stays", "Noted: the price stays."),
}  # fmt: skip
#: rule -> the part of the specimen's page where it is done.
PARTS = {"dip": "dip", "measure": "measure", "price_review": "price", "loose_check": "look", "inspect": "look"}


@bp.get("/today")
@staff_only
def show() -> str:
    """Every rule that found something."""
    found = page.today(begin(reading(), memory(), now()))
    return render_template("today/show.html", found=found, shown=SHOWN, can_wait=page.CAN_WAIT, **_words())


@bp.get("/today/<rule>")
@staff_only
def one(rule: str) -> str:
    """All that one rule found."""
    found = page.one_rule(begin(reading(), memory(), now()), rule)
    return render_template("today/one.html", found=found, **_words())


@bp.post("/today/<rule>")
@staff_only
def tap(rule: str) -> Response:
    """Do what the button of a rule says, to one of its specimens or tanks; then the next of the same list."""
    if rule not in TAPS:
        abort(404)
    form, target = DeedForm(), request.form.get("target", "")
    kind, payload, _button, sentence = TAPS[rule]
    if not form.validate_on_submit():
        flash("Reload the page and try again.", "error")
        return redirect(url_for("today.show"))
    try:
        with saving() as session:
            if kind == "fed":
                tend(session, author(), form.deed.data, kind, target, payload)
            else:
                if kind == "priced":
                    payload = payload | {"price_cents": get_row(session, target).price_cents}
                update(session, author(), form.deed.data, kind, [target], payload)
    except ShopError as error:
        flash(str(error), "error")
    else:
        flash(sentence, f"undo:{form.deed.data}")
    return redirect(url_for("today.one", rule=rule) if request.form.get("from") == "list" else url_for("today.show"))


def place(rule: str, due: Due) -> str:
    """The address where a thing on a list is done or looked at."""
    if rule in ("hold_ends", "hold_unwell"):
        return url_for("holds.index")
    if rule == "may_be_cut" or (rule == "low_stock" and not due.values["stop"]):
        return url_for("fragging.session_form", specimen_id=due.id)
    if rule == "read_water":
        return url_for("tanks.log", tank_id=due.id)
    if rule in ("count_racks", "count_gap", "count_all"):
        return url_for("stocktake.index")
    return _of_subject(due) + (f"#{PARTS[rule]}" if rule in PARTS else "")


def _of_subject(due: Due) -> str:
    if due.subject == "specimen":
        return url_for("specimens.show", specimen_id=due.id)
    if due.subject == "sale":
        return url_for("sales.show", number=int(due.id))
    if due.subject == "losses":
        return url_for("losses.show")
    known = {"tank": ("tanks.show", "tank_id"), "rack": ("racks.show", "rack_id"), "pest": ("pests.show", "pest_id"),
             "shipment": ("receiving.show", "shipment_id")}  # fmt: skip
    endpoint, key = known[due.subject]
    return url_for(endpoint, **{key: due.id})


def _words() -> dict[str, Any]:
    return {"titles": words.TITLE, "why": words.why, "taps": TAPS, "place": place}
