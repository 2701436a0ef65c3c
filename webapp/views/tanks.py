"""Tanks, racks and readings, for staff."""

from datetime import timedelta
from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask_wtf import FlaskForm
from werkzeug.wrappers import Response
from wtforms import HiddenField

from webapp.errors import BadInput, Refused
from webapp.fit.methods import METHODS
from webapp.science.units import QUANTITIES
from webapp.services import correcting, pests, places, readings, tank_water, tending
from webapp.services.odd_readings import Odd, odd_reading
from webapp.services.recording import new_deed
from webapp.services.shop import revision
from webapp.services.thresholds import load_thresholds
from webapp.views.drawn_chart import chart
from webapp.views.fields import ChoiceField, CountField, NumberField, TextField, asked, put_error
from webapp.views.identity import author, staff_only
from webapp.views.saving import memory, now, reading, saving
from webapp.views.tank_forms import TENDING, DeedForm, given, tending_forms, typed_readings
from webapp.words.choices import METHOD_NAMES
from webapp.words.terms import PURPOSE

bp = Blueprint("tanks", __name__)
RUN_DAYS = 120
#: So many of what lives in a tank are listed on its page; the stock list has them all.
SHOWN = 60
FEW = 5
"""So many animals and deeds of a tank are seen at once; a tap shows the others."""


class TankForm(FlaskForm):
    """A body of water."""

    deed = HiddenField(default=new_deed)
    name = TextField("Name", 60, required=True)
    purpose = ChoiceField("Used for", asked(list(PURPOSE.items())), required=True)
    volume_l = NumberField("Volume of water", 1, 1_000_000, "L")
    length_cm = NumberField("Length", 5, 2000, "cm")
    width_cm = NumberField("Width", 5, 2000, "cm")
    height_cm = NumberField("Depth of water", 5, 500, "cm")
    light_hours = NumberField("Hours of light a day", 0, 24, "h")
    note = TextField("Note", 400)


class RackForm(FlaskForm):
    """A frag rack."""

    deed = HiddenField(default=new_deed)
    name = TextField("Name", 60, required=True)
    rows = CountField("Rows (letters)", 1, 26, required=True)
    columns = CountField("Columns (numbers)", 1, 99, required=True)
    depth_cm = NumberField("Depth under the surface", 0, 500, "cm")


class ReadingForm(FlaskForm):
    """One reading put right."""

    deed = HiddenField(default=new_deed)
    value = NumberField("Reading", -1e6, 1e6, required=True)
    unit = ChoiceField("Unit", required=True)
    method = ChoiceField("How it was measured")


class EmptyForm(FlaskForm):
    """Only the token."""

    deed = HiddenField(default=new_deed)


@bp.get("/tanks")
@staff_only
def index() -> str:
    """Every tank, its latest readings, its racks."""
    session = reading()
    all_tanks = places.tanks(session)
    latest = {tank.id: readings.latest(session, tank.id) for tank in all_tanks}
    return render_template("tanks/index.html", tanks=all_tanks, racks=places.racks(session), latest=latest)


@bp.route("/tanks/new", methods=["GET", "POST"])
@staff_only
def new() -> Response | tuple[str, int]:
    """Add a tank."""
    form = TankForm()
    if form.validate_on_submit():
        try:
            with saving() as session:
                tank_id = places.add_tank(session, author(), form.deed.data, _given(form))
        except BadInput as error:
            put_error(form, error)
        else:
            flash(f"{form.name.data} is added. Next: a rack in it, or what lives there.")
            return redirect(url_for("tanks.show", tank_id=tank_id))
    return render_template("tanks/tank_form.html", form=form, tank=None), 422 if form.is_submitted() else 200


@bp.get("/tanks/<string(length=32):tank_id>")
@staff_only
def show(tank_id: str) -> str:
    """One tank: water, racks, what was done, who lives there."""
    return _page(tank_id)


@bp.post("/tanks/<string(length=32):tank_id>/tend/<name>")
@staff_only
def tend(tank_id: str, name: str) -> Response | tuple[str, int]:
    """Something done to a tank."""
    if name not in TENDING:
        abort(404)
    form_class, kind, _drawer, _button, sentence = TENDING[name]
    form = form_class(prefix=name)
    if form.validate_on_submit():
        with saving() as session:
            tending.tend(session, author(), form.deed.data, kind, tank_id, given(form))
        flash(sentence, f"undo:{form.deed.data}")
        return redirect(url_for("tanks.show", tank_id=tank_id))
    return _page(tank_id, name, form), 422


def _page(tank_id: str, failed: str = "", form: DeedForm | None = None) -> str:
    session = reading()
    tank = places.get_tank(session, tank_id)
    at, limits = revision(session), load_thresholds(session)
    runs = tank_water.runs(session, tank_id, now() - timedelta(days=RUN_DAYS))
    kinds = tank_water.kinds_in(session, memory(), at, tank_id)
    bands = tank_water.bands_in(session, memory(), at, tank_id)
    return render_template(
        "tanks/show.html", tank=tank, racks=places.racks(session, tank_id), latest=readings.latest(session, tank_id),
        charts={quantity: chart(run, bands.get(quantity)) for quantity, run in runs.items()}, quantities=QUANTITIES,
        out=tank_water.out_of_range(kinds, runs), alarms=tank_water.alarms(runs, limits), limits=limits,
        pests=pests.marked_tanks(session, memory(), at).get(tank_id, []), tended=tending.tended(session, tank_id),
        occupants=places.occupants(session, tank_id=tank_id, most=SHOWN), form=EmptyForm(), tending=TENDING,
        forms=tending_forms(failed, form), open_deed=failed, days=RUN_DAYS, few=FEW,
    )  # fmt: skip


@bp.route("/tanks/<string(length=32):tank_id>/change", methods=["GET", "POST"])
@staff_only
def change(tank_id: str) -> Response | tuple[str, int]:
    """Change a tank."""
    tank = places.get_tank(reading(), tank_id)
    form = TankForm(obj=tank)
    if form.validate_on_submit():
        try:
            with saving() as session:
                places.change_tank(session, author(), form.deed.data, tank_id, _given(form))
        except BadInput as error:
            put_error(form, error)
        else:
            flash("Changed.", f"undo:{form.deed.data}")
            return redirect(url_for("tanks.show", tank_id=tank_id))
    return render_template("tanks/tank_form.html", form=form, tank=tank), 422 if form.is_submitted() else 200


@bp.post("/tanks/<string(length=32):tank_id>/close")
@staff_only
def close(tank_id: str) -> Response:
    """Close an empty tank."""
    form = EmptyForm()
    try:
        with saving() as session:
            places.close_tank(session, author(), form.deed.data, tank_id)
    except BadInput as error:
        flash(str(error), "error")
        return redirect(url_for("tanks.show", tank_id=tank_id))
    flash("The tank is closed.", f"undo:{form.deed.data}")
    return redirect(url_for("tanks.index"))


@bp.route("/tanks/<string(length=32):tank_id>/readings", methods=["GET", "POST"])
@staff_only
def log(tank_id: str) -> str | Response | tuple[str, int]:
    """Log a set of readings: what is left blank is left out, what is odd is asked about first."""
    tank, racks = places.get_tank(reading(), tank_id), places.racks(reading(), tank_id)
    errors: dict[str, str] = {}
    odd: dict[str, Odd] = {}
    form = EmptyForm()
    if form.validate_on_submit():
        found = typed_readings(request.form, [rack.id for rack in racks], errors)
        odd = {} if errors else _not_meant(tank_id, found)
        if not errors and not odd:
            try:
                with saving() as session:
                    count = readings.log_readings(session, author(), form.deed.data, tank_id, list(found.values()))
            except (BadInput, Refused) as error:
                errors["readings"] = str(error)
            else:
                flash(f"{count} {'reading' if count == 1 else 'readings'} saved.", f"undo:{form.deed.data}")
                return redirect(url_for("tanks.show", tank_id=tank_id))
    page = render_template(
        "tanks/log.html", tank=tank, racks=racks, form=form, errors=errors, odd=odd, typed=request.form,
        quantities=QUANTITIES, logged=readings.LOGGED, at_rack=readings.AT_RACK, methods=METHODS,
        latest=readings.latest(reading(), tank_id),
    )  # fmt: skip
    return page, 422 if errors or odd else 200


def _not_meant(tank_id: str, found: dict[str, dict[str, Any]]) -> dict[str, Odd]:
    """The odd readings that nobody said they mean: 'meant' holds the box and the text it was said of."""
    spreads = load_thresholds(reading())["odd_reading_spreads"]
    meant = request.form.getlist("meant")
    odd = {name: odd_reading(reading(), tank_id, one, spreads) for name, one in found.items()}
    return {name: one for name, one in odd.items() if one and f"{name}={request.form[name].strip()}" not in meant}


@bp.route("/readings/<string(length=32):reading_id>/<quantity>", methods=["GET", "POST"])
@staff_only
def correct(reading_id: str, quantity: str) -> Response | tuple[str, int]:
    """Put a reading right."""
    back, now_is = request.args.get("tank", ""), readings.get_reading(reading(), reading_id)
    if quantity != now_is.quantity:
        abort(404)
    form = ReadingForm(value=now_is.typed, unit=now_is.unit, method=now_is.method)
    form.unit.choices = [(unit.key, unit.label) for unit in QUANTITIES[quantity].units.values()]
    form.method.choices = [("", "not said"), *((one.key, METHOD_NAMES[one.key]) for one in METHODS.get(quantity, ()))]
    if form.validate_on_submit():
        try:
            with saving() as session:
                correcting.correct_reading(
                    session, author(), form.deed.data, reading_id, form.value.data, form.unit.data, form.method.data
                )
        except (BadInput, Refused) as error:
            put_error(form, BadInput(str(error), "value"))
        else:
            flash("The reading is corrected. What was typed first stays in the history.", f"undo:{form.deed.data}")
            return redirect(url_for("tanks.show", tank_id=back) if back else url_for("tanks.index"))
    page = render_template("tanks/correct.html", form=form, quantity=QUANTITIES[quantity], tank_id=back)
    return page, 422 if form.is_submitted() else 200


@bp.route("/tanks/<string(length=32):tank_id>/racks/new", methods=["GET", "POST"])
@staff_only
def new_rack(tank_id: str) -> Response | tuple[str, int]:
    """Add a rack to a tank."""
    tank = places.get_tank(reading(), tank_id)
    form = RackForm()
    if form.validate_on_submit():
        try:
            with saving() as session:
                rack_id = places.add_rack(session, author(), form.deed.data, _given(form) | {"tank_id": tank_id})
        except BadInput as error:
            put_error(form, error)
        else:
            flash(f"{form.name.data} is added.")
            return redirect(url_for("racks.show", rack_id=rack_id))
    return render_template("racks/rack_form.html", form=form, tank=tank, rack=None), 422 if form.is_submitted() else 200


def _given(form: FlaskForm) -> dict[str, Any]:
    return {name: field.data for name, field in form._fields.items() if name not in ("deed", "csrf_token")}
