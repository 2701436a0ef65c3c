"""The present of tanks, racks, readings and tags from their events."""

from collections.abc import Iterable
from typing import Any

from webapp.science.units import to_canonical
from webapp.storage.folding import Happened, standing

Present = dict[str, Any]

_TANK = ("name", "purpose", "volume_l", "length_cm", "width_cm", "height_cm", "light_hours", "note")
_TAG: Present = {"state": "blank", "target_kind": "", "target_id": None, "printed_host": "", "printed_side_mm": None}
_RACK = ("tank_id", "name", "rows", "columns", "depth_cm")


def _set_and_closed(
    events: Iterable[Happened], set_kind: str, closed_kind: str, keys: tuple[str, ...]
) -> Present | None:
    now: Present | None = None
    for event in standing(events):
        if event.kind == set_kind:
            now = (now or {"opened_at": event.occurred_at} | dict.fromkeys(keys)) | {
                key: event.payload[key] for key in keys if key in event.payload
            }
            now["closed_at"] = None
        elif event.kind == closed_kind and now is not None:
            now["closed_at"] = event.occurred_at
    return now


def present_tank(events: Iterable[Happened]) -> Present | None:
    """The columns of `TankRow`; a later `tank_set` changes only what it names and opens a closed tank again."""
    now = _set_and_closed(events, "tank_set", "tank_closed", _TANK)
    return now and now | {"purpose": now["purpose"] or "display", "note": now["note"] or ""}


def present_rack(events: Iterable[Happened]) -> Present | None:
    """The columns of `RackRow`, with its last count."""
    happened = list(events)
    now = _set_and_closed(happened, "rack_set", "rack_closed", _RACK)
    if now is None:
        return None
    counted: Present = {"counted_at": None, "counted_expected": None, "counted_missing": None}
    for event in standing(happened):
        if event.kind == "rack_counted":
            expected, missing = event.payload["expected"], event.payload["missing"]
            counted = {"counted_at": event.occurred_at, "counted_expected": expected, "counted_missing": missing}
    return now | counted


def present_reading(events: Iterable[Happened]) -> Present | None:
    """The columns of `ReadingRow`, the canonical value computed by `science.units`."""
    for event in standing(events):
        if event.kind == "reading":
            given = event.payload
            quantity, unit, typed = given["quantity"], given["unit"], given["value"]
            sample = {"temp_c": given["temp_c"]} if given.get("temp_c") is not None else {}
            return {
                "tank_id": given["tank_id"],
                "rack_id": given.get("rack_id") or "",
                "quantity": quantity,
                "value": to_canonical(quantity, typed, unit, **sample),
                "typed": typed,
                "unit": unit,
                "method": given.get("method") or "",
                "taken_at": event.occurred_at,
            }
    return None


def present_tag(events: Iterable[Happened]) -> Present | None:
    """The columns of `TagRow`. A second binding to something else is a conflict, unless it names what it ends."""
    now: Present | None = None
    for event in standing(events):
        now = now or dict(_TAG) | {"conflicts": []}
        given = event.payload
        if event.kind == "bound":
            target = given["target_id"]
            if given.get("instead_of") == now["target_id"]:
                now["conflicts"] = []
            elif now["state"] == "live" and now["target_id"] != target:
                now["conflicts"].append({"code": "bound_twice", "event_id": event.id, "other_id": now["target_id"]})
            now |= {"state": "live", "target_kind": given["target_kind"], "target_id": target}
        elif event.kind == "unbound":
            now |= {"state": "blank", "target_kind": "", "target_id": None, "conflicts": []}
        elif event.kind == "tag_retired":
            now |= {"state": "retired", "conflicts": []}
        elif event.kind == "printed":
            now |= {"printed_host": given["host"], "printed_side_mm": given.get("side_mm")}
    return now
