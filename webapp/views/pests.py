"""Pests: what was found, who shared the water since, what to do next."""

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput, ShopError
from webapp.services import pests, places
from webapp.services.panel import specimen_by_code
from webapp.services.telling import specimen_names
from webapp.services.thresholds import load_thresholds
from webapp.views.fields import ChoiceField, TextField, asked, put_error
from webapp.views.identity import author, staff_only
from webapp.views.saving import now, reading, saving
from webapp.views.specimen_forms import DeedForm
from webapp.words.looks import PEST

bp = Blueprint("pests", __name__)
STOP = [("rule", "as the rule says"), ("yes", "yes"), ("no", "no")]

FEW = 8
"""So many exposed animals are seen at once; of more, each place is opened with a tap."""


class FoundForm(DeedForm):
    """What was seen, and where."""

    pest = ChoiceField("What was seen", asked(list(PEST.items())), required=True)
    tank = ChoiceField("In which tank", required=True)
    code = TextField("On which specimen: its code; empty for none", 12)
    stop = ChoiceField("Stop the sale of everything in that water", STOP, required=True)
    note = TextField("Note", 400)


class TreatedForm(DeedForm):
    """What was done against it."""

    treatment = TextField("What was done", 200, required=True)


#: name in the address -> (kind of event, payload, sentence)
DEEDS = {
    "clean": ("pest_looked", {"clean": True}, "Noted: none found."),
    "again": ("pest_looked", {"clean": False}, "Noted: it was seen again."),
    "stop": ("pest_stop", {"stops_sale": True}, "Sale of what shared this water is stopped."),
    "go_on": ("pest_stop", {"stops_sale": False}, "Sale goes on."),
    "gone": ("pest_cleared", {}, "It counts as gone from now on."),
}


@bp.get("/pests")
@staff_only
def index() -> str:
    """Open findings, and those that are over."""
    return render_template(
        "pests/index.html", open=pests.findings(reading()), over=pests.findings(reading(), is_open=False)
    )


@bp.route("/pests/new", methods=["GET", "POST"])
@staff_only
def new() -> str | Response | tuple[str, int]:
    """A finding."""
    form = FoundForm()
    form.tank.choices = asked([(tank.id, tank.name) for tank in places.tanks(reading())])
    if form.validate_on_submit():
        try:
            with saving() as session:
                code = form.code.data
                found = {"tank_id": form.tank.data, "pest": form.pest.data, "note": form.note.data,
                         "specimen_id": specimen_by_code(session, code) if code else None,
                         "stops_sale": _stops(form)}  # fmt: skip
                pest_id = pests.report_pest(session, author(), form.deed.data, found)
        except ShopError as error:
            put_error(form, BadInput(str(error), "code"))
        else:
            flash("The finding is noted, and the tank is marked.", f"undo:{form.deed.data}")
            return redirect(url_for("pests.show", pest_id=pest_id))
    elif not form.is_submitted():
        form.tank.data, form.code.data = request.args.get("tank", ""), request.args.get("code", "")
    page = render_template("pests/new.html", form=form, has_tanks=bool(form.tank.choices))
    return page, 422 if form.is_submitted() else 200


@bp.get("/pests/<string(length=32):pest_id>")
@staff_only
def show(pest_id: str) -> str:
    """One finding and everyone it concerns."""
    return _page(pest_id, TreatedForm(None))


@bp.post("/pests/<string(length=32):pest_id>/<name>")
@staff_only
def do(pest_id: str, name: str) -> Response | tuple[str, int]:
    """A later look, a treatment, or that it is over."""
    form = TreatedForm() if name == "treat" else DeedForm()
    if name != "treat" and name not in DEEDS:
        abort(404)
    if not form.validate_on_submit():
        return _page(pest_id, form), 422
    kind, payload, sentence = DEEDS.get(name) or (
        "pest_treated",
        {"treatment": form.treatment.data},
        "Treatment noted.",
    )
    with saving() as session:
        pests.tell(session, author(), form.deed.data, pest_id, kind, payload)
    flash(sentence, f"undo:{form.deed.data}")
    return redirect(url_for("pests.show", pest_id=pest_id))


def _page(pest_id: str, form: DeedForm) -> str:
    session = reading()
    finding = pests.get_finding(session, pest_id)
    found = pests.exposure(session, finding, load_thresholds(session))
    names = {tank.id: tank.name for tank in places.tanks(session, closed=True)}
    exposed = pests.exposed_list(session, found)
    return render_template(
        "pests/show.html", finding=finding, exposed=exposed, form=form, now=now(), few=FEW,
        places=pests.by_place(session, exposed),
        tanks=[(tank, names.get(tank, ""), since) for tank, since in found.tanks.items()],
        on=specimen_names(session, [finding.specimen_id]).get(finding.specimen_id or "") if finding.specimen_id else "",
    )  # fmt: skip


def _stops(form: FoundForm) -> bool:
    return form.pest.data in pests.STOPS_SALE if form.stop.data == "rule" else form.stop.data == "yes"
