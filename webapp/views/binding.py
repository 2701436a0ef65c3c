"""One tag, for staff: what it stands for, binding it at its first scan, replacing and retiring it."""

from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response
from wtforms import HiddenField
from wtforms.validators import Regexp

from webapp.errors import BadInput, ShopError
from webapp.services import binding, places
from webapp.services.shop import load_shop
from webapp.tags.codes import normalise
from webapp.views import stock_forms
from webapp.views.fields import TextField, put_error
from webapp.views.identity import author, staff_only
from webapp.views.saving import memory, reading, saving
from webapp.views.specimen_forms import DeedForm

bp = Blueprint("binding", __name__)


class BindForm(DeedForm):
    """What to bind to: 'kind:id'."""

    target = HiddenField(validators=[Regexp(r"^(specimen|tank|rack):[0-9a-f]{32}$", message="Choose one of the list.")])
    instead_of = HiddenField()


class ReplaceForm(DeedForm):
    """The code of the new tag."""

    by = TextField("Code of the new tag", 12, required=True)


class RetireForm(DeedForm):
    """Why a tag is taken out of use."""

    reason = TextField("Why", 200)


@bp.get("/tag/<string(length=7):code>")
@staff_only
def show(code: str) -> str | Response:
    """What the tag stands for and was; what it may be bound to."""
    return _page(code)


@bp.post("/tag/<string(length=7):code>/<any(bind, replace, retire, free):deed_name>")
@staff_only
def do(code: str, deed_name: str) -> Response | tuple[str, int]:
    """One deed on a tag."""
    form_class, act, sentence = DEEDS[deed_name]
    form = form_class()
    if form.validate_on_submit():
        try:
            with saving() as session:
                act(session, form.deed.data, code, form)
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            flash(sentence, f"undo:{form.deed.data}")
            return redirect(url_for("binding.show", code=normalise(form.by.data) if deed_name == "replace" else code))
    return _page(code, form), 422


@bp.route("/tag/<string(length=7):code>/new", methods=["GET", "POST"])
@staff_only
def new(code: str) -> str | Response | tuple[str, int]:
    """A specimen that enters the stock under this tag."""
    if request.method == "GET" and binding.get_tag(reading(), code).state == "live":  # back, after it was bound
        return redirect(url_for("binding.show", code=code))
    form = stock_forms.IntakeForm()
    del form.count
    form.ask(reading(), memory())
    if form.validate_on_submit():
        try:
            with saving() as session:
                specimen_id = binding.bind_new(session, author(), form.deed.data, code, form.payload)
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            flash("It is in the stock, and the tag stands for it.", f"undo:{form.deed.data}")
            return redirect(url_for("specimens.show", specimen_id=specimen_id))
    page = render_template("tags/bind_new.html", form=form, code=code.upper(), has_tanks=bool(places.tanks(reading())))
    return page, 422 if form.is_submitted() else 200


def _page(code: str, failed: Any = None) -> str:
    tag = binding.get_tag(reading(), code)
    words = request.args.get("q", "")[:80]
    rebinding = "rebind" in request.args
    found = binding.candidates(reading(), words) if tag.state != "live" or rebinding else []
    address = load_shop(reading()).address
    old = "" if tag.printed_host in ("", *address.notes) else tag.printed_host.removesuffix(":80")
    return render_template(
        "tags/tag.html", tag=tag, words=words, found=found, form=failed or DeedForm(), rebinding=rebinding,
        replace_form=failed if isinstance(failed, ReplaceForm) else ReplaceForm(None), old_address=old,
    )  # fmt: skip


def _bind(session: Any, deed_id: str, code: str, form: BindForm) -> None:
    kind, _, target_id = form.target.data.partition(":")
    binding.bind(session, author(), deed_id, code, kind, target_id, form.instead_of.data or "")


def _replace(session: Any, deed_id: str, code: str, form: ReplaceForm) -> None:
    binding.replace(session, author(), deed_id, code, form.by.data)


def _retire(session: Any, deed_id: str, code: str, form: RetireForm) -> None:
    binding.retire(session, author(), deed_id, code, form.reason.data)


def _free(session: Any, deed_id: str, code: str, _form: DeedForm) -> None:
    binding.free(session, author(), deed_id, code)


DEEDS: dict[str, tuple[type[DeedForm], Any, str]] = {
    "bind": (BindForm, _bind, "The tag is bound."),
    "replace": (ReplaceForm, _replace, "This tag stands for it now; the old one is retired."),
    "retire": (RetireForm, _retire, "The tag is retired."),
    "free": (DeedForm, _free, "The tag is blank again."),
}
