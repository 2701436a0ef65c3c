"""Several specimens in one dip: who may go in, and who stays out and why."""

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput, ShopError
from webapp.services.dipping import Candidate, candidates, dip_several
from webapp.services.profiles import newest_profiles
from webapp.services.thresholds import load_thresholds
from webapp.services.updating import keep_photo
from webapp.views.fields import put_error
from webapp.views.identity import author, staff_only
from webapp.views.look_forms import DipForm
from webapp.views.saving import memory, now, reading, revision, saving
from webapp.views.uploads import takes_photo
from webapp.words.conditions import CAUTION

bp = Blueprint("dipping", __name__)
WHY = CAUTION | {
    "sold": "It is sold.", "lost": "It died.", "merged": "It was joined to another.",
    "unknown": "It is not known here.",
}  # fmt: skip


@bp.get("/dip")
@staff_only
def show() -> str:
    """Those of the address, the ones that may be dipped ticked."""
    return _page(DipForm(None), request.args.getlist("id"))


@bp.post("/dip")
@takes_photo
@staff_only
def dip() -> Response | tuple[str, int]:
    """One deed over all that are ticked and may be dipped."""
    form, listed, chosen = DipForm(), request.form.getlist("id"), request.form.getlist("chosen")
    if form.validate_on_submit() and chosen:
        try:
            with saving() as session:
                seen = form.payload
                if form.picture.data:
                    seen = seen | {"photo_id": keep_photo(session, form.deed.data, form.picture.data.read(), now())}
                done, left = dip_several(session, author(), form.deed.data, _wanted(chosen), seen)
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            flash(_told(done, left), f"undo:{form.deed.data}")
            return redirect(url_for("today.show"))
    elif not chosen:
        form.form_errors = ["Choose at least one to dip."]
    return _page(form, listed or chosen, chosen), 422


def _told(done: list[Candidate], left: list[Candidate]) -> str:
    """Partial success in one sentence that names who stayed dry."""
    said = f"Dipped: {len(done)}."
    if left:
        said += " Not dipped: " + " ".join(f"{one.name} {one.code}. {WHY[one.reasons[0]]}" for one in left)
    return said


def _wanted(ids: list[str]) -> list[Candidate]:
    kinds = newest_profiles(reading(), memory(), revision())
    return candidates(reading(), ids, kinds, load_thresholds(reading()), now())


def _page(form: DipForm, ids: list[str], chosen: list[str] | None = None) -> str:
    found = _wanted(ids)
    ticked = {one.id for one in found if not one.reasons} if chosen is None else set(chosen)
    return render_template("dipping/show.html", form=form, found=found, ticked=ticked, why=WHY)
