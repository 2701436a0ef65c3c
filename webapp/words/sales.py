"""Words of the till: how things are packed, what is complained of, how it ended."""

from collections.abc import Iterable, Mapping
from typing import Any

from webapp.words import looks
from webapp.words.language import Translate, later, say

CASE = {
    "air": later("double bag, air, dark"),
    "insulated_air": later("insulated box, air"),
    "insulated_oxygen": later("insulated box, oxygen"),
    "freight": later("freight box, oxygen, heat or cold pack"),
}
TROUBLE = {
    "died": later("it died"),
    "unwell": later("it does not do well"),
    "pest": later("a pest came with it"),
    "wrong_one": later("it is not what was agreed"),
    "other": later("something else"),
}
OUTCOME = {
    "credit": later("credit"),
    "refund": later("money back"),
    "replaced": later("another one"),
    "advice": later("advice only"),
    "refused": later("refused"),
}
STAGE = {
    "transit": later("on the way here"),
    "dip": later("in a dip"),
    "quarantine": later("in quarantine"),
    "healing": later("while healing"),
    "rack": later("on the rack"),
    "after_sale": later("after the sale"),
}
_REASON = {
    "too_long": later("Packed so it is safe for %(safe_h)g hours, and the journey takes %(journey_h)g."),
    "longer_than_usual": later("Longer than the usual %(safe_h)g hours: up to %(hardy_h)g with a loss to be expected."),
    "only_hardy": later("Beyond %(hardy_h)g hours only hardy kinds travel, and these are not: %(names)s."),
    "insulate": later("%(outside_c)g °C outside: it must stay between %(cold_c)g and %(hot_c)g. Use an insulated box."),
    "keep_box": later("%(outside_c)g °C outside: keep the box at %(cold_c)g to %(hot_c)g °C, never in a parked car."),
}


_STOP = {
    "pest": later("%(name)s shares water with a pest: %(what)s. Its sale is stopped until that is cleared."),
    "trouble": later("%(name)s is not well: the last look saw %(what)s. Take it off sale."),
    "quarantine": later("%(name)s is in quarantine. Release it first."),
}


def stop_sentence(name: str, code: str, what: str, translate: Translate = str) -> str:
    """Why an animal may not be sold now."""
    words = {"pest": looks.PEST, "trouble": looks.TROUBLE}.get(code, {})
    return say(translate, _STOP[code], name=name, what=translate(words.get(what, what)))


def bag_sentence(
    carry: bool, reasons: Iterable[tuple[str, Mapping[str, Any]]], better: str, translate: Translate = str
) -> str:
    """Carry or refuse, why, and what would do."""
    said = [translate(later("Carry it.") if carry else later("Do not send it like this."))]
    said += [say(translate, _REASON[code], **values) for code, values in reasons]
    if better:
        said.append(say(translate, later("It would do in: %(case)s."), case=translate(CASE[better])))
    return " ".join(said)
