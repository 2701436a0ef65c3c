"""Signing in and out; who works here."""

from flask import Blueprint, abort, flash, redirect, render_template, request, session, url_for
from flask_wtf import FlaskForm
from werkzeug.wrappers import Response
from wtforms import PasswordField
from wtforms.validators import InputRequired

from webapp.errors import BadInput
from webapp.services import people
from webapp.views.fields import ChoiceField, TextField, put_error
from webapp.views.identity import author, local_path, owner_only, staff, staff_door, staff_only
from webapp.views.saving import now, reading, saving
from webapp.views.signing import leave, sign_in_here, signed_in_here, take_turn

bp = Blueprint("people", __name__)


class SignInForm(FlaskForm):
    """Name and PIN or password."""

    person = TextField("Name", 60, required=True)
    secret = PasswordField("PIN or password", [InputRequired("Fill in your PIN or password.")])


class PersonForm(FlaskForm):
    """A new person."""

    person = TextField("Name", 60, required=True)
    role = ChoiceField(
        "Role", [("staff", "Staff"), ("counter", "Counter: sells and prints"), ("owner", "Owner")], required=True
    )
    secret = PasswordField("PIN or password, at least 6 characters", [InputRequired("Give a PIN or password.")])


class SecretForm(FlaskForm):
    """A new PIN for somebody."""

    secret = PasswordField("New PIN or password", [InputRequired("Give a PIN or password.")])


@bp.route("/sign-in", methods=["GET", "POST"])
def sign_in() -> str | Response | tuple[str, int]:
    """The door for staff. Through the walk-ins' listener it does not exist."""
    if not staff_door():
        abort(404)
    back = local_path(request.args.get("next"), url_for("today.show"))
    wanted = request.args.get("person", "")[:60]
    if staff() is not None and request.method == "GET" and ("person" not in request.args or wanted == author().name):
        return redirect(back)
    form = SignInForm(data={"person": wanted})
    status = 200
    if form.validate_on_submit():
        with saving() as keeping:
            outcome = sign_in_here(keeping, form.person.data, form.secret.data)
        if outcome.token:
            return redirect(back)
        form.form_errors = [outcome.problem]
        status = 429 if outcome.retry_after_s else 403
    return render_template("people/sign_in.html", form=form, back=back), status


@bp.post("/sign-out")
def sign_out() -> Response:
    """End this person's session on this device, on the server too."""
    with saving() as keeping:
        leave(keeping)
    return redirect(url_for("card.start"))


@bp.route("/switch", methods=["GET", "POST"])
@staff_only
def switch() -> str | Response:
    """Somebody else takes over this device: a tap within the shift, the PIN otherwise."""
    here = signed_in_here()
    back = local_path(request.values.get("next"), url_for("today.show"))
    if request.method == "GET":
        return render_template("people/switch.html", here=here, back=back)
    name = request.form.get("person", "")
    if (name, True) not in here:
        return redirect(url_for("people.sign_in", person=name, next=back))
    take_turn(name, session["tokens"][name])
    flash(f"{name} works here now.")
    return redirect(back)


@bp.route("/people", methods=["GET", "POST"])
@owner_only
def everybody() -> str | Response:
    """Who works here; the owner adds people."""
    form = PersonForm()
    if form.validate_on_submit():
        try:
            with saving() as keeping:
                people.add_person(keeping, form.person.data, form.secret.data, form.role.data, now())
        except BadInput as error:
            put_error(form, error)
        else:
            flash(f"{form.person.data} can sign in now.")
            return redirect(url_for("people.everybody"))
    return render_template(
        "people/everybody.html", form=form, people=people.people(reading()), secret_form=SecretForm()
    )


@bp.post("/people/<person_id>/secret")
@owner_only
def new_secret(person_id: str) -> Response:
    """A new PIN; every device of that person is signed out."""
    form = SecretForm()
    name = next((row[1] for row in people.people(reading()) if row[0] == person_id), None)
    if name is None:
        abort(404)
    try:
        with saving() as keeping:
            people.set_secret(keeping, name, form.secret.data or "")
    except BadInput as error:
        flash(str(error), "error")
    else:
        flash(f"{name} has a new PIN and is signed out everywhere.")
    return redirect(url_for("people.everybody"))


@bp.post("/people/<person_id>/active")
@owner_only
def set_active(person_id: str) -> Response:
    """Let somebody in, or no longer."""
    try:
        with saving() as keeping:
            people.set_active(keeping, person_id, request.form.get("active") == "yes")
    except BadInput as error:
        flash(str(error), "error")
    return redirect(url_for("people.everybody"))

