"""Labels: choosing what to print on which sheet, the PDF or PNG, large batches, old addresses, help, door poster."""

from typing import Any

from flask import Blueprint, Response, current_app, flash, redirect, render_template, request, url_for
from flask.blueprints import BlueprintSetupState
from werkzeug.wrappers import Response as AnyResponse

from webapp.errors import BadInput, CannotPrint
from webapp.services import binding, label_sheets, labelling, places
from webapp.services.label_jobs import Job, LabelJobs
from webapp.services.recording import new_deed
from webapp.tags.page import Label
from webapp.tags.preview import sheet_svg
from webapp.tags.sheets import Sheet
from webapp.tags.symbol import make_symbol, symbol_svg
from webapp.tags.wifi import wifi_text
from webapp.views.fields import CountField
from webapp.views.identity import author, shop, staff_only
from webapp.views.saving import reading, saving
from webapp.views.specimen_forms import DeedForm
from webapp.views.tanks import EmptyForm

bp = Blueprint("tags", __name__)
MOST_AT_ONCE = 1000
AT_ONCE = 96  # more take longer than a request should
MIME = {"pdf": "application/pdf", "zip": "application/zip"}
JOBS = "rackside_label_jobs"
EVERY_KIND = ("tank", "rack", "specimen", "blank")
#: What is printed again together: it goes on the same piece.
OLD_GROUPS: dict[str, tuple[str, tuple[str, ...]]] = {
    "places": ("Tanks and racks", ("tank", "rack")),
    "plugs": ("Plugs", ("specimen",)),
    "blank": ("Blank tags", ("blank",)),
}


class BlankForm(DeedForm):
    """Tags printed ahead."""

    count = CountField("How many blank tags", 1, binding.MOST_BLANKS, required=True, default=40)


@bp.record_once
def _open(state: BlueprintSetupState) -> None:
    state.app.extensions[JOBS] = LabelJobs()


@bp.get("/labels")
@staff_only
def choose() -> str | AnyResponse:
    """What will be printed, and on what; with what does not fit said before anything is made."""
    bare = labelling.untagged(reading(), _ids(request.args))
    if bare:
        return render_template("tags/untagged.html", bare=bare, chosen=_chosen(request.args), form=EmptyForm())
    labels = _labels(request.args)
    if not labels:
        flash("Nothing was chosen to be printed. Choose below, or in the stock's list.")
        return redirect(url_for("tags.index"))
    key = request.args.get("sheet") or _usual_sheet(labels)
    sheet = label_sheets.get_sheet(reading(), key)
    start, no_such = _start(request.args, sheet)
    problem, warnings = "", []
    try:
        warnings = labelling.warnings_for(labels, sheet, shop())
    except CannotPrint as error:
        problem = str(error)
    return render_template(
        "tags/choose.html", labels=labels, sheets=label_sheets.all_sheets(reading()), key=key, sheet=sheet,
        problem=problem, warnings=warnings, start=start, no_such=no_such, form=EmptyForm(),
        picture=_picture(sheet, key, start, len(labels)), chosen=_chosen(request.args), pieces=label_sheets.PIECES,
        letter=key.startswith("letter"),
    )  # fmt: skip


@bp.post("/labels/tag")
@staff_only
def tag_all() -> AnyResponse:
    """A tag of its own for each that has none, then the choice of what to print."""
    form = EmptyForm()
    with saving() as session:
        binding.tag_all(session, author(), form.deed.data, _ids(request.form))
    flash("Each has a tag of its own now. Print it.", f"undo:{form.deed.data}")
    return redirect(url_for("tags.choose", **_as_query(request.form)))


@bp.post("/labels/print")
@staff_only
def make() -> Response | AnyResponse:
    """The PDF or PNG. Every symbol was read back; a label that fails stops the job and names itself."""
    labels = _labels(request.form)
    key = request.form.get("sheet", label_sheets.FIRST_SHEET)
    sheet = label_sheets.get_sheet(reading(), key)
    start, no_such = _start(request.form, sheet)
    if no_such:
        raise BadInput(no_such)
    with saving() as session:
        label_sheets.remember_sheet(session, key, plugs=labelling.are_plugs(session, labels))
    as_png = request.form.get("form") == "png"
    if len(labels) > AT_ONCE:
        again = url_for("tags.choose", **_as_query(request.form), sheet=key, start=start)
        job = _jobs().start(labels, sheet, start, "zip" if as_png else "pdf", again)
        return redirect(url_for("tags.job", job_id=job.id))
    if as_png:
        data, mimetype = labelling.labels_png(labels, sheet)
        ending = "png" if mimetype == "image/png" else "zip"
    else:
        data, mimetype, ending = labelling.labels_pdf(labels, sheet, start), "application/pdf", "pdf"
    _mark(labels, sheet)
    return _file(data, mimetype, f"labels-{len(labels)}.{ending}")


@bp.get("/labels/jobs/<string(length=32):job_id>")
@staff_only
def job(job_id: str) -> str:
    """How far a batch is."""
    return render_template("tags/job.html", job=_jobs().get(job_id))


@bp.post("/labels/jobs/<string(length=32):job_id>/stop")
@staff_only
def stop(job_id: str) -> AnyResponse:
    """Stop a batch; nothing of it is kept."""
    _jobs().get(job_id).stop.set()
    return redirect(url_for("tags.job", job_id=job_id))


@bp.post("/labels/jobs/<string(length=32):job_id>/file")
@staff_only
def take(job_id: str) -> Response | AnyResponse:
    """The finished file; the labels in it are noted as printed."""
    found: Job = _jobs().get(job_id)
    if found.state != "done":
        return redirect(url_for("tags.job", job_id=job_id))
    _mark(found.labels, found.sheet, found.id)
    return _file(found.path.read_bytes(), MIME[found.ending], f"labels-{found.total}.{found.ending}")


@bp.route("/tags", methods=["GET", "POST"])
@staff_only
def index() -> str | AnyResponse:
    """Everything about tags: blank ones, sheets, old addresses, help."""
    form = BlankForm()
    if form.validate_on_submit():
        with saving() as session:
            binding.make_blanks(session, author(), form.deed.data, form.count.data)
        flash("The codes are made. Print them now.")
        return redirect(url_for("tags.choose", of=form.deed.data))
    old = labelling.old_labels(reading(), shop())
    return render_template("tags/index.html", form=form, own=label_sheets.own_sheets(reading()), old=len(old))


@bp.get("/labels/old")
@staff_only
def old() -> str:
    """Which labels carry an address that is not the shop's any more."""
    found = labelling.old_labels(reading(), shop())
    groups = {
        name: (words, sum(one.kind in kinds for one in found)) for name, (words, kinds) in OLD_GROUPS.items()
    }
    return render_template("tags/old.html", old=found, groups=groups, most=MOST_AT_ONCE)


@bp.get("/tags/help")
@staff_only
def help_page() -> str:
    """Which materials and fixings serve where."""
    return render_template("tags/help.html")


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


def _chosen(given: Any) -> list[tuple[str, str]]:
    """What to print, as it is carried along in forms: 'id' (what a tag stands for), 'rack' (all that stands on it),
    'code', 'of' (a deed), 'old'."""
    names = ("id", "rack", "code", "of", "old")
    return [(name, value) for name in names for value in given.getlist(name)[:MOST_AT_ONCE]]


def _as_query(given: Any) -> dict[str, list[str]]:
    """The same, to be put into an address."""
    found: dict[str, list[str]] = {}
    for name, value in _chosen(given):
        found.setdefault(name, []).append(value)
    return found


def _ids(given: Any) -> list[str]:
    """What labels are for, each once, what stands on a rack by its slots."""
    standing = [one.id for rack in given.getlist("rack") for one in places.occupants(reading(), rack_id=rack)]
    return list(dict.fromkeys([*given.getlist("id"), *standing]))[:MOST_AT_ONCE]


def _labels(given: Any) -> list[Label]:
    session, ids, codes = reading(), _ids(given), given.getlist("code")
    for deed in given.getlist("of"):
        codes += binding.codes_of_deed(session, deed)
    if given.get("old"):
        kinds = OLD_GROUPS.get(given["old"], ("", EVERY_KIND))[1]
        codes += [one.code for one in labelling.old_labels(session, shop()) if one.kind in kinds]
    labels = labelling.labels_for(session, shop(), ids)
    return labels + labelling.labels_of_codes(session, shop(), codes[: MOST_AT_ONCE - len(ids)])


def _usual_sheet(labels: Any) -> str:
    return label_sheets.usual_sheet(reading(), plugs=labelling.are_plugs(reading(), labels))


def _start(given: Any, sheet: Sheet) -> tuple[int, str]:
    """The first position to print on, and what is wrong with the one that was asked for."""
    typed = given.get("start", "1").strip()
    start = int(typed) if typed.isascii() and typed.isdigit() else 0
    if 1 <= start <= sheet.per_page:
        return start, ""
    return 1, f"This sheet has positions 1 to {sheet.per_page}, not '{typed[:12]}'."


def _picture(sheet: Sheet, key: str, start: int, count: int) -> str:
    """The sheet as a picture in which the first free label can be tapped."""
    chosen = _as_query(request.args)
    return sheet_svg(
        sheet, start, count, f"The sheet: {count} labels from position {start}",
        lambda position: url_for("tags.choose", **chosen, sheet=key, start=position),
    )  # fmt: skip


def _mark(labels: Any, sheet: Sheet, deed: str = "") -> None:
    with saving() as session:
        labelling.mark_printed(session, author(), deed or request.form.get("deed") or new_deed(), shop(), labels, sheet)


def _file(data: bytes, mimetype: str, name: str) -> Response:
    answer = Response(data, mimetype=mimetype)
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


def _jobs() -> LabelJobs:
    return current_app.extensions[JOBS]
