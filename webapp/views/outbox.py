"""The outbox: the door that devices send to when the shop is in reach again, and the page that shows what waits."""

from datetime import timedelta
from typing import Any

from flask import Blueprint, abort, flash, jsonify, render_template, request
from marshmallow import ValidationError
from werkzeug.wrappers import Response

from webapp.schemas.outbox import SHAPES, Batch, Item
from webapp.services import devices, outbox, sealing, turns
from webapp.services.outbox import REFUSED, Authors, Reply, Sent
from webapp.services.turns import NOT_YET, TAKEN
from webapp.views.identity import author, staff, staff_door
from webapp.views.kept_forms import replay
from webapp.views.saving import now, saving
from webapp.views.signing import handle, this_device

bp = Blueprint("outbox", __name__)
#: A clock that is further off is told to whoever holds the device.
TOLD_SKEW = timedelta(seconds=90)


@bp.get("/outbox")
def page() -> str:
    """What waits on this device. It is the same for everybody, so that it opens without signal too."""
    if not staff_door():
        abort(404)
    return render_template("outbox/waiting.html")


@bp.post("/outbox")
def door() -> Response | tuple[Response, int]:
    """A batch of what was done: a reply for each, and what the device should know."""
    device = _proven()
    batch = _batch()
    now()  # one moment for the whole batch
    skew = batch["now"] - now()
    taken = _turns(batch, device)
    replies, told = _take(batch, device.id, {turn.handle: turn for turn in taken if turn.state != TAKEN})
    with saving() as session:
        devices.heard_from(session, device.id, handle(), skew.total_seconds(), now())
    if told:
        flash(batch["told"] or "Done.", f"undo:{told}")
    said = {"replies": replies, "turns": [{"handle": one.handle, "state": one.state} for one in taken]}
    return jsonify(said | {"now": now().isoformat(), "clock": _clock(skew), "skew_s": round(skew.total_seconds())})


@bp.get("/outbox/codes")
def codes() -> Response:
    """Deeds promised to this device with the codes they will draw, for plugs made without signal."""
    device = _proven(sends=False)
    with saving() as session:
        promised = devices.promise_codes(session, device.id, now())
    return jsonify(promised)


@bp.get("/outbox/people")
def people() -> Response:
    """Who may take over this device without signal, and the key that their PINs are sealed with."""
    device = _proven(sends=False)
    with saving() as session:
        found = turns.mates(session, device.id, now())
        key = sealing.public_key(session)
    told = [{"id": one.id, "name": one.name, "until": one.until.isoformat() if one.until else ""} for one in found]
    return jsonify(people=told, key=key, session=handle(), name=author().name)


@bp.get("/healthz")
def health() -> tuple[str, int]:
    """The shop is in reach."""
    return "", 204


def _proven(sends: bool = True) -> devices.Known:
    """The device, signed in; what is sent must come from a page of this shop (Origin, RFC 6454) by a script of ours."""
    if not staff_door():
        abort(404)
    if sends:
        ours = request.headers.get("Origin", "") == request.host_url.rstrip("/")
        if not ours or request.headers.get("X-Rackside") != "outbox" or not request.is_json:
            abort(403)
    device = this_device()
    if staff() is None or device is None:
        abort(_answer(401, "Sign in, and what waits on this device is sent."))
    return device


def _batch() -> dict[str, Any]:
    try:
        given = Batch().load(request.get_json(silent=True) or {})
    except ValidationError as error:
        abort(_answer(400, f"This could not be read: {error.messages}"))
    if given["shape"] not in SHAPES:
        abort(_answer(426, "This device has an older program than the shop. Reload the page; what waits stays."))
    return given


def _turns(batch: dict[str, Any], device: devices.Known) -> list[turns.TurnReply]:
    """Each is kept by itself: a wrong PIN must be counted whatever comes after it."""
    replies = []
    for given in batch["turns"]:
        with saving() as session:
            replies.append(turns.take_turn(session, device, turns.Turn(**given), now()))
    return replies


def _take(
    batch: dict[str, Any], device_id: str, untaken: dict[str, turns.TurnReply]
) -> tuple[list[dict[str, str]], str]:
    """Events that follow each other are kept together, forms one by one. Also the deed to tell of, if it was live.

    untaken: turns that did not come about. What was done in one that has to wait is not answered, so it stays.
    """
    replies: list[dict[str, str]] = []
    run: list[Sent] = []
    told = ""
    for raw in batch["items"]:
        item = _read(raw, replies)
        turn = untaken.get(item["session"]) if item is not None else None
        if item is None or (turn is not None and turn.state == NOT_YET):
            continue
        if turn is not None:
            replies.append(_told(Reply(item["id"], REFUSED, turn.reason)))
            continue
        if "kind" in item:
            run.append(_sent(item))
        else:
            replies += _keep(run, device_id)
            replies.append(replay(item, device_id, item["id"] == batch["live"]))
        if item["id"] == batch["live"] and "kind" in item:
            told = item["deed_id"]
    replies += _keep(run, device_id)
    done = {reply["id"] for reply in replies if reply["state"] != REFUSED}
    return replies, told if batch["live"] in done else ""


def _keep(run: list[Sent], device_id: str) -> list[dict[str, str]]:
    if not run:
        return []
    with saving() as session:
        found = outbox.take(session, Authors(session, device_id, author()), run, now())
    run.clear()
    return [_told(reply) for reply in found]


def _read(raw: Any, replies: list[dict[str, str]]) -> dict[str, Any] | None:
    """One item, or a reply that says why it cannot be read."""
    try:
        return Item().load(raw)
    except ValidationError as error:
        named = raw.get("id") if isinstance(raw, dict) else ""
        reason = f"This does not have the right form: {error.messages}."
        replies.append(_told(Reply(str(named or "")[:32], REFUSED, reason)))
        return None


def _sent(item: dict[str, Any]) -> Sent:
    keys = ("id", "kind", "subject_id", "payload", "occurred_at", "deed_id")
    return Sent(*(item[key] for key in keys), handle=item["session"])


def _told(reply: Reply) -> dict[str, str]:
    return {"id": reply.id, "state": reply.state, "reason": reply.reason}


def _clock(skew: timedelta) -> str:
    if abs(skew) <= TOLD_SKEW:
        return ""
    minutes = round(abs(skew).total_seconds() / 60) or 1
    way = "ahead of" if skew > timedelta(0) else "behind"
    return f"The clock of this device runs {minutes} min {way} the shop's. Set it right: the history goes by it."


def _answer(status: int, sentence: str) -> Response:
    answer = jsonify(error=sentence)
    answer.status_code = status
    return answer

