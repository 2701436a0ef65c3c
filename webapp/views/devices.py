"""The devices that staff work with: listed, renamed, shut out; and the way for a phone to become one."""

from flask import Blueprint, abort, current_app, flash, redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from webapp.errors import BadInput
from webapp.services import devices
from webapp.tags.symbol import make_symbol, symbol_svg
from webapp.views.identity import owner_only, staff_door
from webapp.views.profile_file import CONTENT_TYPE, apple_profile
from webapp.views.saving import now, reading, saving
from webapp.views.secure_origin import plain_origin, staff_origin

bp = Blueprint("devices", __name__)


@bp.get("/devices")
@owner_only
def index() -> str:
    """Every device, who is signed in there, how far its clock is off; the symbol that begins a phone's set-up."""
    begin = plain_origin() + url_for("devices.set_up")
    symbol = symbol_svg(make_symbol(begin), label=f"Symbol that opens {begin}")
    return render_template("people/devices.html", devices=devices.devices(reading()), begin=begin, symbol=symbol)


@bp.post("/devices/<string(length=32):device_id>")
@owner_only
def change(device_id: str) -> Response:
    """Rename a device, or shut it out."""
    try:
        with saving() as session:
            if "out" in request.form:
                devices.revoke(session, device_id, now())
                flash("It is shut out, and everybody is signed out there.")
            else:
                devices.rename(session, device_id, request.form.get("name", ""))
    except BadInput as error:
        flash(str(error), "error")
    return redirect(url_for("devices.index"))


@bp.get("/ca")
def set_up() -> str:
    """Step by step for a staff phone, over plain http: take in the authority, open the https address, keep the app."""
    held = current_app.config.get("AUTHORITY")
    return render_template("people/set_up_phone.html", held=held, ready=staff_origin() + url_for("devices.ready"))


@bp.get("/ca/rackside.crt")
def authority() -> Response:
    """The authority's certificate as phones take it in (RFC 5280 DER; media type of RFC 2585 in use by browsers)."""
    return _file(_held().authority_der, "application/x-x509-ca-cert", "rackside.crt")


@bp.get("/ca/rackside.mobileconfig")
def profile() -> Response:
    """The same inside a configuration profile for iPhones and iPads."""
    return _file(apple_profile(_held().authority_der), CONTENT_TYPE, "rackside.mobileconfig")


@bp.get("/ready")
def ready() -> str:
    """Whether this phone is ready: asked over https, answered by the phone itself."""
    if not staff_door():
        abort(404)
    return render_template("people/ready.html")


def _held():  # noqa: ANN202  the material of `webapp.certificates`
    return current_app.config.get("AUTHORITY") or abort(404)


def _file(data: bytes, content_type: str, name: str) -> Response:
    answer = Response(data, content_type=content_type)
    answer.headers["Content-Disposition"] = f"attachment; filename={name}"
    return answer
