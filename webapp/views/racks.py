"""A rack as a map of its slots, for staff."""

from flask import Blueprint, flash, redirect, render_template, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput
from webapp.services import places, readings
from webapp.services.thresholds import load_thresholds
from webapp.views.fields import put_error
from webapp.views.identity import author, staff_only
from webapp.views.saving import reading, saving
from webapp.views.tanks import EmptyForm, RackForm

bp = Blueprint("racks", __name__)


@bp.get("/racks/<string(length=32):rack_id>")
@staff_only
def show(rack_id: str) -> str:
    """The map: every slot, who stands in it, how it is."""
    rack = places.get_rack(reading(), rack_id)
    standing: dict[str, list[places.Standing]] = {}
    for one in places.occupants(reading(), rack_id=rack_id):
        standing.setdefault(one.slot, []).append(one)
    light = readings.latest(reading(), rack.tank_id).get(("par", rack_id))
    par_days = load_thresholds(reading())["rack_par_days"]
    return render_template(
        "racks/show.html", rack=rack, standing=standing, form=EmptyForm(), light=light, par_days=par_days
    )


@bp.route("/racks/<string(length=32):rack_id>/change", methods=["GET", "POST"])
@staff_only
def change(rack_id: str) -> Response | tuple[str, int]:
    """Change a rack."""
    rack = places.get_rack(reading(), rack_id)
    form = RackForm(obj=rack)
    if form.validate_on_submit():
        given = {key: form[key].data for key in ("name", "rows", "columns", "depth_cm")}
        try:
            with saving() as session:
                places.change_rack(session, author(), form.deed.data, rack_id, given)
        except BadInput as error:
            put_error(form, error)
        else:
            flash("Changed.", f"undo:{form.deed.data}")
            return redirect(url_for("racks.show", rack_id=rack_id))
    tank = places.get_tank(reading(), rack.tank_id)
    return render_template("racks/rack_form.html", form=form, tank=tank, rack=rack), 422 if form.is_submitted() else 200


@bp.post("/racks/<string(length=32):rack_id>/close")
@staff_only
def close(rack_id: str) -> Response:
    """Close an empty rack."""
    form = EmptyForm()
    try:
        with saving() as session:
            places.close_rack(session, author(), form.deed.data, rack_id)
    except BadInput as error:
        flash(str(error), "error")
        return redirect(url_for("racks.show", rack_id=rack_id))
    flash("The rack is closed.", f"undo:{form.deed.data}")
    return redirect(url_for("tanks.index"))
