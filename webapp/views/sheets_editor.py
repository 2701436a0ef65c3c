"""The shop's own label sheets: an editor with a picture, and the page that shows how a printer prints."""

from dataclasses import asdict
from typing import Any

from flask import Blueprint, Response, flash, make_response, redirect, render_template, request, url_for
from werkzeug.wrappers import Response as AnyResponse
from wtforms import BooleanField

from webapp.errors import BadInput, CannotPrint
from webapp.services import label_sheets
from webapp.services.recording import new_deed
from webapp.tags.alignment import alignment_pdf
from webapp.tags.codes import CODE_LENGTH
from webapp.tags.page import Label, place
from webapp.tags.preview import sheet_svg
from webapp.tags.sheets import A4_MM, DPIS, LETTER_MM, Sheet
from webapp.views.fields import ChoiceField, CountField, NumberField, TextField, put_error
from webapp.views.identity import shop, staff_only
from webapp.views.saving import reading, saving
from webapp.views.specimen_forms import DeedForm

bp = Blueprint("sheets_editor", __name__)
PAGES = {"a4": A4_MM, "letter": LETTER_MM}


class SheetForm(DeedForm):
    """A sheet by its measures."""

    name = TextField("Name", 60, required=True)
    page = ChoiceField("Page", [("a4", "A4"), ("letter", "US Letter"), ("own", "Other size, or a roll")], required=True)
    page_width_mm = NumberField("Page width", 5, 450, "mm")
    page_height_mm = NumberField("Page height", 5, 450, "mm")
    shape = ChoiceField("Labels are", [("rect", "Rectangular"), ("disc", "Round")], required=True)
    columns = CountField("Columns", 1, 60, required=True)
    rows = CountField("Rows", 1, 60, required=True)
    label_width_mm = NumberField("Label width, or its diameter", 5, 450, "mm", required=True)
    label_height_mm = NumberField("Label height", 5, 450, "mm", required=True)
    pitch_x_mm = NumberField("From one label's left edge to the next one's", 0, 450, "mm", required=True)
    pitch_y_mm = NumberField("From one label's top edge to the next one's", 0, 450, "mm", required=True)
    left_mm = NumberField("From the page's edge to the first label, left", 0, 450, "mm", required=True)
    top_mm = NumberField("From the page's edge to the first label, top", 0, 450, "mm", required=True)
    corner_mm = NumberField("Radius of the corners", 0, 50, "mm")
    inset_mm = NumberField("Clear edge inside each label", 0, 10, "mm")
    offset_x_mm = NumberField("Printer offset to the right", -10, 10, "mm")
    offset_y_mm = NumberField("Printer offset downwards", -10, 10, "mm")
    dpi = ChoiceField("Printer", [(str(dpi), f"{dpi} dpi") for dpi in DPIS], required=True)
    cut_lines = BooleanField("Draw hairlines to cut along")

    def sheet(self) -> Sheet:
        """The sheet. Raises BadInput with the field."""
        values = {name: field.data for name, field in self._fields.items()} | {"dpi": int(self.dpi.data or 600)}
        if self.page.data in PAGES:
            values |= dict(zip(("page_width_mm", "page_height_mm"), PAGES[self.page.data], strict=True))
        return label_sheets.sheet_from({name: value for name, value in values.items() if value is not None})


@bp.get("/labels/sheets")
@staff_only
def index() -> str:
    """Every sheet."""
    gone = request.args if "name" in request.args else None
    own = label_sheets.own_sheets(reading())
    every = label_sheets.all_sheets(reading())
    ready = {key: every[key] for key in every if key not in own}
    return render_template("tags/sheets.html", own=own, ready=ready, gone=gone)


@bp.get("/labels/sheets/edit")
@staff_only
def edit() -> str:
    """The editor, from an own sheet (`key`), a copy of any (`copy`), or the measures in the address."""
    key = request.args.get("key", "")
    if "name" in request.args:
        return _page(SheetForm(request.args, meta={"csrf": False}), key)
    start = label_sheets.get_sheet(reading(), key or request.args.get("copy", label_sheets.FIRST_SHEET))
    form = SheetForm(None, obj=start)
    form.page.data = _page_name((start.page_width_mm, start.page_height_mm))
    form.dpi.data = str(start.dpi)
    if not key:
        form.name.data = f"Own: {start.name}"[:60]
    return _page(form, key)


@bp.post("/labels/sheets/edit")
@staff_only
def keep() -> AnyResponse | tuple[str, int]:
    """Keep the sheet."""
    form, key = SheetForm(), request.args.get("key", "")
    if form.validate_on_submit():
        try:
            with saving() as session:
                label_sheets.keep_sheet(session, key or f"own-{form.deed.data[:12]}", form.sheet())
        except BadInput as error:
            put_error(form, error)
        else:
            flash("The sheet is kept. Print its test page once and hold it against a sheet of labels.")
            return redirect(url_for("sheets_editor.index"))
    return _page(form, key), 422


@bp.get("/labels/sheets/preview")
@staff_only
def picture() -> AnyResponse:
    """The picture of the measures in the address, as a piece of the page; what is wrong stands below it."""
    svg, problem = _drawn(SheetForm(request.args, meta={"csrf": False}))
    answer = make_response(render_template("tags/_sheet_picture.html", picture=svg, problem=problem))
    answer.headers["Cache-Control"] = "no-store"
    return answer


@bp.get("/labels/sheets/test-page.pdf")
@staff_only
def test_page() -> Response:
    """Outlines and rulers, to see what the printer does."""
    sheet = label_sheets.get_sheet(reading(), request.args.get("key", label_sheets.FIRST_SHEET))
    answer = Response(alignment_pdf(sheet), mimetype="application/pdf")
    answer.headers["Content-Disposition"] = 'attachment; filename="label-test-page.pdf"'
    return answer


@bp.post("/labels/sheets/forget")
@staff_only
def forget() -> AnyResponse:
    """Remove an own sheet."""
    key = request.form.get("key", "")
    with saving() as session:
        gone = label_sheets.get_sheet(session, key)
        label_sheets.forget_sheet(session, key)
    page = (gone.page_width_mm, gone.page_height_mm)
    given = asdict(gone) | {"page": _page_name(page), "cut_lines": "y" if gone.cut_lines else None}
    return redirect(url_for("sheets_editor.index", **given))


def _page_name(size: tuple[float, float]) -> str:
    return next((name for name, known in PAGES.items() if known == size), "own")


def _page(form: SheetForm, key: str) -> str:
    svg, problem = _drawn(form)
    return render_template("tags/sheet_form.html", form=form, key=key, picture=svg, problem=problem, deed=new_deed())


def _drawn(form: Any) -> tuple[str, str]:
    """The picture and what is wrong: with the measures, or with the symbol that is to go on such a label."""
    if form.is_submitted() and form.errors:
        return "", ""  # said above, and beside the field
    try:
        sheet = form.sheet()
    except (BadInput, TypeError) as error:
        return "", str(error) if isinstance(error, BadInput) else "Fill in every measure that is needed."
    return sheet_svg(sheet, 1, 0, f"{sheet.columns} columns and {sheet.rows} rows on the page"), _too_small(sheet)


def _too_small(sheet: Sheet) -> str:
    try:
        place(Label("0" * CODE_LENGTH, shop().address.url("0" * CODE_LENGTH)), 0, sheet)
    except CannotPrint as error:
        return str(error)
    return ""
