"""What goes straight to the shop and never waits on a phone, each with the reason. Every other form of staff waits."""

_WHO = "who may come in is decided by the shop, at once"
_SETTING = "it is a setting; what was typed is put back into its page"
_PAPER = "what is printed or issued under a number needs the shop's computer"
_PHOTO = "only the shop's computer reads the photo; it waits on the phone and is confirmed by a person"
_READ = "nothing is recorded by it; three characters find a tag without signal"

#: Blueprint or endpoint -> why its forms do not wait.
STRAIGHT: dict[str, str] = {
    "people": _WHO,
    "devices": _WHO,
    "setup": _SETTING,
    "thresholds": _SETTING,
    "profiles": _SETTING,
    "tags": _PAPER,
    "sheets_editor": _PAPER,
    "sheet": _PAPER,
    "sheet_several": _PAPER,
    "rack_photos.photo": _PHOTO,
    "measuring.begin": _PHOTO,
    "measuring.tap": _PHOTO,
    "scan": _READ,
    "scanning": _READ,
    "till.add": "the phone keeps the till's list itself and tells the shop later",
    "till.drop": "the phone keeps the till's list itself and tells the shop later",
    "outbox": "it is the door that what waits comes through",
    "fit_api": "nothing is recorded by it",
}


def reads_only(endpoint: str) -> bool:
    """Whether the page that answers this form is only what was read, which no address opens again."""
    return straight_because(endpoint) in (_PHOTO, _READ)


def straight_because(endpoint: str) -> str:
    """Why the form of this endpoint does not wait; '' for one that does."""
    return STRAIGHT.get(endpoint) or STRAIGHT.get(endpoint.partition(".")[0], "")
