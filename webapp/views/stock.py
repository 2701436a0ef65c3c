"""The stock: the staff's list with deeds on several at once, and the public list of what is for sale."""

from dataclasses import replace
from typing import Any

from flask import Blueprint, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput, ShopError
from webapp.fit.profile import Profile
from webapp.services import intake, places, stock, updating
from webapp.services.pests import stopped_tanks
from webapp.services.profiles import newest_profiles
from webapp.views import specimen_forms as forms
from webapp.views import stock_forms, till
from webapp.views.fields import put_error
from webapp.views.identity import author, staff_only
from webapp.views.look_forms import WELL
from webapp.views.saving import memory, now, reading, revision, saving
from webapp.words.terms import GROUP

bp = Blueprint("stock", __name__)


@bp.get("/for-sale")
def public_list() -> str:
    """What is for sale, for everybody."""
    wanted = _wanted("name")
    found = stock.for_sale(reading(), _profiles(), wanted, now(), _stopped())
    return render_template("stock/public.html", found=found, wanted=wanted, groups=GROUP, profiles=_profiles())


@bp.get("/stock")
@staff_only
def staff_list() -> str:
    """Search, filter, sort; choose several and act on them."""
    return _list(stock_forms.BulkForm())


@bp.get("/stock/paper")
@staff_only
def paper() -> str:
    """All that was searched for, as a list to print."""
    wanted = replace(_wanted("name"), page=1)
    found = stock.find_stock(reading(), _profiles(), wanted, now(), size=stock.MOST_ON_PAPER)
    names = {one.id: one.name for one in (*places.tanks(reading()), *places.racks(reading()))}
    return render_template(
        "stock/paper.html", found=found, wanted=wanted, args=_search(), names=names, states=stock_forms.STATE_NAMES,
        groups=GROUP,
    )  # fmt: skip


@bp.post("/stock")
@staff_only
def bulk() -> Response | tuple[str, int]:
    """One deed on every specimen chosen."""
    form = stock_forms.BulkForm()
    form.rack.choices = [("", "Choose…"), *forms.place_choices(reading())]
    chosen = request.form.getlist("chosen")
    if form.action.data == "labels" and chosen:
        return redirect(url_for("tags.choose", id=chosen))
    if form.action.data == "dip" and chosen:
        return redirect(url_for("dipping.show", id=chosen))
    if form.validate_on_submit():
        try:
            if form.action.data == "sell" and chosen:
                return till.put_on(chosen)
            with saving() as session:
                sentence = _act(session, form, chosen)
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            flash(sentence, f"undo:{form.deed.data}")
            return redirect(url_for("stock.staff_list", **_search()))
    return _list(form, chosen), 422


@bp.route("/stock/new", methods=["GET", "POST"])
@bp.route("/stock/new/<string(length=32):rack_id>/<slot>", methods=["GET", "POST"])
@staff_only
def take_in(rack_id: str = "", slot: str = "") -> str | Response | tuple[str, int]:
    """A specimen by hand, or several alike: bought in, or here already. rack_id, slot: where its form begins."""
    form = stock_forms.IntakeForm()
    form.ask(reading(), memory())
    if request.method == "GET":
        form.begin_at(rack_id, slot)
    if form.validate_on_submit():
        try:
            with saving() as session:
                ids = intake.take_in(session, author(), form.deed.data, form.payload, form.count.data or 1)
        except ShopError as error:
            put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            flash("It is in the stock." if len(ids) == 1 else f"{len(ids)} are in the stock.", f"undo:{form.deed.data}")
            one = url_for("specimens.show", specimen_id=ids[0])
            return redirect(one if len(ids) == 1 else url_for("tags.choose", id=ids))
    page = render_template("stock/take_in.html", form=form, has_tanks=bool(places.tanks(reading())))
    return page, 422 if form.is_submitted() else 200


def _act(session: Any, form: stock_forms.BulkForm, chosen: list[str]) -> str:
    deed, action = form.deed.data, form.action.data
    if action == "move":
        if not form.rack.data:
            raise BadInput("Choose where to move them.", "rack")
        updating.move(session, author(), deed, chosen, form.place)
    elif action == "well":
        updating.update(session, author(), deed, "checked", chosen, WELL)
    elif action == "price":
        updating.update(session, author(), deed, "priced", chosen, {"price_cents": form.price.cents})
    elif action == "status":
        if not form.status.data:
            raise BadInput("Choose the state that they are in.", "status")
        updating.update(session, author(), deed, "status_set", chosen, {"status": form.status.data})
    else:
        raise BadInput("Choose what to do with them.", "action")
    return f"Done for {len(chosen)} {'specimen' if len(chosen) == 1 else 'specimens'}."


def _list(form: stock_forms.BulkForm, chosen: list[str] | None = None) -> str:
    wanted = _wanted("name")
    form.rack.choices = [("", "Choose…"), *forms.place_choices(reading())]
    found = stock.find_stock(reading(), _profiles(), wanted, now())
    if chosen is None:
        chosen = [one.id for one in found.items] if request.args.get("all") else []
    return render_template(
        "stock/list.html", found=found, wanted=wanted, form=form, args=_search(), chosen=chosen,
        tanks=places.tanks(reading()), racks=places.racks(reading()), groups=GROUP, profiles=_profiles(),
        states=stock_forms.STATE_NAMES, sorts=stock_forms.SORT_NAMES,
    )  # fmt: skip


def _search() -> dict[str, str]:
    """What was searched for, without the ticks: they are for one deed."""
    return {name: value for name, value in request.args.items() if name != "all"}


def _wanted(sort: str) -> stock.Wanted:
    given = request.args
    return stock.Wanted(
        words=given.get("q", "")[:80], state=given.get("state", "here"), tank_id=given.get("tank", ""),
        rack_id=given.get("rack", ""), group=given.get("group", ""), sort=given.get("sort", sort),
        page=given.get("page", 1, type=int),
    )  # fmt: skip


def _stopped() -> list[str]:
    return stopped_tanks(reading(), memory(), revision())


def _profiles() -> dict[str, Profile]:
    return newest_profiles(reading(), memory(), revision())
