"""The present of one sale from its events."""

from collections.abc import Iterable
from typing import Any

from webapp.storage.folding import Happened, standing

Present = dict[str, Any]


def present_sale(events: Iterable[Happened]) -> Present | None:
    """The columns of `SaleRow`. What is said of a claim before the claim itself is kept until the claim is known."""
    stand = standing(events)
    stand.sort(key=lambda event: event.kind != "sale_made")
    if not stand or stand[0].kind != "sale_made":
        return None
    made = stand[0]
    now: Present = {
        "number": made.payload["number"], "made_at": made.occurred_at, "deed_id": made.deed_id,
        "author_name": made.author_name, "talk": made.payload.get("talk", False), "lines": made.payload["lines"],
        "total_cents": sum(line.get("price_cents") or 0 for line in made.payload["lines"]), "bag": None, "returns": [],
    }  # fmt: skip
    claims: dict[str, Present] = {}
    for event in stand[1:]:
        _step(now, claims, event)
    now["claims"] = [claim for claim in claims.values() if "specimen_id" in claim]
    now["open_claims"] = sum(not claim["outcome"] for claim in now["claims"])
    return now


def _step(now: Present, claims: dict[str, Present], event: Happened) -> None:
    given, at = dict(event.payload), event.occurred_at.isoformat()
    if event.kind == "sale_bagged":
        now["bag"] = given | {"at": at}
    elif event.kind == "sale_returned":
        now["returns"] = [*now["returns"], given | {"at": at}]
    elif event.kind == "sale_claimed":
        claims.setdefault(given["claim"], {"outcome": ""}).update(given | {"at": at})
    elif event.kind == "claim_settled":
        settled = {"outcome": given["outcome"], "amount_cents": given.get("amount_cents"), "settled_at": at}
        claims.setdefault(given["claim"], {}).update(settled | {"settled_note": given.get("note") or ""})
