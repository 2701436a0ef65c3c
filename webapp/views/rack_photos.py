"""Counting a rack from photos: what is here, what should be and was not seen, what belongs elsewhere. Staff confirm."""

from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from flask import Response as AnyResponse
from werkzeug.wrappers import Response

from webapp.errors import BadInput, NotFound, ShopError
from webapp.services import count_photos, stocktaking
from webapp.services.count_slots import tell_slots
from webapp.services.recording import new_deed
from webapp.tags.codes import parse_scan
from webapp.tags.photo import Reading, read_photo, shown_picture
from webapp.views.identity import author, shop, staff_only
from webapp.views.overlay import outlined
from webapp.views.saving import now, reading, saving
from webapp.views.uploads import takes_photo
from webapp.views.waited import when_taken

bp = Blueprint("rack_photos", __name__)
MOST_CODES, MOST_PHOTOS = 500, 20
#: What is carried from page to page of a count.
CARRIED = ("place", "count", "codes", "photos", "typed", "waited", "taken")


@bp.get("/count")
@staff_only
def begin() -> str:
    """Where the first photo is taken."""
    return _begin_page(request.args.get("place", ""), request.args.get("count", ""), "", by_eye=False)


@bp.get("/count/again")
@staff_only
def again() -> str:
    """The same after a refused photo, at an address that phones do not keep: what was found is of this count alone."""
    given = request.args
    return _begin_page(given.get("place", ""), given.get("count", ""), "", _codes(given.get("codes", "")))


@bp.post("/count")
@takes_photo
@staff_only
def photo() -> Response:
    """One more photo, read in one request; what was found before comes along in the form, and goes on in an address."""
    form = request.form
    codes, photos = _codes(form.get("codes", "")), _ids(form.get("photos", ""))
    try:
        new, read = _read()
        codes = list(dict.fromkeys([*codes, *new, *_typed()]))
        key = form.get("place") or stocktaking.guess_place(reading(), codes).key
        stocktaking.find_place(reading(), key)
    except (BadInput, NotFound) as error:
        return _refused(str(error))
    with saving() as session:
        kept = [count_photos.keep_photo(session, *one, now()) for one in read]
    carried = {name: form[name] for name in ("count", "waited", "taken") if form.get(name)}
    found = {"place": key, "codes": ",".join(codes), "photos": ",".join([*photos, *kept])}
    return redirect(url_for("rack_photos.found", **found, **carried), 303)


@bp.get("/count/found")
@staff_only
def found() -> str:
    """What the photos say of the rack, to be confirmed; without any it is counted by eye."""
    codes = _codes(request.args.get("codes", ""))
    if not codes and not request.args.get("place"):
        return _begin_page("", request.args.get("count", ""), "Choose the rack or tank that is counted by eye.")
    return _result_page(request.args, codes, "")


@bp.get("/count/photo/<string(length=32):photo_id>.jpg")
@staff_only
def picture(photo_id: str) -> AnyResponse:
    """A photo of a count that is being confirmed."""
    answer = AnyResponse(count_photos.photo_jpeg(reading(), photo_id), mimetype="image/jpeg")
    answer.headers["Cache-Control"] = "private, max-age=3600"
    return answer


@bp.post("/count/confirm")
@staff_only
def confirm() -> Response | tuple[str, int]:
    """Record the count: an event for each specimen."""
    form = request.form
    deed, count = form.get("deed") or new_deed(), form.get("count") or new_deed()
    codes = _codes(form.get("codes", ""))
    try:
        with saving() as session, when_taken():
            place = stocktaking.find_place(session, form.get("place", ""))
            done = stocktaking.confirm(
                session, author(), deed, count, place, codes, form.getlist("by_eye"), _slots("moved"), _slots("shifted")
            )
            count_photos.let_go(session, _ids(form.get("photos", "")))
    except ShopError as error:
        return _again(form, codes, str(error)), 422
    flash(f"{place.name}: {done['seen']} seen, {done['missing']} not seen, {done['moved']} moved here.", f"undo:{deed}")
    run = form.get("count", "")
    if run:
        return redirect(url_for("stocktake.show", count_id=run))
    kind, _, place_id = place.key.partition(":")
    return redirect(url_for(f"{kind}s.show", **{f"{kind}_id": place_id}))


def _refused(error: str) -> Response:
    """Back to the page that the photo came from, by an address: so Back and reload ask for nothing to be sent again."""
    flash(error, "error")
    carried = {name: request.form[name] for name in CARRIED if request.form.get(name)}
    if request.form.get("place") and "photos" in request.form:
        return redirect(url_for("rack_photos.found", **carried), 303)
    return redirect(url_for("rack_photos.again", **carried), 303)


def _read() -> tuple[list[str], list[tuple[bytes, Reading]]]:
    """The codes in the photo sent, and the photo to show; no photo is fine where a code was typed."""
    file = request.files.get("photo")
    data = file.read() if file else b""
    if not data:
        if not request.form.get("typed"):
            raise BadInput("Take or choose a photo first.", "photo")
        return [], []
    found = read_photo(data, shop().hosts, thorough=True)
    if not found.tags:
        raise BadInput(_nothing_of_ours(sum(problem == "not_ours" for _text, problem in found.others)))
    return [tag.code for tag in found.tags], [(shown_picture(data), found)]


def _nothing_of_ours(foreign: int) -> str:
    if foreign:
        symbols = "symbol is" if foreign == 1 else "symbols are"
        return f"No tag of ours was read in this photo: {foreign} {symbols} somebody else's. Nothing was followed."
    return "No tag of ours was read in this photo. Go closer, avoid glare, or take half a rack at a time."


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


def _ids(text: str) -> list[str]:
    return [one for one in text.split(",")[:MOST_PHOTOS] if len(one) == 32]


def _slots(name: str) -> dict[str, str]:
    """The slot chosen for each that was ticked."""
    return {one: request.form.get(f"slot-{one}", "") for one in request.form.getlist(name)}


def _looks(outcome: stocktaking.Outcome, told: dict[str, str]) -> dict[str, tuple[str, str]]:
    """How each tag is outlined: whole, broken or dotted, and what stands in it."""
    looks = {one.code: ("here", one.slot or "✓") for one in outcome.here}
    looks |= {one.code: ("elsewhere", f"→ {told.get(one.id, '')}".strip()) for one in outcome.elsewhere}
    looks |= {one.code: ("gone", "!") for one in outcome.gone}
    return {code: look for code, look in (looks | {code: ("other", "–") for code, _ in outcome.others}).items() if code}


def _again(form: Any, codes: list[str], error: str) -> str:
    """What was found so far, or the first page, with what went wrong."""
    if form.get("place") and "photos" in form:
        return _result_page(form, codes, error)
    return _begin_page(form.get("place", ""), form.get("count", ""), error, codes)


def _begin_page(key: str, count: str, error: str, codes: list[str] | None = None, by_eye: bool = True) -> str:
    places = stocktaking.all_places(reading())
    return render_template(
        "count/begin.html", places=places, key=key, count=count, error=error, codes=codes or [], by_eye=by_eye
    )


def _result_page(given: Any, codes: list[str], error: str) -> str:
    session, ids = reading(), _ids(given.get("photos", ""))
    key = given.get("place", "")
    place = stocktaking.find_place(session, key) if key else stocktaking.guess_place(session, codes)
    outcome, kept = stocktaking.sort_out(session, place, codes), count_photos.photos(session, ids)
    slots = tell_slots(session, outcome, [one.middles for one in kept])
    looks = _looks(outcome, slots.told)
    seen = [outlined(url_for("rack_photos.picture", photo_id=one.id), one, looks) for one in kept]
    return render_template(
        "count/result.html", outcome=outcome, codes=codes, count=given.get("count", ""), photos=ids, seen=seen,
        slots=slots, foreign=sum(one.foreign for one in kept), misread=sum(one.misread for one in kept),
        places=stocktaking.all_places(session), deed=new_deed(), error=error, typed=given.get("typed", ""),
    )  # fmt: skip
