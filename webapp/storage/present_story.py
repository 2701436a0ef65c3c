"""What customers may read of a specimen's history, kept ready: cards are asked for all day long."""

import json
from collections.abc import Iterable
from typing import Any

from webapp.storage.folding import Happened, standing

#: What a customer may read. Costs, suppliers, names of staff and staff notes are not on this list.
PUBLIC_KINDS = frozenset({
    "arrived", "born", "cut", "split", "absorbed", "status_set", "measured", "moved", "noted", "returned", "sold",
    "lost", "merged",
})  # fmt: skip
PUBLIC_KEYS = (
    "origin", "method", "size_mm", "heads", "status", "tank_id", "rack_id", "slot", "mother_id", "text",
)  # fmt: skip


def present_story(events: Iterable[Happened]) -> dict[str, Any] | None:
    """`lines`: JSON of [kind, moment (ISO, UTC), values] of everything public that stands, oldest first.

    Places and mothers are ids, whose names may change. None where there is nothing to tell.
    """
    lines = [
        [event.kind, event.occurred_at.isoformat(), _values(event.payload)]
        for event in standing(events)
        if event.kind in PUBLIC_KINDS and (event.kind != "noted" or event.payload.get("public"))
    ]
    return {"lines": json.dumps(lines, ensure_ascii=False, separators=(",", ":"))} if lines else None


def _values(payload: dict[str, Any]) -> dict[str, Any]:
    shown = {key: payload[key] for key in PUBLIC_KEYS if payload.get(key) is not None}
    return shown | ({"pieces": len(payload["pieces"])} if "pieces" in payload else {})
