"""Labels: choosing what to print on which sheet, the PDF or PNG, the door poster."""

from typing import Any

from flask import Blueprint, Response, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse

from webapp.errors import BadInput, CannotPrint
from webapp.services import labelling
from webapp.services.recording import new_deed
from webapp.tags.ready_sheets import READY_SHEETS
from webapp.tags.symbol import make_symbol, symbol_svg
from webapp.tags.wifi import wifi_text
from webapp.views.identity import author, shop, staff_only
from webapp.views.saving import reading, saving
from webapp.views.tanks import EmptyForm

bp = Blueprint("tags", __name__)
USUAL_SHEET = "a4-disc-25"
MOST_AT_ONCE = 1000


@bp.get("/labels")
@staff_only
def choose() -> str | AnyResponse:
    """What will be printed, and on what; with what does not fit said before anything is made."""
    ids, codes = (request.args.getlist(name)[:MOST_AT_ONCE] for name in ("id", "code"))
    if not ids and not codes:
        flash("Choose specimens in the stock list, then 'Print labels'.")
        return redirect(url_for("stock.staff_list"))
    labels = _labels(request.args)
    key = request.args.get("sheet", USUAL_SHEET)
    sheet = labelling.get_sheet(key)
    problem, warnings = "", []
    try:
        warnings = labelling.warnings_for(labels, sheet, shop())
    except CannotPrint as error:
        problem = str(error)
    return render_template(
        "tags/choose.html", ids=ids, codes=codes, labels=labels, sheets=READY_SHEETS, key=key, sheet=sheet,
        problem=problem,
        warnings=warnings, start=request.args.get("start", 1, type=int), form=EmptyForm(),
    )  # fmt: skip


@bp.post("/labels/print")
@staff_only
def make() -> Response:
    """The PDF or PNG. Every symbol was read back; a label that fails stops the job and names itself."""
    labels = _labels(request.form)
    sheet = labelling.get_sheet(request.form.get("sheet", USUAL_SHEET))
    start = request.form.get("start", 1, type=int)
    if not 1 <= start <= sheet.per_page:
        raise BadInput(f"This sheet has positions 1 to {sheet.per_page}. Go back and choose one of them.")
    if request.form.get("form") == "png":
        data, mimetype = labelling.labels_png(labels, sheet)
        ending = "png" if mimetype == "image/png" else "zip"
    else:
        data, mimetype, ending = labelling.labels_pdf(labels, sheet, start), "application/pdf", "pdf"
    with saving() as session:
        labelling.mark_printed(session, author(), request.form.get("deed") or new_deed(), shop(), labels)
    answer = Response(data, mimetype=mimetype)
    answer.headers["Content-Disposition"] = f'attachment; filename="labels-{len(labels)}.{ending}"'
    return answer


@bp.get("/poster")
@staff_only
def poster() -> str:
    """The door poster: the guest Wi-Fi as a symbol, 'stay connected', the address."""
    wifi = ""
    if shop().wifi_name:
        wifi = symbol_svg(make_symbol(wifi_text(shop().wifi_name, shop().wifi_secret)))
    address = shop().address.url("HELLO").removesuffix("/HELLO")
    return render_template(
        "tags/poster.html", wifi=wifi, address=address, start=symbol_svg(make_symbol(address + "/hello"))
    )


def _labels(given: Any) -> list[labelling.Label]:
    """Labels for what was chosen by 'id' (what it stands for) and by 'code' (the tag itself)."""
    ids, codes = (given.getlist(name)[:MOST_AT_ONCE] for name in ("id", "code"))
    return labelling.labels_for(reading(), shop(), ids) + labelling.labels_of_codes(reading(), shop(), codes)
