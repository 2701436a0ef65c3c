"""Scanning by photo, for everybody and over plain http: the phone takes a picture, the shop's computer reads it."""

from flask import Blueprint, redirect, render_template, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput
from webapp.tags.photo import read_photo
from webapp.views.identity import shop
from webapp.views.overlay import Overlay, overlay
from webapp.views.uploads import sent_photo, takes_photo

bp = Blueprint("scanning", __name__)


@bp.get("/scan")
def form() -> str:
    """Where a picture of a tag is taken."""
    return render_template("card/scan.html", error="", seen=None, found=(), problems=())


@bp.post("/scan")
@takes_photo
def scan() -> Response | tuple[str, int]:
    """One tag opens its card; several are outlined to choose from; none says what to do. The picture is not kept."""
    try:
        data = sent_photo()
        found = read_photo(data, shop().hosts)
    except BadInput as error:
        return render_template("card/scan.html", error=str(error), seen=None, found=(), problems=()), 422
    if len(found.tags) == 1:
        return redirect(url_for("card.show", code=found.tags[0].code), 303)
    seen: Overlay | None = overlay(data, found, {}) if found.tags else None
    problems = {problem for _text, problem in found.others}
    page = render_template("card/scan.html", error="", seen=seen, found=found.tags, problems=problems, tried=True)
    return page, 200 if found.tags else 422
