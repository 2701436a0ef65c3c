"""A rule's conditions as sentences: what is asked, and how far it is."""

from collections.abc import Mapping
from typing import Any

from webapp.words.language import Translate, later, say
from webapp.words.looks import TROUBLE

MET = {True: later("yes"), False: later("not yet"), None: later("nobody looked yet")}

_ASKED = {
    "nothing_wrong": later("Nothing ails it"),
    "edge_closed": later("The cut has closed"),
    "days_since_cut": later("%(days).0f days since the cut, %(needed)d needed to hold on by itself"),
    "holds": later("It holds when gently moved"),
    "opens": later("Fully open on %(days)d of the last %(of).0f days, %(needed).0f needed"),
    "clean": later("Looks without a pest, %(gap).0f days apart: %(count)d of %(needed).0f"),
    "ate": later("It has eaten"),
    "new_tissue": later("New tissue on the plug, %(needed)g mm needed"),
    "large_size_mm": later("At least %(needed)g mm across"),
    "large_heads": later("At least %(needed).0f heads or polyps"),
    "days_in": later("%(days).0f days in quarantine, %(needed).0f needed"),
    "not_bitten": later("No new bite marks"),
    "open_now": later("Fully open"),
    "rested": later("%(days).0f days since the last cut or its arrival, %(needed).0f needed"),
    "growing": later("It is growing"),
    "after_hatch": later("A clean look after eggs have hatched: %(days).0f days at %(temp).1f °C"),
    "reserve": later("An uncut colony of it stands in another tank"),
}
#: The same after one day.
_ONE_DAY = {
    "days_since_cut": later("1 day since the cut, %(needed)d needed to hold on by itself"),
    "days_in": later("1 day in quarantine, %(needed).0f needed"),
    "rested": later("1 day since the last cut or its arrival, %(needed).0f needed"),
    "after_hatch": later("A clean look after eggs have hatched: 1 day at %(temp).1f °C"),
}
#: What the last look saw, as it stands in a sentence.
SEEN = TROUBLE | {"bleached": later("bleaching")}
CAUTION = {
    "never_dipped": later("This kind is not dipped: look it over and pick by hand."),
    "bleached": later("It is bleached: do not dip it."),
    "fresh_cut": later("It was cut too lately for a dip: only an iodine rinse of the open cut."),
}


def condition_sentence(code: str, values: Mapping[str, Any], translate: Translate = str) -> str:
    """What the condition asks for, with its numbers; of days the full ones, so that 27.9 never reads as 28."""
    if code == "nothing_wrong" and values.get("trouble"):
        told = later("It is well again; the last look saw %(trouble)s")
        return say(translate, told, trouble=translate(SEEN[values["trouble"]]))
    if code == "large_heads" and values["needed"] == 1:
        return translate(later("At least one head or polyp"))
    days = {"days": int(values["days"])} if "days" in values else {}
    asked = _ONE_DAY.get(code) if days.get("days") == 1 else None
    return say(translate, asked or _ASKED[code], **{**values, **days})


def met_word(met: bool | None, code: str = "", translate: Translate = str) -> str:
    """Whether it is met. Growth is told from sizes: where it is not known, looking does not help."""
    if met is None and code == "growing":
        return translate(later("not known: measure it"))
    return translate(MET[met])
