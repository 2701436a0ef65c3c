"""Shipments: from the order to the quarantine tank."""

from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput, ShopError
from webapp.services import places, receiving, receiving_changes
from webapp.services.profiles import newest_profiles
from webapp.services.receiving import Line, Shipment
from webapp.services.shop import revision
from webapp.services.thresholds import load_thresholds
from webapp.views import receiving_forms as forms
from webapp.views.fields import asked, put_error
from webapp.views.identity import author, staff_only
from webapp.views.saving import memory, now, reading, saving
from webapp.views.specimen_forms import DeedForm, kind_choices, place_choices
from webapp.views.uploads import takes_photo

bp = Blueprint("receiving", __name__)


@bp.get("/shipments")
@staff_only
def index() -> str:
    """What is on its way, and what was unpacked."""
    found = {done: receiving.shipments(reading(), *_rules(), is_done=done) for done in (False, True)}
    return render_template("receiving/index.html", open=found[False], done=found[True], now=now())


@bp.route("/shipments/new", methods=["GET", "POST"])
@staff_only
def new() -> Response | tuple[str, int]:
    """An order, before the box arrives."""
    form = forms.ShipmentForm()
    if form.validate_on_submit():
        with saving() as session:
            made = receiving.set_shipment(session, author(), form.deed.data, form.payload)
        flash("The shipment is noted.", f"undo:{form.deed.data}")
        return redirect(url_for("receiving.show", shipment_id=made))
    limit = load_thresholds(reading())["doa_window_h"]
    return render_template("receiving/new.html", form=form, claim_h=limit), 422 if form.is_submitted() else 200


@bp.get("/shipments/<string(length=32):shipment_id>")
@staff_only
def show(shipment_id: str) -> str:
    """One shipment: its lines, the box, the claim."""
    return _page(shipment_id)


@bp.post("/shipments/<string(length=32):shipment_id>/<any(open, line, claim, done, edit):name>")
@staff_only
def do(shipment_id: str, name: str) -> Response | tuple[str, int]:
    """The box was opened, a line more, a claim, everything is unpacked, or the order was noted wrongly."""
    form = {"open": forms.OpenForm, "line": forms.LineForm, "edit": forms.ShipmentForm}.get(name, DeedForm)(prefix=name)
    if isinstance(form, forms.LineForm):
        form.profile_key.choices = asked(kind_choices(reading(), memory()))
    if form.validate_on_submit():
        try:
            sentence = _act(name, shipment_id, form)
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            flash(sentence, f"undo:{form.deed.data}")
            return redirect(url_for("receiving.show", shipment_id=shipment_id))
    return _page(shipment_id, name, form), 422


@bp.get("/shipments/<string(length=32):shipment_id>/lines/<string(length=32):line_id>")
@staff_only
def line(shipment_id: str, line_id: str) -> str:
    """One line on the bench: its bag, the plan, what was in it."""
    return _line_page(*_found(shipment_id, line_id))


@bp.post(
    "/shipments/<string(length=32):shipment_id>/lines/<string(length=32):line_id>"
    "/<any(bag, contents, drop, edit):name>"
)
@takes_photo
@staff_only
def do_line(shipment_id: str, line_id: str, name: str) -> Response | tuple[str, int]:
    """The bag was measured or emptied, the line is not coming, or was noted wrongly."""
    shipment, one = _found(shipment_id, line_id)
    form = _line_forms()[name]
    if form.validate_on_submit():
        try:
            return _line_act(name, shipment, one, form)
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
    return _line_page(*_found(shipment_id, line_id), name, form), 422


def _act(name: str, shipment_id: str, form: Any) -> str:
    deed = form.deed.data
    with saving() as session:
        if name == "open":
            unsaid = receiving.get_shipment(session, *_rules(), shipment_id).opened_at or now()
            given = {"opened_at": unsaid.isoformat()} | form.payload
            receiving.set_shipment(session, author(), deed, given, shipment_id)
            return "Noted: the box is open."
        if name == "line":
            receiving.add_line(session, author(), deed, shipment_id, form.payload)
            return "The line is added."
        if name == "edit":
            shipment = receiving.get_shipment(session, *_rules(), shipment_id)
            receiving_changes.correct_shipment(session, author(), deed, shipment, form.payload)
            return "The order is put right."
        if name == "claim":
            shipment = receiving.get_shipment(session, *_rules(), shipment_id)
            dead = {"count": shipment.dead - shipment.claimed}
            receiving.tell(session, author(), deed, shipment_id, "dead_claimed", dead)
            return "The claim is noted."
        receiving.tell(session, author(), deed, shipment_id, "shipment_done", {})
        left = [one for one in receiving.get_shipment(session, *_rules(), shipment_id).lines if one.alive is None]
        told = ", ".join(f"{one.count} × {one.name}" for one in left)
        return f"Noted as unpacked. Nobody counted yet: {told}." if left else "Everything is unpacked."


def _line_act(name: str, shipment: Shipment, one: Line, form: Any) -> Response:
    back = url_for("receiving.line", shipment_id=shipment.id, line_id=one.id)
    ids: list[str] = []
    with saving() as session:
        if name == "contents":
            tank, _, rack = form.rack.data.partition(":")
            place, counts = {"tank_id": tank, "rack_id": rack or None}, (form.alive.data, form.dead.data)
            picture = form.picture.data.read() if form.picture.data else b""
            ids = receiving.take_line(session, author(), form.deed.data, shipment, one, counts, place, now(), picture)
        elif name == "edit":
            receiving_changes.correct_line(session, author(), form.deed.data, shipment, one, form.payload)
        else:
            kind, given = ("bag_measured", form.payload) if name == "bag" else ("line_dropped", {})
            receiving.tell(session, author(), form.deed.data, shipment.id, kind, {"line": one.id} | given)
    sentence = {
        "bag": "The bag is noted.", "drop": "The line is taken off.", "contents": f"{len(ids)} in quarantine.",
        "edit": "The line is put right.",
    }  # fmt: skip
    flash(sentence[name], f"undo:{form.deed.data}")
    if ids:
        return redirect(url_for("tags.choose", id=ids))
    return redirect(back if name in ("bag", "edit") else url_for("receiving.show", shipment_id=shipment.id))


def _page(shipment_id: str, failed: str = "", form: Any = None) -> str:
    shipment = receiving.get_shipment(reading(), *_rules(), shipment_id)
    made = {"open": forms.OpenForm(None, prefix="open"), "line": forms.LineForm(None, prefix="line"),
            "edit": forms.ShipmentForm(None, prefix="edit")}  # fmt: skip
    forms.fill_shipment(made["edit"], shipment)
    forms.fill_box(made["open"], shipment)
    made["line"].profile_key.choices = asked(kind_choices(reading(), memory()))
    if failed in made:
        made[failed] = form
    waiting = [one for one in shipment.lines if one.alive is None]
    return render_template(
        "receiving/show.html", shipment=shipment, forms=made, failed=failed, now=now(), waiting=waiting,
        cells=sum(one.count for one in waiting), free=places.free_in(reading(), "quarantine"),
    )  # fmt: skip


def _line_page(shipment: Shipment, one: Line, failed: str = "", form: Any = None) -> str:
    made = _line_forms(None)
    forms.fill_line(made["edit"], one)
    if failed:
        made[failed] = form
    elif one.bag:
        made["contents"].rack.data = one.bag["tank_id"]
    return render_template(
        "receiving/line.html", shipment=shipment, line=one, forms=made, failed=failed,
        has_tanks=bool(places.tanks(reading())), usual_l=receiving.USUAL_BAG_L, limits=_rules()[1],
    )  # fmt: skip


def _line_forms(*data: Any) -> dict[str, Any]:
    bag, contents = forms.BagForm(*data, prefix="bag"), forms.ContentsForm(*data, prefix="contents")
    tanks = sorted(places.tanks(reading()), key=lambda tank: (tank.purpose != "quarantine", tank.name))
    bag.tank.choices = asked([(tank.id, tank.name) for tank in tanks])
    quiet = [tank.id for tank in tanks if tank.purpose == "quarantine"]
    bag.tank.data = bag.tank.data or (quiet[0] if len(quiet) == 1 else "")
    contents.rack.choices = asked(place_choices(reading()))
    del contents.slot
    edit = forms.LineForm(*data, prefix="edit")
    edit.profile_key.choices = asked(kind_choices(reading(), memory()))
    return {"bag": bag, "contents": contents, "drop": DeedForm(*data, prefix="drop"), "edit": edit}


def _found(shipment_id: str, line_id: str) -> tuple[Shipment, Line]:
    shipment = receiving.get_shipment(reading(), *_rules(), shipment_id)
    found = next((one for one in shipment.lines if one.id == line_id), None)
    return (shipment, found) if found else abort(404)


def _rules() -> tuple[Any, dict[str, float]]:
    session = reading()
    return newest_profiles(session, memory(), revision(session)), load_thresholds(session)
