"""Measuring in a photo: taps on the picture become millimetres. Without a script the picture is an image button."""

from typing import Any

from flask import Blueprint, Response, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from webapp.errors import BadInput
from webapp.services import measuring
from webapp.services.panel import panel
from webapp.services.recording import new_deed
from webapp.tags.ruler import Measurement, Point, measure
from webapp.views.fields import NumberField
from webapp.views.identity import author, shop, staff_only
from webapp.views.saving import memory, now, reading, saving
from webapp.views.specimen_forms import DeedForm
from webapp.views.uploads import sent_photo, takes_photo
from webapp.views.waited import taken_at, when_taken

bp = Blueprint("measuring", __name__)
WIDTHS = (320, 640, 960)  # CSS pixels: the first fits every phone; the others scroll and are tapped more finely
TAP_CSS_PX = 2.0
MOST_POINTS = 40


class RulerForm(DeedForm):
    """Besides the photo."""

    side_mm = NumberField("Side of the printed symbol, where the shop does not know it", 5, 300, "mm")


@bp.route("/s/<string(length=32):specimen_id>/ruler", methods=["GET", "POST"])
@takes_photo
@staff_only
def begin(specimen_id: str) -> str | AnyResponse | tuple[str, int]:
    """Take the photo."""
    form = RulerForm() if request.method == "POST" else RulerForm(request.args)
    if form.validate_on_submit():
        try:
            made = measuring.find_tag(reading(), specimen_id, sent_photo(), shop().hosts, form.side_mm.data)
            with saving() as session:
                ruler_id = measuring.begin(session, specimen_id, made, taken_at(now()))
            return redirect(url_for("measuring.tap", ruler_id=ruler_id, **_carried("waited", "taken")), 303)
        except BadInput as problem:  # by an address, so that Back and reload ask for nothing to be sent again
            flash(str(problem), "error")
            again = _carried("waited", "taken", "side_mm")
            return redirect(url_for("measuring.begin", specimen_id=specimen_id, refused=1, **again), 303)
    shown = panel(reading(), memory(), specimen_id, now())
    page = render_template("measuring/begin.html", panel=shown, form=form)
    return page, 422 if form.is_submitted() else 200


@bp.route("/ruler/<string(length=32):ruler_id>", methods=["GET", "POST"])
@staff_only
def tap(ruler_id: str) -> str | tuple[str, int]:
    """One more tap, one less, or another way to measure; what was tapped before comes along in the form."""
    found = measuring.waiting(reading(), ruler_id)
    given, points = request.values, _points()
    width = _width()
    scale = found.width / width
    if "tap.x" in given and len(points) < MOST_POINTS:
        points.append((_number("tap.x") * scale, _number("tap.y") * scale))
    if given.get("do") == "undo":
        points = points[:-1]
    if given.get("do") == "clear":
        points = []
    size, problem = _size(found, points, scale)
    return render_template(
        "measuring/tap.html", waiting=found, points=points, width=width, height=round(found.height / scale),
        scale=scale, size=size, problem=problem, area=_area(), height_mm=_height(), widths=WIDTHS,
        heights=[(str(mm), f"{mm} mm" if mm else "level with it") for mm in measuring.HEIGHTS_MM], deed=new_deed(),
    )  # fmt: skip


@bp.post("/ruler/<string(length=32):ruler_id>/keep")
@staff_only
def keep(ruler_id: str) -> AnyResponse:
    """Record it."""
    deed, specimen_id = request.form.get("deed") or new_deed(), request.form.get("specimen", "")
    with saving() as session, when_taken():
        scale = _number("scale") or 1.0
        size = measuring.keep(
            session, author(), deed, ruler_id, _points(), _area(), _height(), min(20.0, TAP_CSS_PX * scale)
        )
    if size is not None:
        flash(f"{_words(size)} kept with its photo.", f"undo:{deed}")
    return redirect(url_for("specimens.show", specimen_id=specimen_id))


@bp.get("/ruler/<string(length=32):ruler_id>.webp")
@staff_only
def picture(ruler_id: str) -> Response:
    """The photo round the tag."""
    answer = Response(measuring.picture(reading(), ruler_id), mimetype="image/webp")
    answer.headers["Cache-Control"] = "private, max-age=3600"
    return answer


def _carried(*names: str) -> dict[str, str]:
    return {name: request.form[name] for name in names if request.form.get(name)}


def _size(found: measuring.Waiting, points: list[Point], scale: float) -> tuple[Measurement | None, str]:
    if len(points) < (3 if _area() else 2):
        return None, ""
    try:
        size = measure(found.ruler, points, area=_area(), height_mm=_height(), tap_px=TAP_CSS_PX * scale)
    except BadInput as problem:
        return None, str(problem)
    return size, ""


def _words(size: Measurement) -> str:
    length = f"{size.length_mm:.1f} mm, give or take {size.error_mm:.1f} mm,"
    if size.area_mm2 is None or size.area_error_mm2 is None:
        return length
    return f"{size.area_mm2 / 100:.1f} cm², give or take {size.area_error_mm2 / 100:.1f} cm², {length}"


def _points() -> list[Point]:
    points = []
    for text in request.values.getlist("p")[:MOST_POINTS]:
        x, _, y = text.partition(",")
        try:
            points.append((float(x), float(y)))
        except ValueError:
            continue
    return [point for point in points if all(0 <= value <= 4000 for value in point)]


def _number(name: str) -> float:
    value: Any = request.values.get(name, 0.0, type=float)
    return value if 0 <= value <= 4000 else 0.0


def _width() -> int:
    width = request.values.get("w", WIDTHS[0], type=int)
    return width if width in WIDTHS else WIDTHS[0]


def _area() -> bool:
    return request.values.get("what") == "area"


def _height() -> float:
    height = request.values.get("high", 0, type=int)
    return float(height) if height in measuring.HEIGHTS_MM else 0.0
