"""The history in plain words: one sentence for each thing that happened."""

from collections.abc import Mapping
from typing import Any

from webapp.words import terms
from webapp.words.language import Translate, later, say
from webapp.words.looks import dip_sentence, look_sentence


def history_sentence(kind: str, values: Mapping[str, Any], translate: Translate = str) -> str:
    """What happened, for a customer or for staff: the fields a reader may not see are simply not in `values`."""
    if kind in ("arrived", "born"):
        return _began(kind, values, translate)
    if kind == "moved":
        return _moved(values, translate)
    if kind in ("measured", "split", "absorbed"):
        return _sized(kind, values, translate)
    if kind == "sold" and values.get("sale"):
        return say(translate, later("Sold, as number %(sale)s."), sale=values["sale"])
    if kind == "lost" and not values.get("cause"):
        return translate(later("Died."))
    if kind in _WITH_WORD:
        sentence, key, words = _WITH_WORD[kind]
        word = str(values.get(key, ""))
        return say(translate, sentence, word=translate(words.get(word, word)))
    if kind in ("checked", "dipped"):
        return (look_sentence if kind == "checked" else dip_sentence)(values, translate)
    if kind == "noted":
        return str(values["text"])
    if kind == "cut":
        count = int(values["pieces"])
        sentence = later("%(count)d frags were cut from it.") if count != 1 else later("One frag was cut from it.")
        return say(translate, sentence, count=count)
    return say(translate, _PLAIN[kind], **_printable(values)) if kind in _PLAIN else kind.replace("_", " ")


_WITH_WORD = {
    "status_set": (later("Now %(word)s."), "status", terms.STATUS),
    "lost": (later("Died: %(word)s."), "cause", terms.CAUSE),
}
_PLAIN = {
    "sold": later("Sold."),
    "returned": later("Came back to the shop."),
    "merged": later("Joined to another."),
    "named": later("Named %(name)s."),
    "priced": later("Price changed."),
    "pictured": later("Picture taken."),
    "held": later("Put on hold with the word “%(word)s”."),
    "released": later("Hold released."),
    "undone": later("An earlier deed was undone."),
    "corrected": later("An earlier entry was corrected."),
    "bound": later("Tag bound."),
    "unbound": later("Tag freed: it is blank again."),
    "tag_retired": later("Tag retired."),
    "tag_made": later("Tag made, blank."),
    "printed": later("Label printed for %(host)s."),
    "seen": later("Seen in a count."),
    "missing": later("Not seen in a count."),
}


def _printable(values: Mapping[str, Any]) -> dict[str, str]:
    return {key: str(value) for key, value in values.items()}


def _began(kind: str, values: Mapping[str, Any], translate: Translate) -> str:
    place = {"tank": values.get("tank", "")}
    if kind == "arrived":
        origin = translate(terms.ORIGIN.get(str(values.get("origin", "unknown")), ""))
        return say(translate, later("Came to the shop, %(origin)s, and was put into %(tank)s."), origin=origin, **place)
    method = translate(terms.METHOD.get(str(values.get("method", "other")), ""))
    if values.get("mother"):
        sentence = later("Came from %(mother)s, %(method)s, and was put into %(tank)s.")
        return say(translate, sentence, mother=values["mother"], method=method, **place)
    return say(translate, later("Grown here, %(method)s, and was put into %(tank)s."), method=method, **place)


def _moved(values: Mapping[str, Any], translate: Translate) -> str:
    if values.get("rack"):
        sentence = later("Moved to %(tank)s, rack %(rack)s %(slot)s.")
        told = say(translate, sentence, tank=values.get("tank", ""), rack=values["rack"], slot=values.get("slot", ""))
        return told.replace(" .", ".")
    return say(translate, later("Moved to %(tank)s."), tank=values.get("tank", ""))


def _sized(kind: str, values: Mapping[str, Any], translate: Translate) -> str:
    size, heads = values.get("size_mm"), values.get("heads")
    if values.get("area_mm2") is not None:
        return _spread(values, translate)
    if size is not None and heads is None and values.get("error_mm"):
        return say(
            translate, later("%(size)g mm across, give or take %(error)g mm."), size=size, error=values["error_mm"]
        )
    if kind == "split" and size is None and heads is None:
        return translate(later("A piece came off by itself and is a specimen of its own now."))
    if kind == "absorbed" and size is None and heads is None:
        return translate(later("Another one was joined to it."))
    if size is not None and heads is not None:
        return say(translate, later("%(size)g mm across, %(heads)d heads or polyps."), size=size, heads=heads)
    if size is not None:
        return say(translate, later("%(size)g mm across."), size=size)
    return say(translate, later("%(heads)d heads or polyps."), heads=heads)


def _spread(values: Mapping[str, Any], translate: Translate) -> str:
    area, error = values["area_mm2"] / 100, (values.get("area_error_mm2") or 0) / 100
    if values.get("size_mm") is not None:
        sentence = later("%(size)g mm across, covering %(area).1f cm², give or take %(error).1f cm².")
        return say(translate, sentence, size=values["size_mm"], area=area, error=error)
    return say(translate, later("Covers %(area).1f cm², give or take %(error).1f cm²."), area=area, error=error)
