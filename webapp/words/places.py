"""The values of a note as text: what a value is follows from its name (fit.codes: units are in the names)."""

from collections.abc import Callable, Mapping
from typing import Any

from webapp.fit.findings import Finding, Note
from webapp.words import terms
from webapp.words.choices import METHOD_NAMES
from webapp.words.factors import factor_inside, quantity_of
from webapp.words.language import later
from webapp.words.speaker import Speaker

Format = Callable[[Any, Speaker], str]

VERDICTS = {
    "suits": later("Suits"),
    "close": later("Close"),
    "not_known": later("Not known"),
    "change_first": later("Change first"),
    "not_here": later("Not here"),
}
SALTS = {
    "sodium_bicarbonate": later("sodium bicarbonate"),
    "sodium_carbonate": later("sodium carbonate"),
    "calcium_chloride_dihydrate": later("calcium chloride dihydrate"),
    "magnesium_chloride_hexahydrate": later("magnesium chloride hexahydrate"),
}
_OF_THE_FINDING = frozenset({
    "value", "low", "high", "limit_low", "ideal_low", "ideal_high", "limit_high", "used_to", "used_value",
    "other_value", "assumed_value", "sees", "target",
})  # fmt: skip
_CHANGES = frozenset({"half_range", "difference", "swing", "bears", "per_day"})


def _reading(quantity: str) -> Format:
    return lambda value, speaker: speaker.reading(quantity, value)


def _rough(quantity: str) -> Format:
    return lambda value, speaker: speaker.reading(quantity, value, rough=True)


def _reading_bare(quantity: str) -> Format:
    return lambda value, speaker: speaker.bare(quantity, value)


def _change(quantity: str, at: float) -> Format:
    return lambda value, speaker: speaker.difference(quantity, value, at)


def _number(decimals: int) -> Format:
    return lambda value, speaker: speaker.number(value, decimals)


def _word(words: Mapping[str, str]) -> Format:
    return lambda value, speaker: speaker.translate(words[value])


#: By the whole name; else by the ending.
_BY_NAME: dict[str, Format] = {
    "typed": _number(4),
    "quantity": lambda value, speaker: factor_inside(value, speaker.translate),
    "other": lambda value, speaker: factor_inside(value, speaker.translate),
    "factors": lambda value, speaker: speaker.listed(factor_inside(one, speaker.translate) for one in value),
    "tankmates": lambda value, speaker: "; ".join(map(speaker.tankmate, value)),
    "tankmate": lambda value, speaker: speaker.tankmate(value),
    "neighbour": lambda value, speaker: speaker.kind(value),
    "method": _word(METHOD_NAMES),
    "group": _word(terms.GROUP),
    "salt": _word(SALTS),
    "verdict": _word(VERDICTS),
    "note": lambda value, speaker: speaker.translate(value).rstrip(". "),
    "factor": lambda value, speaker: (
        factor_inside(value, speaker.translate) if isinstance(value, str) else speaker.amount(value)
    ),
    "ph": _reading("ph"),
    "ph_outdoor_air": _reading("ph"),
    "alk_dkh": _reading("alk"),
    "ca_mg_l": _reading("ca"),
    "mg_mg_l": _reading("mg"),
    "nh3_mg_l": _number(3),
    "by_c": _change("temp", 25.0),
    "c_per_day": _change("temp", 25.0),
    "gap_ppt": _change("salinity", 34.0),
    "ppt_per_day": _change("salinity", 34.0),
    "drops_per_s": _number(1),
    "difference_percent": lambda value, speaker: speaker.number(abs(value)),
    "total_g": lambda value, speaker: speaker.amount(value),
    "par": _number(0),
    "par_start": _number(0),
    "par_goal": _number(0),
    "pco2_uatm": lambda value, speaker: speaker.number(round(value, -1)),
    "rate_ml_min": _number(1),
    "minutes": _number(0),
    "add_ml": _number(0),
    "bag_ml": _number(0),
    "hours": _number(0),
    "mol": _number(1),
}
_BY_ENDING: dict[str, Format] = {
    "_c": _reading("temp"),
    "_ppt": _reading("salinity"),
    "_cm": _rough("length"),
    "_cm_s": _reading_bare("flow_speed"),
    "_umol": _number(0),
    "_l": _reading("volume"),
    "_mol": _number(1),
    "_months": _number(1),
    "share": lambda value, speaker: speaker.percent(value),
}


def places_of(note: Note, speaker: Speaker, finding: Finding | None = None) -> dict[str, str]:
    """Every value of the note as text, and the ranges made of two: `ideal`, `limits`, `range`."""
    values = note.values
    factor = str(values["quantity"]) if "quantity" in values else finding.factor if finding else ""
    quantity = quantity_of(factor)
    told = {name: _told(name, value, quantity, speaker, values) for name, value in values.items() if value is not None}
    for name, low, high in (
        ("ideal", "ideal_low", "ideal_high"),
        ("limits", "limit_low", "limit_high"),
        ("range", "low", "high"),
    ):
        if quantity and low in values and high in values:
            told[name] = speaker.span(quantity, max(0.0, values[low]), values[high])
    if "neighbour" in told and values.get("count", 1) > 1:
        several = later("%(name)s (%(count)s of them)")
        told["neighbour"] = speaker.say(several, name=told["neighbour"], count=told["count"])
    return told


def _told(name: str, value: Any, quantity: str | None, speaker: Speaker, values: Mapping[str, Any]) -> str:
    if quantity and name in _OF_THE_FINDING:
        return speaker.reading(quantity, value, rough=name == "target")
    if quantity and name in _CHANGES:
        return speaker.difference(quantity, value, values.get("value") or values.get("used_to") or _USUAL[quantity])
    if name in _BY_NAME:
        return _BY_NAME[name](value, speaker)
    for ending, told in _BY_ENDING.items():
        if name.endswith(ending) and isinstance(value, int | float):
            return told(value, speaker)
    return speaker.number(value, 1) if isinstance(value, int | float) else str(value)


#: Where a change is turned into the unit shown: about the middle of what is usual, canonical units.
_USUAL = {
    "temp": 25.0, "salinity": 34.0, "alk": 8.0, "ca": 420.0, "mg": 1300.0, "no3": 10.0, "po4": 0.1, "ph": 8.1,
    "ammonia": 0.1, "nitrite": 0.1, "par": 150.0, "flow_speed": 10.0, "volume": 200.0, "length": 50.0,
}  # fmt: skip
