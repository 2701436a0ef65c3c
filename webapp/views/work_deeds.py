"""What can be done after a scan, by what the specimen is doing now: one tap each, kept as events by the phone."""

from typing import Any

from webapp.schemas.payloads_care import DIPS

Deed = dict[str, Any]


def _deed(key: str, label: str, kind: str, payload: dict[str, Any], states: tuple[str, ...], held: str = "") -> Deed:
    """held: '' in any case, 'yes' only while it is on hold, 'no' only while it is not."""
    return {"key": key, "label": label, "kind": kind, "payload": payload, "states": states, "held": held}


_GROWING = ("healing", "quarantine", "kept")
_HERE = ("healing", "quarantine", "kept", "for_sale", "mother")
#: '$price' in a payload or label stands for the price of the specimen.
AFTER_SCAN: tuple[Deed, ...] = (
    _deed("closed", "Holds on, edges closed", "checked", {"holds": True, "edge_closed": True}, ("healing",)),
    _deed("ready", "Ready: for sale", "status_set", {"status": "for_sale"}, _GROWING),
    _deed("open_edge", "Holds on, edges still open", "checked", {"holds": True, "edge_closed": False}, ("healing",)),
    _deed(
        "glued", "Came loose, glued again", "checked", {"holds": False, "note": "Glued again."}, ("healing",)
    ),
    _deed("sell", "Sell for $price", "sold", {"price_cents": "$price"}, ("for_sale",), "no"),
    _deed("release", "Release the hold", "released", {}, ("for_sale",), "yes"),
    _deed("well", "Open and well", "checked", {"open": True}, _HERE),
    _deed("back", "Came back: into quarantine", "returned", {"status": "quarantine"}, ("sold",)),
    _deed("heal", "Back to healing", "status_set", {"status": "healing"}, ("for_sale",)),
)  # fmt: skip
#: Pages that take it from there: key, label, path below the specimen, states.
ONWARD = (
    ("frag", "Frag it", "/frag", ("mother",)),
    ("move", "Move", "#move", _HERE),
    ("hold", "Hold", "#hold", ("for_sale",)),
    ("price", "Price", "#price", _HERE),
    ("more", "Everything else", "", (*_HERE, "sold", "lost", "merged")),
)
#: Chosen once, then done to every tag that is scanned.
SERIES: tuple[Deed, ...] = (
    _deed("move", "Move here", "moved", {"tank_id": "$tank", "rack_id": "$rack", "slot": "$slot"}, _HERE),
    _deed("seen", "Seen", "seen", {"count": "$series", "tank_id": "$its_tank", "rack_id": "$its_rack"}, _HERE),
    _deed("fed", "Fed, it took food", "checked", {"ate": True}, _HERE),
    _deed("dipped", "Dipped", "dipped", {"dip": "$dip"}, _HERE),
    _deed("ready", "Ready: for sale", "status_set", {"status": "for_sale"}, _GROWING),
)
DIP_NAMES = dict(zip(DIPS, ("Iodine", "Peroxide", "Potassium", "Plant oil", "Fresh water", "Another"), strict=True))
