"""The kinds and their ranges: change one with a reason, see first what that changes here, and go back."""

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput, NotFound
from webapp.fit.profile import Profile
from webapp.services import profile_editing as editing
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.views.identity import author, owner_only
from webapp.views.saving import memory, now, reading, saving
from webapp.words.profile_editing import LIES

bp = Blueprint("profiles", __name__, url_prefix="/kinds")
BOXES = ("limit_low", "ideal_low", "ideal_high", "limit_high")


@bp.get("")
@owner_only
def listing() -> str:
    """Every kind, with how many are here and at which revision."""
    kinds = sorted(_kinds().values(), key=lambda kind: (kind.group, kind.trade_name.casefold()))
    return render_template("profiles/listing.html", kinds=kinds, stock=editing.stock_by_kind(reading()))


@bp.get("/<key>")
@owner_only
def show(key: str) -> str:
    """Its ranges and their basis, and every revision."""
    kind = _kind(key)
    return render_template("profiles/show.html", kind=kind, history=editing.revisions(reading(), key))


@bp.route("/<key>/<factor>", methods=["GET", "POST"])
@owner_only
def edit(key: str, factor: str) -> str | tuple[str, int] | Response:
    """Four numbers and a reason; first what they would change, then the new revision."""
    kind, errors, preview = _kind(key), {}, None
    if factor not in kind.bands:
        raise NotFound(f"{kind.trade_name} has no range of this.")
    if request.method == "POST":
        try:
            changed = editing.with_range(kind, factor, _typed(errors), request.form.get("reason", ""))
            if request.form.get("do") == "save" and request.form.get("seen") == str(kind.revision):
                return _save(changed)
            preview = editing.preview(reading(), memory(), revision(reading()), kind, changed, factor, now())
        except BadInput as error:
            errors.setdefault(error.field or "reason", str(error))
    band = kind.bands[factor]
    shown = {box: f"{getattr(band, box):g}" for box in BOXES} | request.form.to_dict()
    page = render_template(
        "profiles/edit.html", kind=kind, factor=factor, band=band, shown=shown, errors=errors, preview=preview,
        lies=LIES,
    )  # fmt: skip
    return (page, 422) if errors else page


@bp.post("/<key>/back/<int(max=999999999):number>")
@owner_only
def back(key: str, number: int) -> Response:
    """An earlier revision again, as a new one."""
    _kind(key)
    with saving() as session:
        again = editing.go_back(session, author(), key, number, now())
    flash(f"Revision {again.revision} holds now: the ranges of revision {number}.")
    return redirect(url_for("profiles.show", key=key))


def _save(changed: Profile) -> Response:
    with saving() as session:
        editing.add_revision(session, author(), changed, request.form["reason"], now())
    flash(f"Revision {changed.revision} of {changed.trade_name} holds now.")
    return redirect(url_for("profiles.show", key=changed.key))


def _typed(errors: dict[str, str]) -> tuple[float, float, float, float]:
    found = []
    for box in BOXES:
        text = request.form.get(box, "").strip().replace(",", ".")
        try:
            found.append(float(text))
        except ValueError:
            errors[box] = f"'{text[:20]}' is not a number. Type digits, as 8.2."
    if errors:
        raise BadInput("Four numbers are needed.", next(iter(errors)))
    low, ideal_low, ideal_high, high = found
    return low, ideal_low, ideal_high, high


def _kinds() -> dict[str, Profile]:
    return newest_profiles(reading(), memory(), revision(reading()))


def _kind(key: str) -> Profile:
    kind = _kinds().get(key)
    if kind is None:
        raise NotFound("There is no such kind here.")
    return kind
