"""First-run set-up, and the shop's settings afterwards."""

from zoneinfo import available_timezones

from flask import Blueprint, abort, flash, redirect, render_template, url_for
from flask_wtf import FlaskForm
from werkzeug.wrappers import Response
from wtforms import BooleanField, PasswordField, TextAreaField
from wtforms.validators import InputRequired, Length

from webapp.errors import BadInput
from webapp.science.units import QUANTITIES
from webapp.services import people, profiles
from webapp.services.readings import LOGGED
from webapp.services.shop import CURRENCIES, Shop, computer_zone, is_set_up, save_shop
from webapp.views.fields import ChoiceField, CountField, TextField, put_error
from webapp.views.identity import owner_only, shop, staff_door
from webapp.views.saving import now, reading, saving
from webapp.views.signing import sign_in_here
from webapp.words.quantities import quantity_name

bp = Blueprint("setup", __name__)


class ShopForm(FlaskForm):
    """What a shop says of itself."""

    name = TextField("Name of the shop", 60, required=True)
    host = TextField("Address on labels", 64, required=True)
    port = CountField("Port, 80 unless this computer refuses it", 1, 65535, required=True)
    currency = ChoiceField(
        "Currency", [(code, f"{code} {sign}") for code, (sign, _) in CURRENCIES.items()], required=True
    )
    time_zone = ChoiceField(
        "Time zone", [(zone, zone.replace("_", " ")) for zone in sorted(available_timezones())], required=True
    )
    terms = TextAreaField("Terms printed on the care sheet", [Length(max=1000, message="At most 1000 characters.")])
    poisons_line = TextField("Telephone of the local poisons line", 80)
    wifi_name = TextField("Name of the guest Wi-Fi", 32)
    wifi_secret = TextField("Password of the guest Wi-Fi", 63)
    sold_tag_days = CountField("Days a sold plug's tag still opens its card; 0 for ever", 0, 36500)


for _quantity in LOGGED:
    _choices = [(unit.key, unit.label) for unit in QUANTITIES[_quantity].units.values()]
    setattr(ShopForm, f"unit_{_quantity}", ChoiceField(quantity_name(_quantity), _choices, required=True))


class FirstForm(ShopForm):
    """The first run: the owner too."""

    person = TextField("Your name", 60, required=True)
    secret = PasswordField("Your PIN or password, at least 6 characters", [InputRequired("Give a PIN or password.")])


class SettingsForm(ShopForm):
    """Later on: a changed address must be meant."""

    change_address = BooleanField(
        "Yes, print the new address from now on; old labels keep working in the app and by typing"
    )


@bp.route("/set-up", methods=["GET", "POST"])
def first() -> str | Response:
    """Begin an empty shop. Once it has an owner this page is gone."""
    if not staff_door() or is_set_up(reading()):
        abort(404)
    form = FirstForm(obj=Shop(host="SHOP.LOCAL", time_zone=computer_zone()))
    if form.validate_on_submit():
        try:
            with saving() as keeping:
                people.add_person(keeping, form.person.data, form.secret.data, "owner", now())
                save_shop(keeping, Shop(), **_settings(form))
                profiles.install_profiles(keeping, now())
                keeping.flush()
                sign_in_here(keeping, form.person.data, form.secret.data)
        except BadInput as error:
            put_error(form, error)
        else:
            flash("Your shop is set up. Add a tank first, then a rack, then what lives there.")
            return redirect(url_for("tanks.index"))
    return render_template("setup/first.html", form=form, logged=LOGGED)


@bp.route("/settings", methods=["GET", "POST"])
@owner_only
def settings() -> str | Response:
    """The shop's settings."""
    form = SettingsForm(obj=shop(), **{f"unit_{quantity}": shop().unit(quantity) for quantity in LOGGED})
    if form.validate_on_submit():
        given = _settings(form)
        try:
            if given["host"].strip().upper() != shop().host and not form.change_address.data:
                raise BadInput(
                    f"Labels in use carry {shop().host}. Tick the box below if the new address is meant: camera apps "
                    "will not open the old labels any more.", "host",
                )  # fmt: skip
            with saving() as keeping:
                save_shop(keeping, shop(), **given)
        except BadInput as error:
            put_error(form, error)
        else:
            flash("Settings saved.")
            return redirect(url_for("setup.settings"))
    return render_template("setup/settings.html", form=form, logged=LOGGED)


def _settings(form: ShopForm) -> dict:
    keys = ("name", "host", "port", "currency", "time_zone", "terms", "poisons_line", "wifi_name", "wifi_secret")
    given = {key: form[key].data or "" for key in keys}
    given["sold_tag_days"] = form.sold_tag_days.data or 0
    return given | {"units": {quantity: form[f"unit_{quantity}"].data for quantity in LOGGED}}
