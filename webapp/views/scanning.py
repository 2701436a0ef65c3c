"""Scanning by photo, for everybody and over plain http: the phone takes a picture, the shop's computer reads it."""

from flask import Blueprint, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput
from webapp.tags.opening import REFUSALS
from webapp.tags.photo import read_photo
from webapp.views.identity import shop
from webapp.views.overlay import overlay
from webapp.views.uploads import sent_photo, takes_photo
from webapp.words.photos import NOT_READ

bp = Blueprint("scanning", __name__)
_WHY = {sentence: why for why, sentence in REFUSALS.items()}


@bp.get("/scan")
def form() -> str:
    """Where a picture of a tag is taken; `no`: why the one before was not read."""
    problem = NOT_READ.get(request.args.get("no", ""), "")
    return render_template("card/scan.html", problem=problem, seen=None, found=())


@bp.post("/scan")
@takes_photo
def scan() -> Response | str:
    """One tag opens its card; several are outlined to choose from. The picture is not kept.

    None: back to the form by an address that says why, so that Back and reload ask for nothing to be sent again.
    """
    try:
        data = sent_photo()
        found = read_photo(data, shop().hosts)
    except BadInput as error:
        return redirect(url_for("scanning.form", no=_WHY.get(str(error), "missing")), 303)
    problems = {problem for _text, problem in found.others}
    if not found.tags:
        why = next((one for one in ("not_ours", "bad_check") if one in problems), "nothing")
        return redirect(url_for("scanning.form", no=why), 303)
    if len(found.tags) == 1:
        return redirect(url_for("card.show", code=found.tags[0].code), 303)
    problem = NOT_READ["not_ours"] if "not_ours" in problems else ""
    return render_template("card/scan.html", problem=problem, seen=overlay(data, found, {}), found=found.tags)
