"""The numbers the shop decides by: their defaults, what those rest on, and the shop's own."""

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput
from webapp.services.thresholds import SECTIONS, THRESHOLDS, load_thresholds, own_values, save_thresholds
from webapp.views.identity import owner_only
from webapp.views.saving import reading, saving
from webapp.views.specimen_forms import DeedForm

bp = Blueprint("thresholds", __name__)


@bp.route("/settings/thresholds", methods=["GET", "POST"])
@owner_only
def show() -> Response | tuple[str, int]:
    """Change some of them; an empty box goes back to the default."""
    form = DeedForm()
    errors: dict[str, str] = {}
    if form.validate_on_submit():
        changed = _typed(errors)
        if not errors:
            try:
                with saving() as session:
                    save_thresholds(session, changed)
            except BadInput as error:
                errors[error.field or "main"] = str(error)
            else:
                flash("Thresholds saved.")
                return redirect(url_for("thresholds.show"))
    shown = {key: f"{value:g}" for key, value in load_thresholds(reading()).items()} | request.form.to_dict()
    page = render_template(
        "thresholds/show.html", sections=SECTIONS, shown=shown, own=own_values(reading()), errors=errors, form=form
    )
    return page, 422 if errors else 200


@bp.post("/settings/thresholds/<key>/reset")
@owner_only
def reset(key: str) -> Response:
    """One of them back to its default."""
    try:
        with saving() as session:
            save_thresholds(session, {key: None})
    except BadInput as error:
        flash(str(error), "error")
        return redirect(url_for("thresholds.show"))
    flash(f"Back to the default: {THRESHOLDS[key].label.lower()} {THRESHOLDS[key].value:g} {THRESHOLDS[key].unit}.")
    return redirect(url_for("thresholds.show", _anchor=key))


def _typed(errors: dict[str, str]) -> dict[str, float | None]:
    changed: dict[str, float | None] = {}
    for key in THRESHOLDS:
        if key not in request.form:
            continue
        text = request.form[key].strip().replace(",", ".")
        try:
            changed[key] = float(text) if text else None
        except ValueError:
            errors[key] = f"'{text[:20]}' is not a number. Type digits, as 8.2."
    return changed
