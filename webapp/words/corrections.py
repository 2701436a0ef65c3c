"""What a correction changed and what an undo took back, for staff: the old value and the new one; how one was fed."""

from collections.abc import Mapping
from typing import Any

from webapp.words import terms
from webapp.words.history import history_sentence
from webapp.words.language import Translate, later, say
from webapp.words.looks import FOOD

_FIELD = {
    "profile_key": later("kind"),
    "name": later("name"),
    "mother": later("mother"),
    "tank": later("tank"),
    "rack": later("rack"),
    "slot": later("slot"),
    "supplier": later("supplier"),
    "papers": later("papers"),
    "cost_cents": later("cost"),
    "price_cents": later("price"),
    "origin": later("origin"),
    "method": later("method"),
    "status": later("state"),
    "cause": later("cause"),
    "size_mm": later("size"),
    "heads": later("heads"),
    "count": later("count"),
    "text": later("note"),
}
RESPONSE = {"ate": later("ate it"), "spat": later("spat it out"), "none": later("took nothing")}
_WORDS: dict[str, Mapping[str, str]] = {
    "origin": terms.ORIGIN,
    "method": terms.METHOD,
    "status": terms.STATUS,
    "cause": terms.CAUSE,
}


def correction_sentence(values: Mapping[str, Any], translate: Translate = str) -> str:
    """Each value that was put right: 'Corrected: name Gold Tip → Gold Rim.' `values`: changed, reason."""
    told = later("%(field)s %(old)s → %(new)s")
    parts = [
        say(translate, told, field=translate(_FIELD.get(key, key.replace("_", " "))), old=_value(key, old, translate),
            new=_value(key, new, translate))
        for key, old, new in values["changed"]
    ]  # fmt: skip
    said = say(translate, later("Corrected: %(parts)s."), parts="; ".join(parts))
    return f"{said} ({values['reason']})" if values.get("reason") else said


def undo_sentence(values: Mapping[str, Any], translate: Translate = str) -> str:
    """What was taken back: 'Undone: Moved to North.' `values`: undid, a pair of kind and values."""
    kind, of_it = values["undid"]
    if "undid" in of_it:
        kind, of_it = of_it["undid"]
        return say(translate, later("Done again: %(what)s"), what=staff_sentence(kind, of_it, translate))
    return say(translate, later("Undone: %(what)s"), what=staff_sentence(kind, of_it, translate))


def staff_sentence(kind: str, values: Mapping[str, Any], translate: Translate = str) -> str:
    """Any line of a history as staff read it."""
    if "changed" in values:
        return correction_sentence(values, translate)
    if "undid" in values:
        return undo_sentence(values, translate)
    if kind == "hand_fed":
        food, response = translate(FOOD[values["food"]]), translate(RESPONSE[values["response"]])
        said = say(translate, later("Fed by hand, %(food)s: it %(response)s."), food=food, response=response)
        return f"{said} {values.get('note') or ''}".strip()
    if kind == "priced":
        return _price_sentence(values, translate)
    return history_sentence(kind, values, translate)


def _price_sentence(values: Mapping[str, Any], translate: Translate) -> str:
    said = say(translate, later("Price now %(price)s."), price=_value("price_cents", values["price_cents"], translate))
    return f"{said} {values.get('reason') or ''}".strip()


def _value(key: str, value: Any, translate: Translate) -> str:
    if value in (None, ""):
        return translate(later("nothing"))
    if key.endswith("_cents"):
        return f"{value / 100:.2f}"
    if key in _WORDS:
        return translate(_WORDS[key].get(value, str(value)))
    if key == "profile_key":
        return str(value).replace("_", " ")
    return f"{value:g}" if isinstance(value, float) else str(value)
