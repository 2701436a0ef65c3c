"""Sales that were made: the receipt, packing for the journey, claims, animals that come back."""

from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from flask_wtf.file import FileField, FileRequired
from werkzeug.wrappers import Response
from wtforms import TextAreaField
from wtforms.validators import Length, Optional

from webapp.errors import BadInput, ShopError
from webapp.schemas.payloads_sales import CASES, OUTCOMES, TROUBLES
from webapp.services import selling_after, selling_bag
from webapp.services.panel import specimen_by_code
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.thresholds import load_thresholds
from webapp.services.updating import get_row, keep_photo
from webapp.views.fields import ChoiceField, MoneyField, NumberField, TextField, asked, put_error
from webapp.views.identity import author, staff_only
from webapp.views.saving import memory, now, reading, saving
from webapp.views.specimen_forms import DeedForm
from webapp.views.uploads import takes_photo
from webapp.words import sales as words

bp = Blueprint("sales", __name__)


class BagForm(DeedForm):
    """How it is packed, and for how long a way."""

    case = ChoiceField("Packed in", asked([(key, words.CASE[key]) for key in CASES]), required=True)
    journey_h = NumberField("The journey takes", 0.1, 240, "h", required=True)
    outside_temp_c = NumberField("Temperature outside", -40, 60, "°C")


class PictureForm(DeedForm):
    """What was sold, as it leaves."""

    picture = FileField("Picture of the bags", [FileRequired("Take or choose a picture.")])
    note = TextField("Note", 200)


class ClaimForm(DeedForm):
    """A complaint about one animal."""

    specimen_id = ChoiceField("Which one", required=True)
    trouble = ChoiceField("What is wrong", asked([(key, words.TROUBLE[key]) for key in TROUBLES]), required=True)
    readings = TextField("Readings of the water sample brought", 400)
    note = TextAreaField("What was told", [Optional(), Length(max=400, message="At most 400 characters.")])
    picture = FileField("Picture of it")


OF_MONEY = ("credit", "refund")


class SettleForm(DeedForm):
    """How a complaint ended."""

    outcome = ChoiceField("Settled by", asked([(key, words.OUTCOME[key]) for key in OUTCOMES]), required=True)
    amount = MoneyField("Amount of a credit, or of money back")
    note = TextField("Note", 400)

    def validate(self, extra_validators: Any = None) -> bool:
        """A credit and money back are of an amount."""
        if not super().validate(extra_validators):
            return False
        if self.outcome.data in OF_MONEY and not self.amount.cents:
            self.amount.errors = ["Give the amount, or settle it another way."]
            return False
        return True


class ReturnForm(DeedForm):
    """It came back."""

    specimen_id = ChoiceField("Which one", required=True)
    tank = ChoiceField("Which quarantine tank it goes into", required=True)
    reason = TextField("Why it came back", 200)
    refund = MoneyField("Money given back; empty for none")


FORMS: dict[str, type[DeedForm]] = {
    "bag": BagForm, "picture": PictureForm, "claim": ClaimForm, "settle": SettleForm, "return": ReturnForm,
}  # fmt: skip


@bp.route("/sales")
@staff_only
def index() -> str | Response | tuple[str, int]:
    """Sales, newest first; a number or a tag opens one."""
    asked, problem = request.args.get("q", "").strip(), ""
    if asked:
        try:
            return redirect(url_for("sales.show", number=_number_of(asked)))
        except BadInput as error:
            problem = str(error)
    wanted, only_open = request.args.get("page", 1, type=int), request.args.get("open") == "1"
    rows, total, page = selling_after.sales(reading(), wanted, only_open)
    shown = render_template(
        "till/sales.html", rows=rows, total=total, page=page, size=selling_after.PAGE_SIZE, asked=asked, problem=problem
    )
    return (shown, 422) if problem else shown


@bp.get("/sale/<int(max=999999999):number>")
@staff_only
def show(number: int) -> str:
    """The receipt."""
    return _page(number)


@bp.post("/sale/<int(max=999999999):number>/<deed_name>")
@takes_photo
@staff_only
def do(number: int, deed_name: str) -> Response | tuple[str, int]:
    """Pack it, picture it, note a claim, settle one, take an animal back."""
    if deed_name not in FORMS:
        abort(404)
    form = FORMS[deed_name](prefix=deed_name)
    _fill(form, selling_after.receipt(reading(), number))
    if form.validate_on_submit():
        try:
            with saving() as session:
                sentence = ACTS[deed_name](session, number, form)
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            flash(sentence, f"undo:{form.deed.data}")
            return redirect(url_for("sales.show", number=number))
    return _page(number, deed_name, form), 422


def _bag(session: Any, number: int, form: Any) -> str:
    answer = selling_bag.bag(
        session, author(), form.deed.data, number, form.case.data, form.journey_h.data, form.outside_temp_c.data,
        newest_profiles(session, memory(), revision(session)), now(),
    )  # fmt: skip
    return words.bag_sentence(answer.carry, answer.reasons, answer.better)


def _picture(session: Any, number: int, form: Any) -> str:
    photo_id = keep_photo(session, form.deed.data, form.picture.data.read(), now())
    selling_after.picture(session, author(), form.deed.data, number, photo_id, form.note.data)
    return "The picture is kept with the sale."


def _claim(session: Any, number: int, form: Any) -> str:
    picture = form.picture.data.read() if form.picture.data else b""
    photo_id = keep_photo(session, form.deed.data, picture, now()) if picture else None
    said = {name: form[name].data or "" for name in ("specimen_id", "trouble", "readings", "note")}
    selling_after.claim(session, author(), form.deed.data, number, said, photo_id)
    return "Claim noted."


def _settle(session: Any, number: int, form: Any) -> str:
    said = {"outcome": form.outcome.data, "amount_cents": form.amount.cents, "note": form.note.data}
    selling_after.settle(session, author(), form.deed.data, number, request.form.get("claim_id", ""), said)
    return "Claim settled."


def _return(session: Any, number: int, form: Any) -> str:
    said = {"reason": form.reason.data, "refund_cents": form.refund.cents}
    into = form.tank.data if "tank" in form else ""
    tank = selling_after.take_back(session, author(), form.deed.data, number, form.specimen_id.data, said, into)
    if tank:
        return f"It is back, and its quarantine in {tank} begins."
    return "Taken back, in quarantine. Move it out of the stock's water."


ACTS = {"bag": _bag, "picture": _picture, "claim": _claim, "settle": _settle, "return": _return}


def _number_of(asked: str) -> int:
    if asked.isdecimal() and len(asked) < 7:
        return int(asked)
    number = get_row(reading(), specimen_by_code(reading(), asked)).sale_number
    if number is None:
        raise BadInput(f"{asked} was not sold under a number.")
    return number


def _fill(form: Any, receipt: selling_after.Receipt) -> None:
    if "specimen_id" in form._fields:
        form.specimen_id.choices = asked(
            [(one.id, f"{one.name} {one.code}" + ", came back" * one.returned) for one in receipt.animals]
        )
    if "tank" in form._fields:
        quiet = selling_after.quarantines(reading())
        form.tank.choices = asked([(one.id, one.name) for one in quiet])
        if len(quiet) < 2:
            del form.tank


def _page(number: int, open_deed: str = "", failed: Any = None) -> str:
    receipt = selling_after.receipt(reading(), number)
    forms = {name: failed if name == open_deed else form_class(None, prefix=name) for name, form_class in FORMS.items()}
    for form in forms.values():
        _fill(form, receipt)
    kinds = newest_profiles(reading(), memory(), revision(reading()))
    rows = [get_row(reading(), one.id) for one in receipt.animals]
    return render_template(
        "till/receipt.html", receipt=receipt, forms=forms, open_deed=open_deed, kinds=kinds, words=words,
        unready=selling_bag.unready(reading(), rows, kinds, receipt.sale.made_at),
        names={one.id: f"{one.name} {one.code}" for one in receipt.animals}, limits=load_thresholds(reading()),
    )  # fmt: skip
