"""The present of what is done to tanks, of pests and of shipments from their events."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from webapp.storage.folding import Happened, standing

Present = dict[str, Any]

TENDING = ("fed", "dosed", "water_changed", "serviced", "tank_noted")
_MOMENTS = ("expected_at", "packed_at", "opened_at")
_LINE: Present = {"alive": None, "dead": None, "specimens": [], "bag": None, "dropped": False}


def present_tending(events: Iterable[Happened]) -> Present | None:
    """The columns of `TendingRow`."""
    for event in standing(events):
        if event.kind in TENDING:
            given = dict(event.payload)
            return {
                "tank_id": given.pop("tank_id"), "rack_id": given.pop("rack_id", None) or "", "kind": event.kind,
                "done_at": event.occurred_at, "deed_id": event.deed_id, "author_name": event.author_name,
                "given": given,
            }  # fmt: skip
    return None


def present_pest(events: Iterable[Happened]) -> Present | None:
    """The columns of `PestRow`. A look that finds it again opens a finding that was cleared."""
    stand = standing(events)
    stand.sort(key=lambda event: event.kind != "pest_found")
    if not stand or stand[0].kind != "pest_found":
        return None
    first = stand[0].payload
    now: Present = {
        "tank_id": first["tank_id"], "specimen_id": first.get("specimen_id"), "pest": first["pest"],
        "found_at": stand[0].occurred_at, "stops_sale": first["stops_sale"], "photo_id": first.get("photo_id"),
        "note": first.get("note") or "", "looks": [], "treatments": [], "cleared_at": None,
    }  # fmt: skip
    for event in stand[1:]:
        _pest_step(now, event)
    return now


def _pest_step(now: Present, event: Happened) -> None:
    given, at = event.payload, event.occurred_at
    if event.kind == "pest_looked":
        now["looks"].append([at.isoformat(), given["clean"], given.get("tank_id") or ""])
        if not given["clean"]:
            now["cleared_at"] = None
    elif event.kind == "pest_back":
        now["looks"].append([at.isoformat(), False, ""])
        now["cleared_at"] = None
    elif event.kind == "pest_treated":
        now["treatments"].append([at.isoformat(), given["treatment"]])
    elif event.kind == "pest_stop":
        now["stops_sale"] = given["stops_sale"]
    elif event.kind == "pest_cleared":
        now["cleared_at"] = at


def present_shipment(events: Iterable[Happened]) -> Present | None:
    """The columns of `ShipmentRow`. What is said of a line before the line itself is kept until the line is known."""
    stand = standing(events)
    first = next((event for event in stand if event.kind == "shipment_set"), None)
    if first is None:
        return None
    now: Present = {
        "supplier": "", "invoice": "", "papers": "", "note": "", "ordered_at": first.occurred_at, "done_at": None,
        "box_temp_c": None, "claim_h": None, "claimed": 0, "claimed_at": None,
    } | dict.fromkeys(_MOMENTS)  # fmt: skip
    lines: dict[str, Present] = {}
    for event in stand:
        given = event.payload
        if event.kind == "shipment_set":
            now |= {key: _moment(given[key]) if key in _MOMENTS else given[key] for key in now.keys() & given.keys()}
        elif event.kind == "dead_claimed":
            now |= {"claimed": now["claimed"] + given["count"], "claimed_at": event.occurred_at}
        elif event.kind == "shipment_done":
            now["done_at"] = event.occurred_at
        elif "line" in given:
            _line_step(lines.setdefault(given["line"], {"line": given["line"]} | _LINE), event)
    now["lines"] = [line for line in lines.values() if "profile_key" in line]
    return now


def _line_step(line: Present, event: Happened) -> None:
    given = {key: value for key, value in event.payload.items() if key != "line"}
    if event.kind == "shipment_line":
        line |= given | {"dropped": False}
    elif event.kind == "line_dropped":
        line["dropped"] = True
    elif event.kind == "bag_measured":
        line["bag"] = given | {"at": event.occurred_at.isoformat()}
    elif event.kind == "line_arrived":
        line["alive"] = (line["alive"] or 0) + given["alive"]
        line["dead"] = (line["dead"] or 0) + given["dead"]
        line["specimens"] = line["specimens"] + given["specimens"]
        line["arrived_at"] = event.occurred_at.isoformat()
        if given.get("photo_id"):
            line["photo_id"] = given["photo_id"]


def _moment(text: str | None) -> datetime | None:
    return datetime.fromisoformat(text) if text else None
