"""What opens behind the tag of a tank or a rack: its water and who lives there; for staff what is out of range too."""

from collections import Counter
from collections.abc import Sequence
from datetime import datetime, timedelta

from flask import Blueprint, render_template, url_for

from webapp.errors import NotFound
from webapp.science.units import QUANTITIES
from webapp.services import cards, places, readings, tank_water
from webapp.tags.codes import normalise
from webapp.views.identity import staff
from webapp.views.saving import memory, now, reading, revision

bp = Blueprint("tank_card", __name__)
SHOWN = ("temp", "salinity", "alk", "ca", "mg", "ph", "no3", "po4")
RUN_DAYS = 120
Outside = tuple[float, float, float, datetime]  # last value, lower and upper limit, since when
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
        "card/tank.html", code=normalise(code), place=place, water=water, animals=animals, staff_url=staff_url,
        tank_id=tank_id, out=_out_of_range(tank_id, standing) if staff() else {}, quantities=QUANTITIES,
        measured=bool(latest),
    )  # fmt: skip


def _out_of_range(tank_id: str, standing: Sequence[places.Standing]) -> dict[str, dict[Outside, list[str]]]:
    """What the last readings are out of range for, of the kinds that stand here: by quantity, those alike together."""
    session, here = reading(), Counter(one.profile_key for one in standing)
    runs = tank_water.runs(session, tank_id, now() - timedelta(days=RUN_DAYS))
    kinds = [one for one in tank_water.kinds_in(session, memory(), revision(), tank_id) if one.key in here]
    found: dict[str, dict[Outside, list[str]]] = {}
    for one in tank_water.out_of_range(kinds, runs):
        alike = (one.value, one.limit_low, one.limit_high, one.since)
        found.setdefault(one.quantity, {}).setdefault(alike, []).append(f"{one.name} ({here[one.profile_key]})")
    return found
