"""A frag session on a mother colony: from the cut to the labels."""

from flask import Blueprint, flash, redirect, render_template, url_for
from werkzeug.wrappers import Response
from wtforms import BooleanField

from webapp.errors import BadInput, ShopError
from webapp.schemas.payloads import METHODS
from webapp.services import cutting, places
from webapp.services.fragging import MOST_PIECES, FragSession, frag
from webapp.services.panel import Panel, panel
from webapp.services.thresholds import load_thresholds
from webapp.services.updating import get_row
from webapp.views.fields import ChoiceField, CountField, MoneyField, NumberField, TextField, asked, put_error
from webapp.views.identity import author, staff_only
from webapp.views.saving import memory, now, reading, saving
from webapp.views.specimen_forms import DeedForm
from webapp.words.terms import METHOD

bp = Blueprint("fragging", __name__)
ASKING = {
    "too_much": "That is more of her than should go at once. Correct it, or tick that you mean it.",
    "too_small": "A piece this small without a whole mouth seldom lives. Correct it, or tick that you mean it.",
}


class FragForm(DeedForm):
    """What was cut, and where the plugs went."""

    method = ChoiceField("How", required=True)
    pieces = CountField("Number of plugs", 1, MOST_PIECES, required=True)
    rack = ChoiceField("Rack", required=True)
    first_slot = TextField("First slot, else the next free ones", 3)
    size_mm = NumberField("Size of each", 1, 2000, "mm")
    heads = CountField("Heads of each", 1, 5000)
    price = MoneyField("Price of each")
    mother_size_mm = NumberField("Size of the mother now", 1, 2000, "mm")
    mother_heads = CountField("Heads of the mother now", 1, 5000)
    note = TextField("Note", 400)
    meant = BooleanField("Yes, cut her all the same")
    asked: list[str] = []


@bp.route("/s/<string(length=32):specimen_id>/frag", methods=["GET", "POST"])
@staff_only
def session_form(specimen_id: str) -> str | Response | tuple[str, int]:
    """Record the session; then print the labels of what it made."""
    mother = panel(reading(), memory(), specimen_id, now())
    racks = places.racks(reading())
    free = {rack.id: len(places.free_slots(reading(), rack)) for rack in racks}
    form = FragForm()
    form.rack.choices = asked([(rack.id, f"{rack.tank_name}, {rack.name}: {free[rack.id]} free") for rack in racks])
    ways = cutting.ways_named(mother.profile)
    form.method.choices = asked([(key, METHOD[key]) for key in dict.fromkeys((*ways, *METHODS))])
    if form.validate_on_submit():
        try:
            _ask(form, mother)
            with saving() as session:
                ids = frag(session, author(), form.deed.data, _said(specimen_id, form))
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            made = "1 new specimen, healing. Now print its label." if len(ids) == 1 else (
                f"{len(ids)} new specimens, healing. Now print their labels.")  # fmt: skip
            flash(made, f"undo:{form.deed.data}")
            return redirect(url_for("tags.choose", id=ids))
    elif not form.is_submitted():
        form.method.data = cutting.last_method(reading(), mother.id)
        form.rack.data = mother.rack_id if mother.rack_id in free else form.rack.data
    return _page(form, mother, bool(racks)), 422 if form.is_submitted() else 200


def _page(form: FragForm, mother: Panel, has_racks: bool) -> str:
    session, limits = reading(), load_thresholds(reading())
    row = get_row(session, mother.id)
    return render_template(
        "fragging/session.html", form=form, mother=mother, has_racks=has_racks, limits=limits,
        rule=cutting.may_cut(session, row, mother.profile, limits, now()),
        most=cutting.most_to_take(row, mother.profile, limits), is_cut=mother.profile.attach_days != (0, 0),
    )  # fmt: skip


def _ask(form: FragForm, mother: Panel) -> None:
    limits, row = load_thresholds(reading()), get_row(reading(), mother.id)
    given = (form.pieces.data, form.heads.data, form.size_mm.data)
    form.asked = [] if form.meant.data else cutting.worth_asking(row, mother.profile, limits, *given)
    if form.asked:
        raise BadInput(ASKING[form.asked[0]], "meant")


def _said(mother_id: str, form: FragForm) -> FragSession:
    return FragSession(
        mother_id=mother_id, method=form.method.data, pieces=form.pieces.data, rack_id=form.rack.data,
        first_slot=form.first_slot.data.upper(), size_mm=form.size_mm.data, heads=form.heads.data,
        price_cents=form.price.cents, mother_size_mm=form.mother_size_mm.data, mother_heads=form.mother_heads.data,
        note=form.note.data,
    )  # fmt: skip
