"""Scan and do: find a plug by its tag, by three characters or by its slot, and do the next thing with one tap."""

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import ShopError
from webapp.services.authority import may
from webapp.services.panel import specimen_by_code
from webapp.tags.codes import parse_scan
from webapp.tags.photo import read_tags
from webapp.views.identity import author, shop, staff_only
from webapp.views.saving import reading
from webapp.views.uploads import sent_photo, takes_photo
from webapp.views.work_deeds import AFTER_SCAN, DIP_NAMES, ONWARD, SERIES

bp = Blueprint("scan", __name__)


@bp.get("/do")
@staff_only
def work() -> str:
    """The scanner, and what comes after a scan."""
    return _page("work")


@bp.get("/series")
@staff_only
def series() -> str:
    """One deed chosen once, then tag after tag."""
    return _page("series")


@bp.get("/do/find")
@staff_only
def find() -> Response | tuple[str, int]:
    """From a typed code to the panel, where no script runs."""
    return _open(request.args.get("code", "")[:200])


@bp.post("/do")
@staff_only
@takes_photo
def photo() -> Response | tuple[str, int]:
    """From a photo of a tag to its panel; as JSON, every code in it. The photo is not kept."""
    try:
        tags = read_tags(sent_photo(), shop().hosts)
    except ShopError as error:
        return _answer([], str(error))
    problem = "" if tags else "No tag was found. Hold the phone 15 to 20 cm away, straight above, without flash."
    return _answer([tag.code for tag in tags], problem)


def _answer(codes: list[str], problem: str) -> Response | tuple[str, int]:
    if request.accept_mimetypes.best_match(["text/html", "application/json"]) == "application/json":
        return {"codes": codes, "problem": problem}, 200  # type: ignore[return-value]
    if not codes:  # by an address, so that Back and reload ask for nothing to be sent again
        flash(problem, "error")
        return redirect(url_for("scan.work"), 303)
    return _open(codes[0])


def _open(typed: str) -> Response | tuple[str, int]:
    scan = parse_scan(typed, shop().hosts)
    try:
        specimen_id = specimen_by_code(reading(), scan.code or typed)
    except ShopError as error:
        if scan.code:  # a tank, a rack or a blank tag: its own page knows
            return redirect(url_for("card.show", code=scan.code))
        return _page("work", str(error)), 422
    return redirect(url_for("specimens.show", specimen_id=specimen_id))


def _page(kind: str, problem: str = "") -> str:
    deeds = [deed for deed in (SERIES if kind == "series" else AFTER_SCAN) if may(author().role, deed["kind"])]
    rules = {"deeds": deeds, "onward": ONWARD, "hosts": [*shop().hosts]}
    money = {"currency": shop().currency}
    choices = [(deed["key"], deed["label"]) for deed in deeds]
    return render_template(f"scan/{kind}.html", rules=rules | money, problem=problem, dips=DIP_NAMES, choices=choices)
