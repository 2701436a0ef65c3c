"""A stocktake: one count over every rack and tank, its report and its CSV."""

from flask import Blueprint, Response, redirect, render_template, url_for
from werkzeug.wrappers import Response as AnyResponse

from webapp.services import count_report, stocktaking
from webapp.services.recording import new_deed
from webapp.services.shop import CURRENCIES
from webapp.views.identity import shop, staff_only
from webapp.views.saving import reading

bp = Blueprint("stocktake", __name__)


@bp.get("/stocktake")
@staff_only
def index() -> str:
    """Begin one, or look at earlier ones."""
    places = stocktaking.all_places(reading())
    past = count_report.past_counts(reading())
    return render_template("count/index.html", past=past, places=places, fresh=new_deed())


@bp.get("/stocktake/<string(length=32):count_id>")
@staff_only
def show(count_id: str) -> str | AnyResponse:
    """The report: what is counted, what is left, the difference from the books."""
    if not all(digit in "0123456789abcdef" for digit in count_id):
        return redirect(url_for("stocktake.index"))
    return render_template("count/report.html", report=count_report.report(reading(), count_id), fresh=new_deed())


@bp.get("/stocktake/<string(length=32):count_id>.csv")
@staff_only
def table(count_id: str) -> Response:
    """The report as a table to take away."""
    text = count_report.report_csv(count_report.report(reading(), count_id), CURRENCIES[shop().currency][1])
    answer = Response(text, mimetype="text/csv")
    answer.headers["Content-Disposition"] = f'attachment; filename="stocktake-{count_id[:8]}.csv"'
    return answer
