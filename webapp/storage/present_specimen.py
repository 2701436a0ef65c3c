"""The present of one specimen from its events: where it is, how it is, and what contradicts itself.

Nothing is refused here. What cannot both be true (sold twice, held by two) is kept and listed in `conflicts`.
"""

from collections.abc import Callable, Iterable
from datetime import datetime
from typing import Any

from webapp.storage import present_looks as looks
from webapp.storage.folding import Happened, standing

Present = dict[str, Any]
GONE = ("sold", "lost", "merged")
CREATING = ("arrived", "born")
#: Where a loss counts when nothing is said of it: by what the specimen was doing.
STAGE_OF = {"quarantine": "quarantine", "healing": "healing"}

_EMPTY: Present = {
    "mother_id": None, "origin": "", "method": "", "supplier": "", "papers": "", "cost_cents": None,
    "tank_id": None, "rack_id": None, "slot": "", "size_mm": None, "heads": None, "price_cents": None,
    "photo_id": None, "hold_word": "", "held_until": None, "ended_at": None, "area_mm2": None, "seen_at": None,
    "missing_since": None, "deposit_cents": None, "sale_number": None, "loss_cause": "", "loss_stage": "",
} | looks.EMPTY  # fmt: skip


def _set_status(now: Present, event: Happened, status: str) -> None:
    now["status"] = status
    now["status_since"] = event.occurred_at
    now["ended_at"] = event.occurred_at if status in GONE else None


def _conflict(now: Present, event: Happened, code: str) -> None:
    now["conflicts"].append({"code": code, "event_id": event.id, "other_id": now["_settled_by"]})


def _leave(now: Present, when: datetime) -> None:
    if now["lived"] and now["lived"][-1][3] is None:
        now["lived"][-1][3] = when.isoformat()


def _settle_in(now: Present, event: Happened) -> None:
    place = event.payload
    tank, rack = place.get("tank_id"), place.get("rack_id")
    if (now["tank_id"], now["rack_id"]) != (tank, rack) or not now["lived"] or now["lived"][-1][3] is not None:
        _leave(now, event.occurred_at)
        if tank:
            now["lived"].append([tank, rack or "", event.occurred_at.isoformat(), None])
    now |= {"tank_id": tank, "rack_id": rack, "slot": place.get("slot") or ""}


def _created(now: Present, event: Happened) -> None:
    if now["status"]:
        _conflict(now, event, "created_twice")
        return
    given = event.payload
    for key in ("mother_id", "method", "supplier", "papers", "cost_cents", "size_mm", "heads", "price_cents"):
        if given.get(key) is not None:
            now[key] = given[key]
    now |= {
        "profile_key": given["profile_key"],
        "name": given["name"],
        "origin": given.get("origin") or ("own" if event.kind == "born" else "unknown"),
        "started_at": event.occurred_at,
    }
    looks.began(now, event)
    _set_status(now, event, given.get("status") or "healing")
    _settle_in(now, event)


def _status_set(now: Present, event: Happened) -> None:
    if now["status"] in GONE:
        _conflict(now, event, f"changed_after_{now['status']}")
        return
    _set_status(now, event, event.payload["status"])


def _ended(status: str) -> Callable[[Present, Happened], None]:
    def apply(now: Present, event: Happened) -> None:
        if now["status"] in GONE:
            _conflict(now, event, f"{status}_after_{now['status']}")
            return
        if status == "sold" and _is_held(now, event) and event.payload.get("hold_word", "") != now["hold_word"]:
            _conflict(now, event, "sold_while_held")
        if status == "sold":
            _sold(now, event)
        if status == "lost":
            now["loss_cause"] = event.payload["cause"]
            now["loss_stage"] = event.payload.get("stage") or STAGE_OF.get(now["status"], "rack")
        _set_status(now, event, status)
        _leave(now, event.occurred_at)
        now |= {"hold_word": "", "held_until": None, "deposit_cents": None, "missing_since": None}
        now["_settled_by"] = event.id

    return apply


def _sold(now: Present, event: Happened) -> None:
    if event.payload.get("price_cents") is not None:
        now["price_cents"] = event.payload["price_cents"]
    now["sale_number"] = event.payload.get("sale")


def _is_held(now: Present, event: Happened) -> bool:
    return now["held_until"] is not None and now["held_until"] > event.occurred_at


def _held(now: Present, event: Happened) -> None:
    if now["status"] in GONE:
        _conflict(now, event, f"held_after_{now['status']}")
        return
    if _is_held(now, event) and now["hold_word"] != event.payload["word"]:
        _conflict(now, event, "held_twice")
        return
    until = datetime.fromisoformat(event.payload["until"])
    now |= {"hold_word": event.payload["word"], "held_until": until, "_settled_by": event.id}
    now["deposit_cents"] = event.payload.get("deposit_cents")


def _released(now: Present, _event: Happened) -> None:
    now |= {"hold_word": "", "held_until": None, "deposit_cents": None}


def _returned(now: Present, event: Happened) -> None:
    if now["status"] not in GONE:
        _conflict(now, event, "returned_while_here")
        return
    _set_status(now, event, event.payload.get("status") or "quarantine")
    now |= {"_settled_by": None, "sale_number": None, "loss_cause": "", "loss_stage": ""}
    if event.payload.get("tank_id"):
        _settle_in(now, event)
    elif now["tank_id"]:
        now["lived"].append([now["tank_id"], now["rack_id"] or "", event.occurred_at.isoformat(), None])


def _measured(now: Present, event: Happened) -> None:
    for key in ("size_mm", "heads", "area_mm2"):
        if event.payload.get(key) is not None:
            now[key] = event.payload[key]
    looks.sized(now, event)


def _cut(now: Present, event: Happened) -> None:
    _measured(now, event)
    looks.cut(now, event)


def _named(now: Present, event: Happened) -> None:
    now["name"] = event.payload["name"]


def _priced(now: Present, event: Happened) -> None:
    now["price_cents"] = event.payload["price_cents"]


def _pictured(now: Present, event: Happened) -> None:
    now["photo_id"] = event.payload["photo_id"]


def _moved(now: Present, event: Happened) -> None:
    if now["status"] in GONE:
        _conflict(now, event, f"moved_after_{now['status']}")
        return
    _settle_in(now, event)
    now["missing_since"] = None


def _seen(now: Present, event: Happened) -> None:
    now |= {"seen_at": event.occurred_at, "missing_since": None}


def _missing(now: Present, event: Happened) -> None:
    if now["status"] not in GONE:
        now["missing_since"] = now["missing_since"] or event.occurred_at


_APPLY: dict[str, Callable[[Present, Happened], None]] = {
    "arrived": _created,
    "born": _created,
    "cut": _cut,
    "split": _measured,
    "absorbed": _measured,
    "measured": _measured,
    "merged": _ended("merged"),
    "sold": _ended("sold"),
    "lost": _ended("lost"),
    "returned": _returned,
    "status_set": _status_set,
    "moved": _moved,
    "seen": _seen,
    "missing": _missing,
    "named": _named,
    "priced": _priced,
    "pictured": _pictured,
    "held": _held,
    "released": _released,
    "checked": looks.checked,
    "dipped": looks.dipped,
}


def present_specimen(events: Iterable[Happened]) -> Present | None:
    """The columns of `SpecimenRow` (less id and code), or None when no creation stands.

    An event dated before the creation (a phone with a slow clock) is applied after it.
    """
    stand = standing(events)
    stand.sort(key=lambda event: event.kind not in CREATING)
    if not stand or stand[0].kind not in CREATING:
        return None
    now: Present = dict(_EMPTY) | {"status": "", "lived": [], "conflicts": [], "_settled_by": None}
    now |= {key: [] for key in looks.LISTS}
    for event in stand:
        if event.kind in _APPLY:
            _APPLY[event.kind](now, event)
    now["last_event_at"] = max(event.occurred_at for event in stand)
    now["open_conflicts"] = len(now["conflicts"])
    del now["_settled_by"]
    return now
