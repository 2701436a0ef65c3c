"""Counting a rack from photos: what is here, what should be and was not seen, what belongs elsewhere. Staff confirm."""

from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput, NotFound, ShopError
from webapp.services import stocktaking
from webapp.services.recording import new_deed
from webapp.tags.codes import parse_scan
from webapp.tags.photo import Reading, read_photo
from webapp.views.identity import author, shop, staff_only
from webapp.views.overlay import Overlay, overlay
from webapp.views.saving import reading, saving
from webapp.views.uploads import takes_photo
from webapp.views.waited import when_taken

bp = Blueprint("rack_photos", __name__)
MOST_CODES = 500


@bp.get("/count")
@staff_only
def begin() -> str:
    """Where the first photo is taken."""
    return _begin_page(request.args.get("place", ""), request.args.get("count", ""), "")


@bp.post("/count")
@takes_photo
@staff_only
def photo() -> str | tuple[str, int]:
    """One more photo, read in one request; what was found before comes along in the form."""
    codes = _codes(request.form.get("codes", ""))
    key, count = request.form.get("place", ""), request.form.get("count", "")
    try:
        data, found = _read()
        codes = list(dict.fromkeys([*codes, *(tag.code for tag in found.tags), *_typed()]))
        place = stocktaking.find_place(reading(), key) if key else stocktaking.guess_place(reading(), codes)
    except (BadInput, NotFound) as error:
        return _begin_page(key, count, str(error), codes), 422
    outcome = stocktaking.sort_out(reading(), place, codes)
    seen = overlay(data, found, _looks(outcome)) if data else None
    return _result_page(outcome, codes, count, seen, found)


@bp.post("/count/confirm")
@staff_only
def confirm() -> Response:
    """Record the count: an event for each specimen."""
    form = request.form
    deed, count = form.get("deed") or new_deed(), form.get("count") or new_deed()
    codes = _codes(form.get("codes", ""))
    try:
        with saving() as session, when_taken():
            place = stocktaking.find_place(session, form.get("place", ""))
            done = stocktaking.confirm(
                session, author(), deed, count, place, codes, form.getlist("by_eye"), form.getlist("moved")
            )
    except ShopError as error:
        flash(str(error), "error")
        return redirect(url_for("rack_photos.begin"))
    flash(f"{place.name}: {done['seen']} seen, {done['missing']} not seen, {done['moved']} moved here.", f"undo:{deed}")
    run = form.get("count", "")
    if run:
        return redirect(url_for("stocktake.show", count_id=run))
    kind, _, place_id = place.key.partition(":")
    return redirect(url_for(f"{kind}s.show", **{f"{kind}_id": place_id}))


def _read() -> tuple[bytes, Reading]:
    """The photo sent and what is in it; no photo is fine where codes came along already."""
    file = request.files.get("photo")
    data = file.read() if file else b""
    if not data:
        if not request.form.get("codes") and not request.form.get("typed"):
            raise BadInput("Take or choose a photo first.", "photo")
        return b"", Reading((), (), 0, 0, "")
    found = read_photo(data, shop().hosts, thorough=True)
    if not found.tags and not request.form.get("codes"):
        raise BadInput("No tag of ours was read in this photo. Go closer, avoid glare, or take half a rack at a time.")
    return data, found


def _typed() -> list[str]:
    """A code typed because its tag could not be read."""
    typed = request.form.get("typed", "").strip()
    scan = parse_scan(typed, shop().hosts)
    if typed and not scan.code:
        raise BadInput(f"'{typed[:20]}' is not a whole code. Look at the tag again.", "typed")
    return [scan.code] if scan.code else []


def _codes(text: str) -> list[str]:
    scans = (parse_scan(word, ()) for word in text.split(",")[:MOST_CODES] if word)
    return [scan.code for scan in scans if scan.code]


def _looks(outcome: stocktaking.Outcome) -> dict[str, tuple[str, str]]:
    """How each tag is outlined: whole, broken or dotted, and what stands in it."""
    looks = {one.code: ("here", one.slot or "✓") for one in outcome.here}
    looks |= {one.code: ("elsewhere", "→") for one in outcome.elsewhere}
    looks |= {one.code: ("gone", "!") for one in outcome.gone}
    return {code: look for code, look in (looks | {code: ("other", "–") for code, _ in outcome.others}).items() if code}


def _begin_page(key: str, count: str, error: str, codes: list[str] | None = None) -> str:
    places = stocktaking.all_places(reading())
    return render_template("count/begin.html", places=places, key=key, count=count, error=error, codes=codes or [])


def _result_page(
    outcome: stocktaking.Outcome, codes: list[str], count: str, seen: Overlay | None, found: Reading
) -> str:
    given: dict[str, Any] = {"outcome": outcome, "codes": codes, "count": count, "seen": seen}
    foreign = [text for text, problem in found.others if problem == "not_ours"]
    return render_template(
        "count/result.html", **given, foreign=len(foreign), misread=len(found.others) - len(foreign),
        places=stocktaking.all_places(reading()), deed=new_deed(), fresh=len(found.tags),
    )  # fmt: skip
