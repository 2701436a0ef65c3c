"""What cutting, looking, dipping and measuring leave in the present of a specimen."""

from typing import Any

from webapp.storage.folding import Happened

#: What a specimen begins with. checks: one dict a look, with its moment as 'at'; dips: [moment, dip, repeat];
#: sizes: [moment, size_mm, heads, area_mm2]. All oldest first.
EMPTY: dict[str, Any] = {
    "cut_at": None, "last_cut_at": None, "looked_at": None, "holds_seen_at": None, "trouble": "", "shipment_id": None,
}  # fmt: skip
LISTS = ("checks", "dips", "sizes")
#: Looks kept in the present; all of them stay in the history.
MOST_CHECKS = 60
BY_ITSELF = "natural_split"
#: sign -> the part of a look that speaks of it, and what it says then.
_SIGNS: dict[str, tuple[str, Any]] = {
    "slime": ("slime", True),
    "bleached": ("colour", "bleached"),
    "pest": ("pest_free", False),
    "bitten": ("bitten", True),
}


def began(now: dict[str, Any], event: Happened) -> None:
    """A frag was cut when it was born, unless it split by itself."""
    if event.kind == "born" and event.payload.get("method") != BY_ITSELF:
        now["cut_at"] = event.occurred_at
    now["shipment_id"] = event.payload.get("shipment_id")
    sized(now, event)


def sized(now: dict[str, Any], event: Happened) -> None:
    """A size or a count, where the event gives one."""
    sizes = [event.payload.get(key) for key in ("size_mm", "heads", "area_mm2")]
    if any(size is not None for size in sizes):
        now["sizes"] = [*now["sizes"], [event.occurred_at.isoformat(), *sizes]]


def cut(now: dict[str, Any], event: Happened) -> None:
    """A mother was cut."""
    now["last_cut_at"] = event.occurred_at


def checked(now: dict[str, Any], event: Happened) -> None:
    """A look; what ails it stands until a look that says otherwise."""
    look = {key: value for key, value in event.payload.items() if value not in (None, "")}
    now["checks"] = [*now["checks"], {"at": event.occurred_at.isoformat()} | look][-MOST_CHECKS:]
    now["trouble"] = _trouble(now["checks"])
    now["looked_at"] = event.occurred_at
    if "holds" in look:
        now["holds_seen_at"] = event.occurred_at if look["holds"] else None


def _trouble(checks: list[dict[str, Any]]) -> str:
    """The first sign of _SIGNS that the last look which speaks of it saw."""
    for sign, (key, bad) in _SIGNS.items():
        last = next((look[key] for look in reversed(checks) if key in look), None)
        if last == bad:
            return sign
    return ""


def dipped(now: dict[str, Any], event: Happened) -> None:
    """A dip."""
    dip = [event.occurred_at.isoformat(), event.payload["dip"], event.payload.get("repeat", False)]
    now["dips"] = [*now["dips"], dip]
