"""Who may record what. Owners and staff may record everything; a device at the counter sells, holds and prints."""

from webapp.errors import Refused

#: What is done at a counter: selling, holding, taking back, a note, a picture, a printed label, and undoing these.
COUNTER_KINDS = frozenset(
    {
        "sold", "held", "released", "returned", "noted", "pictured", "printed", "sale_made", "sale_bagged",
        "sale_pictured", "sale_claimed", "claim_settled", "sale_returned",
    }
)  # fmt: skip


def may(role: str, kind: str) -> bool:
    """Whether this role may record this kind."""
    return role != "counter" or kind in COUNTER_KINDS


def check(role: str, kind: str, of_kind: str = "") -> None:
    """Raises Refused when this role may not record this kind. of_kind: what an 'undone' or 'corrected' speaks of."""
    if not may(role, of_kind or kind):
        raise Refused("This is signed in for the counter, which sells and prints. Ask staff to do this.")
