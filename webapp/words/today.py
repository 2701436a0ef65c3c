"""What needs a hand now, in words: a heading for each rule, and for each thing why it is on the list."""

from collections.abc import Mapping
from typing import Any

from webapp.words import terms
from webapp.words.conditions import SEEN
from webapp.words.language import Translate, later, say
from webapp.words.looks import PEST
from webapp.words.quantities import quantity_name

TITLE = {
    "alarm": later("Water alarm"),
    "off_sale": later("Take off sale"),
    "stop_sale": later("Sale is stopped here"),
    "out": later("Out of range"),
    "dead_claim": later("Claim what arrived dead"),
    "shipment": later("Shipment to receive"),
    "conflict": later("To be settled"),
    "hold_unwell": later("On hold and not well: tell the buyer"),
    "hold_ends": later("Holds that run out"),
    "claims": later("Claims to settle"),
    "posted": later("Arrives by post: ask how it is"),
    "loose_check": later("Does it hold?"),
    "dip": later("Dip again"),
    "pest_look": later("Look for the pest again"),
    "inspect": later("Inspect in quarantine"),
    "ready": later("Ready for sale"),
    "release": later("May leave quarantine"),
    "low_stock": later("Nearly sold out"),
    "may_be_cut": later("Rested: may be cut"),
    "feed": later("Feed"),
    "read_water": later("Read the water"),
    "read_light": later("Read the light"),
    "move_rack": later("Wrong light: move"),
    "measure": later("Measure the mother"),
    "batch_losses": later("A batch dies"),
    "mother_in_question": later("Is this mother worth it?"),
    "month_losses": later("Losses of the month"),
    "missing": later("Not found in a count"),
    "count_gap": later("Count again"),
    "count_racks": later("Count"),
    "count_all": later("Count everything"),
    "price_review": later("Look at the price"),
}
_ALARM = {
    "hot": later("%(value).1f °C: hot. Act now."),
    "warm": later("%(value).1f °C: warm."),
    "cold": later("%(value).1f °C: cold."),
    "ammonia": later("Ammonia %(value).2f mg/L NH3-N: stop sales."),
}
_WHY = {
    "stop_sale": later("A pest that stops sale shares this water."),
    "dead_claim": later("%(dead)d dead and not claimed; %(hours)s left."),
    "hold_ends": later("For “%(word)s”, %(hours)s left."),
    "claims": later("Open for %(hours)s."),
    "posted": later("Should be there by now; claims for another %(hours)s."),
    "loose_check": later("Cut %(hours)s ago; nobody has seen it hold."),
    "dip": later("Dip %(number)d of 3 at %(temp_c).1f °C, due %(days)s ago."),
    "inspect": later("Not looked at for %(days)s."),
    "ready": later("%(days)s since it began; every condition is met."),
    "release": later("%(days)s in quarantine; every condition is met."),
    "may_be_cut": later("%(days)s since the last cut. Take at most %(share_pct).0f %%."),
    "batch_losses": later("%(lost)d of %(pieces)d died: %(pct).0f %%."),
    "mother_in_question": later("%(pct).0f %% of her last %(batches)d batches died."),
    "month_losses": later("%(lost)d died in 30 days: %(pct).1f %% of what stood here."),
    "missing": later("For %(days)s."),
    "price_review": later("%(days)s for sale."),
}
_CUT = {
    "": later("She may be cut now."),
    "rested": later("She rests: not to be cut for another %(days)s."),
    "nothing_wrong": later("Not to be cut: something ails her."),
    "edge_closed": later("Not to be cut: her last cut has not closed."),
    "growing": later("Not to be cut: she is not growing."),
}
_DAYS = {
    "feed": (later("Last fed %(days)s ago."), later("No feeding is noted yet.")),
    "read_water": (later("Last read %(days)s ago."), later("Never read.")),
    "read_light": (later("Last read %(days)s ago."), later("Never read.")),
    "count_racks": (later("Last counted %(days)s ago."), later("Never counted.")),
}


def why(rule: str, values: Mapping[str, Any], translate: Translate = str) -> str:
    """Why a thing is on the list of a rule."""
    values = dict(values) | {key: span(values[key], key, translate) for key in ("days", "hours") if key in values}
    if rule in _DAYS:
        known, never = _DAYS[rule]
        return say(translate, never) if not values["days"] else say(translate, known, **values)
    if rule in _OWN:
        return _OWN[rule](values, translate)
    return say(translate, _WHY[rule], **values)


def span(count: float | None, unit: str, translate: Translate = str) -> str:
    """A whole number of days or hours gone by, hours as days from three days on; '' for none."""
    if count is None:
        return ""
    if unit == "hours" and count >= 72:
        count, unit = count / 24, "days"
    whole = int(count + 1e-9)
    if whole < 1:
        return translate(later("less than a day") if unit == "days" else later("less than an hour"))
    if whole == 1:
        return translate(later("1 day") if unit == "days" else later("1 hour"))
    return say(translate, later("%(n)d days") if unit == "days" else later("%(n)d hours"), n=whole)


def _alarm(values: Mapping[str, Any], translate: Translate) -> str:
    return say(translate, _ALARM[values["code"]], **values)


def _out(values: Mapping[str, Any], translate: Translate) -> str:
    name = quantity_name(values["quantity"])
    told = later("%(name)s %(value).3g for %(days)s; %(kind)s bears %(low).3g to %(high).3g.")
    said = say(translate, told, **(dict(values) | {"name": name}))
    if values["others"]:
        said += " " + say(translate, later("%(others)d more kinds too."), others=values["others"])
    return said


def _trouble(values: Mapping[str, Any], translate: Translate) -> str:
    trouble = translate(SEEN[values["trouble"]])
    if values.get("word"):
        return say(
            translate, later("For “%(word)s”. The last look saw %(trouble)s."), word=values["word"], trouble=trouble
        )
    return say(translate, later("The last look saw %(trouble)s."), trouble=trouble)


def _low_stock(values: Mapping[str, Any], translate: Translate) -> str:
    """Few are left, and whether she may be cut for more: by whole days, rounded up, so that it is never told early."""
    told = later("%(for_sale)d for sale and %(healing)d healing; fewer than %(least)d is low.")
    return say(translate, told, **values) + " " + say(translate, _CUT[values["stop"]], **values)


def _conflict(values: Mapping[str, Any], translate: Translate) -> str:
    sentence = translate(terms.CONFLICT.get(values["conflict"], values["conflict"]))
    return f"{sentence[:1].upper()}{sentence[1:]}."


def _pest(values: Mapping[str, Any], translate: Translate) -> str:
    pest = translate(PEST.get(values["pest"], values["pest"].replace("_", " ")))
    return say(translate, later("%(pest)s, due %(days)s ago."), pest=pest, days=values["days"])


def _shipment(values: Mapping[str, Any], translate: Translate) -> str:
    return translate(later("Opened and not unpacked yet.") if values["opened"] else later("Expected by now."))


def _measure(values: Mapping[str, Any], translate: Translate) -> str:
    never, last = later("Here for %(days)s and never measured."), later("Last measured %(days)s ago.")
    return say(translate, never if values["never"] else last, days=values["days"])


def _gap(values: Mapping[str, Any], translate: Translate) -> str:
    told = later("%(missing)d of %(expected)d were missing: %(pct).1f %%.")
    more = later("Look for drift, theft, a wrong label, a sale that was not noted.")
    return say(translate, told, **values) + (" " + translate(more) if values["investigate"] else "")


def _light(values: Mapping[str, Any], translate: Translate) -> str:
    dark = later("Read %(par).0f: too dark for %(kind)s, which does well at %(low).0f to %(high).0f.")
    bright = later("Read %(par).0f: too bright for %(kind)s, which does well at %(low).0f to %(high).0f.")
    said = say(translate, dark if values["dark"] else bright, **values)
    if values["plugs"] > 1:
        said += " " + say(translate, later("%(plugs)d plugs in all stand in the wrong light."), plugs=values["plugs"])
    return said


def _everything(values: Mapping[str, Any], translate: Translate) -> str:
    one, many = later("1 place was not counted for long."), later("%(places)d places were not counted for long.")
    said = say(translate, one if values["places"] == 1 else many, places=values["places"])
    if not values["days"]:
        return said + " " + translate(later("Some were never counted."))
    return said + " " + say(translate, later("The longest wait is %(days)s."), days=values["days"])


_OWN = {
    "alarm": _alarm, "out": _out, "off_sale": _trouble, "hold_unwell": _trouble, "conflict": _conflict,
    "low_stock": _low_stock,
    "pest_look": _pest, "shipment": _shipment, "measure": _measure, "count_gap": _gap, "move_rack": _light,
    "count_all": _everything,
}  # fmt: skip
