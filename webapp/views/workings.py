"""'How this was worked out': every part of an answer, the functions behind its numbers, and where they come from."""

from flask import Blueprint, render_template, request

from webapp.fit.methods import METHODS
from webapp.schemas.datafiles import load_sources
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.workings import cited, workings
from webapp.views.saving import memory, reading
from webapp.words.workings import PARTS

bp = Blueprint("workings", __name__)


@bp.get("/how")
def show() -> str:
    """The whole table; with `kind`, also what each of its ranges rests on."""
    kind = newest_profiles(reading(), memory(), revision(reading())).get(request.args.get("kind", ""))
    ranges = kind.bands if kind else {}
    cited_here = {band.basis.source: load_sources()[band.basis.source] for band in ranges.values() if band.basis.source}
    return render_template(
        "fit/how.html", parts=PARTS, workings=workings(), references=cited(), methods=METHODS, kind=kind,
        ranges=ranges, sources=cited_here,
    )  # fmt: skip
