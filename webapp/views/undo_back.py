"""Where an undo leads: to the page that it was asked on, or to the list when what that page showed is gone with it."""

from collections.abc import Callable
from typing import Any
from urllib.parse import urlsplit

from flask import current_app, url_for
from werkzeug.exceptions import HTTPException
from werkzeug.routing import RequestRedirect

from webapp.errors import NotFound
from webapp.services import pests, places, receiving, selling_after, updating
from webapp.services.profiles import newest_profiles
from webapp.services.thresholds import load_thresholds
from webapp.views.saving import memory, reading, revision


def _shipment(session: Any, shipment_id: str) -> None:
    rules = newest_profiles(session, memory(), revision()), load_thresholds(session)
    receiving.get_shipment(session, *rules, shipment_id)


#: endpoint of a page about one thing -> what finds that thing (it raises NotFound), and the list it stands in
ABOUT_ONE: dict[str, tuple[Callable[..., Any], str]] = {
    "receiving.show": (_shipment, "receiving.index"),
    "pests.show": (pests.get_finding, "pests.index"),
    "tanks.show": (places.get_tank, "tanks.index"),
    "racks.show": (places.get_rack, "tanks.index"),
    "sales.show": (selling_after.get_sale, "sales.index"),
    "specimens.show": (updating.get_row, "stock.staff_list"),
}


def way_back(path: str) -> str:
    """`path`, a page of this app, or the list where the one thing that it is about is not there any more."""
    try:
        endpoint, values = current_app.url_map.bind("").match(urlsplit(path).path)
    except (HTTPException, RequestRedirect):
        return path
    if endpoint not in ABOUT_ONE:
        return path
    find, listed = ABOUT_ONE[endpoint]
    try:
        find(reading(), *values.values())
    except NotFound:
        return url_for(listed)
    return path
