"""Holds: what is kept for whom by claim word, until when, and what became of the animal meanwhile."""

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.services.holding import holds
from webapp.services.thresholds import load_thresholds
from webapp.services.updating import update
from webapp.views.identity import author, staff_only
from webapp.views.saving import now, reading, saving
from webapp.views.specimen_forms import DeedForm

bp = Blueprint("holds", __name__)


@bp.get("/holds")
@staff_only
def index() -> str:
    """Those that run out first stand first."""
    limits = load_thresholds(reading())
    return render_template("till/holds.html", holds=holds(reading(), limits, now()), limits=limits, form=DeedForm(None))


@bp.post("/holds/release")
@staff_only
def release() -> Response:
    """Let one go."""
    form = DeedForm()
    if not form.validate_on_submit():
        flash("Reload the page and try again.", "error")
        return redirect(url_for("holds.index"))
    with saving() as session:
        update(session, author(), form.deed.data, "released", [request.form.get("specimen_id", "")], {})
    flash("Hold released.", f"undo:{form.deed.data}")
    return redirect(url_for("holds.index"))
