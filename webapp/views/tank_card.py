"""What a walk-in sees who scans a tank or a rack: its water and what lives there, not the shop's troubles."""

from flask import Blueprint, render_template, url_for

from webapp.errors import NotFound
from webapp.services import cards, places, readings
from webapp.tags.codes import normalise
from webapp.views.saving import reading

bp = Blueprint("tank_card", __name__)
SHOWN = ("temp", "salinity", "alk", "ca", "mg", "ph", "no3", "po4")
PUBLIC_STATES = ("for_sale", "mother", "kept", "healing")


@bp.get("/tank/<string(length=7):code>")
def tank(code: str) -> str:
    """A tank's tag."""
    found = _found(code, "tank")
    place = places.get_tank(reading(), found)
    return _page(code, place, found, places.occupants(reading(), tank_id=found), url_for("tanks.show", tank_id=found))


@bp.get("/rack/<string(length=7):code>")
def rack(code: str) -> str:
    """A rack's tag."""
    found = _found(code, "rack")
    place = places.get_rack(reading(), found)
    standing = places.occupants(reading(), rack_id=found)
    return _page(code, place, place.tank_id, standing, url_for("racks.show", rack_id=found))


def _found(code: str, kind: str) -> str:
    found = cards.find(reading(), normalise(code))
    if found.kind != kind or found.target_id is None:
        raise NotFound(f"No {kind} here carries this code. Look at the tag again.")
    return found.target_id


def _page(
    code: str, place: places.Tank | places.Rack, tank_id: str, standing: list[places.Standing], staff_url: str
) -> str:
    latest = readings.latest(reading(), tank_id)
    water = [latest[quantity, ""] for quantity in SHOWN if (quantity, "") in latest]
    animals = [one for one in standing if one.status in PUBLIC_STATES and one.code]
    return render_template(
        "card/tank.html", code=normalise(code), place=place, water=water, animals=animals, staff_url=staff_url
    )
