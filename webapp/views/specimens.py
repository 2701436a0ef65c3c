"""One specimen, for staff: its panel, and every deed that changes it."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

from flask import Blueprint, abort, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput, ShopError
from webapp.services import correcting, recording, updating
from webapp.services.growing import OddSize, ellipse, odd_size
from webapp.services.panel import panel, specimen_by_code
from webapp.services.state import state_of
from webapp.services.thresholds import load_thresholds
from webapp.views import look_forms
from webapp.views import specimen_forms as forms
from webapp.views.identity import author, local_path, shop, staff_only
from webapp.views.rendering import day, number
from webapp.views.saving import afterwards, memory, now, reading, saving
from webapp.views.undo_back import way_back
from webapp.views.uploads import takes_photo
from webapp.words.unbroken import NO_BREAK

bp = Blueprint("specimens", __name__)


@bp.get("/s/<string(length=32):specimen_id>")
@staff_only
def show(specimen_id: str) -> str:
    """The panel: how it is, what can be done, everything that happened."""
    return _page(specimen_id)


@bp.post("/s/<string(length=32):specimen_id>/<deed_name>")
@takes_photo
@staff_only
def do(specimen_id: str, deed_name: str) -> Response | tuple[str, int]:
    """One deed. Sent twice it is done once; a form that cannot be read comes back as it was typed."""
    if deed_name not in DEEDS:
        abort(404)
    form_class, act, sentence = DEEDS[deed_name]
    form = form_class(prefix=deed_name)
    forms.fill_choices(form, reading(), memory())
    if form.validate_on_submit():
        try:
            with saving() as session:
                act(session, form.deed.data, specimen_id, form)
        except ShopError as error:
            if deed_name == "photo":  # nothing else was entered: back by an address, so that reload sends nothing again
                flash(str(error), "error")
                return redirect(url_for("specimens.show", specimen_id=specimen_id, _anchor="photo"))
            forms.put_error(form, error if isinstance(error, BadInput) else BadInput(str(error)))
        else:
            flash(sentence, f"undo:{form.deed.data}")
            return redirect(url_for("specimens.show", specimen_id=specimen_id))
    return _page(specimen_id, deed_name, form), 422


@bp.post("/undo/<string(length=32):deed_id>")
@staff_only
def undo(deed_id: str) -> Response:
    """Undo a deed. Undoing is a deed too, so it can be undone."""
    back = local_path(request.form.get("back"), url_for("stock.staff_list"))
    undoing = request.form.get("deed") or recording.new_deed()
    with saving() as session:
        recording.undo(session, author(), deed_id, undoing)
    flash("Undone.", f"undo:{undoing}")
    return redirect(way_back(back))


def _page(specimen_id: str, open_deed: str = "", failed: Any = None) -> str:
    session = reading()
    made = {name: failed if name == open_deed else form_class(None, prefix=name) for name, (form_class, _,
    _) in DEEDS.items()}
    shown = panel(session, memory(), specimen_id, now())
    limits = load_thresholds(session)
    state = state_of(session, memory(), specimen_id, shown.profile, limits, now(), shop().zone)
    for name, form in made.items():
        forms.fill_choices(form, session, memory())
        if name != open_deed:
            forms.fill_from(form, shown)
    return render_template(
        "specimens/show.html", panel=shown, state=state, forms=made, open_deed=open_deed, limits=limits,
        said={name: sentence for name, (_form, _act, sentence) in DEEDS.items()},
    )  # fmt: skip


def _simple(kind: str, payload: Callable[[Any], dict[str, Any]]) -> Callable[[Any, str, str, Any], None]:
    def act(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
        updating.update(session, author(), deed_id, kind, [specimen_id], payload(form))

    return act


def _look(kind: str) -> Callable[[Any, str, str, Any], None]:
    def act(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
        seen = form.payload
        if form.picture.data:
            seen = seen | {"photo_id": updating.keep_photo(session, deed_id, form.picture.data.read(), now())}
        updating.update(session, author(), deed_id, kind, [specimen_id], seen)

    return act


def _measure(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    odd = None if form.meant.data else odd_size(
        session, updating.get_row(session, specimen_id), form.size, load_thresholds(session), now()
    )  # fmt: skip
    if odd:
        form.is_asking = True
        raise BadInput(_odd(odd), odd.measure)
    size = form.size
    if "across_mm" in size:
        area, error = ellipse(size["size_mm"], size["across_mm"], load_thresholds(session)["growth_error_mm"])
        size |= {"area_mm2": area, "area_error_mm2": error}
    updating.update(session, author(), deed_id, "measured", [specimen_id], size)


def _odd(odd: OddSize) -> str:
    unit, places = (f"{NO_BREAK}mm", 1) if odd.measure == "size_mm" else (" heads", 0)
    last, low, high = (number(one, places) for one in (odd.last, odd.low, odd.high))
    return (
        f"It was {last}{unit} on {day(odd.last_at)}; by now {low} to {high}{unit} would be likely. Correct it, or tick"
        " that you mean it."
    )


def _feed(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    updating.feed(session, author(), deed_id, specimen_id, form.payload)


def _refuse_the_same(session: Any, deed_id: str, is_same: bool, sentence: str, field: str) -> None:
    """A form that was sent as it stood there changes nothing, and says so. Not for what was kept without signal: then
    the present is another one."""
    if is_same and not afterwards() and not recording.deeds_here(session, [deed_id]):
        raise BadInput(sentence, field)


def _status(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    wanted = form.status.data
    is_same = updating.get_row(session, specimen_id).status == wanted
    _refuse_the_same(session, deed_id, is_same, "It is that already. Choose another state.", "status")
    updating.update(session, author(), deed_id, "status_set", [specimen_id], {"status": wanted})


def _move(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    row, to = updating.get_row(session, specimen_id), form.place
    is_same = (row.tank_id, row.rack_id) == (to["tank_id"], to["rack_id"]) and to["slot"] in ("", row.slot)
    _refuse_the_same(session, deed_id, is_same, "It stands there already. Choose another place, or a slot.", "rack")
    updating.move(session, author(), deed_id, [specimen_id], form.place)


def _hold(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    if not afterwards():
        updating.check_may_hold(session, specimen_id, form.word.data, now())
    until = now() + timedelta(hours=form.hours.data)
    word, deposit = form.word.data, form.deposit.cents
    updating.hold(session, author(), deed_id, specimen_id, word, until, now(), deposit_cents=deposit)


def _photo(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    updating.add_photo(session, author(), deed_id, specimen_id, form.picture.data.read(), now())


def _split(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    piece = form.place | {"size_mm": form.size_mm.data, "heads": form.heads.data}
    left = {"size_mm": form.left_size_mm.data, "heads": form.left_heads.data}
    updating.split(session, author(), deed_id, specimen_id, piece, left)


def _merge(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    other = specimen_by_code(session, form.into.data)
    updating.merge(
        session, author(), deed_id, specimen_id, other, {"heads": form.heads.data, "size_mm": form.size_mm.data}
    )


def _kind(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    row = updating.get_row(session, specimen_id)
    is_same = (row.profile_key, row.name) == (form.profile_key.data, form.name.data)
    _refuse_the_same(session, deed_id, is_same, "It is noted as that already. Choose the right kind.", "profile_key")
    correcting.correct_kind(
        session, author(), deed_id, specimen_id, form.profile_key.data, form.name.data, form.with_frags.data
    )


def _mother(session: Any, deed_id: str, specimen_id: str, form: Any) -> None:
    correcting.correct_mother(session, author(), deed_id, specimen_id, specimen_by_code(session, form.mother.data))


#: name in the address -> its form, the deed, the sentence when it is done
DEEDS: dict[str, tuple[type[forms.DeedForm], Callable[..., None], str]] = {
    "status": (forms.StatusForm, _status, "State changed."),
    "measure": (forms.MeasureForm, _measure, "Size noted."),
    "look": (look_forms.LookForm, _look("checked"), "Look noted."),
    "well": (look_forms.WellForm, _simple("checked", lambda form: form.payload), "Noted: all is well."),
    "feed": (look_forms.FeedForm, _feed, "Feeding noted."),
    "dip": (look_forms.DipForm, _look("dipped"), "Dip noted."),
    "move": (forms.MoveForm, _move, "Moved."),
    "price": (forms.PriceForm, _simple("priced", lambda form: form.payload), "Price noted."),
    "note": (forms.NoteForm, _simple("noted", lambda form: form.payload), "Note kept."),
    "photo": (forms.PhotoForm, _photo, "Picture kept."),
    "hold": (forms.HoldForm, _hold, "On hold."),
    "release": (forms.DeedForm, _simple("released", lambda _form: {}), "Hold released."),
    "sell": (forms.SellForm, _simple("sold", lambda form: form.payload), "Noted as sold, without a number."),
    "return": (forms.ReturnForm, _simple("returned", lambda form: form.payload), "Taken back."),
    "lose": (forms.LoseForm, _simple("lost", lambda form: form.payload), "Noted as lost."),
    "split": (forms.SplitForm, _split, "Split in two."),
    "merge": (forms.MergeForm, _merge, "Joined."),
    "kind": (forms.KindForm, _kind, "Kind corrected."),
    "mother": (forms.MotherForm, _mother, "Mother colony corrected."),
    "name": (forms.NameForm, _simple("named", lambda form: {"name": form.name.data}), "Renamed."),
}
