"""What a look at a specimen and a dip say, and the words of care, pests and troubles."""

from collections.abc import Mapping
from typing import Any

from webapp.words.language import Translate, later, say

FOOD = {
    "meaty": later("small meaty bits"),
    "fine": later("fine food"),
    "plankton": later("plankton"),
    "pellets": later("pellets"),
    "other": later("other food"),
}
DIP = {
    "iodine": later("iodine dip"),
    "peroxide": later("hydrogen peroxide"),
    "potassium": later("potassium salt dip"),
    "plant_oil": later("plant oil dip"),
    "fresh_water": later("fresh water dip"),
    "other": later("another dip"),
}
COLOUR = {"good": later("good"), "pale": later("pale"), "bleached": later("bleached")}
TROUBLE = {
    "slime": later("brown slime or rot"),
    "bleached": later("bleached"),
    "pest": later("a pest"),
    "bitten": later("new bite marks"),
}
PEST = {
    "acropora_flatworm": later("Acropora flatworm"),
    "red_bugs": later("red bugs on Acropora"),
    "montipora_nudibranch": later("Montipora nudibranch"),
    "goniopora_nudibranch": later("Goniopora nudibranch"),
    "pavona_nudibranch": later("Pavona nudibranch"),
    "zoanthid_nudibranch": later("zoanthid nudibranch"),
    "zoanthid_spider": later("zoanthid sea spider"),
    "sundial_snail": later("sundial snail"),
    "zoanthid_pox": later("pox on zoanthids"),
    "brown_jelly": later("brown jelly"),
    "acoel_flatworm": later("rust-coloured flatworm"),
    "clam_snail": later("pyramid snail on clams"),
    "coral_eating_snail": later("coral-eating snail"),
    "glass_anemone": later("glass anemone"),
    "hydroid": later("hydroids"),
    "vermetid": later("vermetid snail"),
    "algae": later("bubble or turf algae"),
    "other": later("another pest"),
}
#: The parts of a look: what is said when it was so, and when it was not.
_LOOKS: dict[str, tuple[str, str]] = {
    "holds": (later("holds on"), later("loose")),
    "edge_closed": (later("edges closed"), later("edges still open")),
    "open": (later("fully open"), later("not fully open")),
    "ate": (later("ate"), later("did not eat")),
    "pest_free": (later("no pest seen"), later("a pest seen")),
    "bitten": (later("new bite marks"), later("no new bite marks")),
    "slime": (later("brown slime or rot"), later("no slime")),
}


def look_sentence(values: Mapping[str, Any], translate: Translate = str) -> str:
    """One look at a specimen, as its parts in a row."""
    parts = [
        translate(good if values[key] else bad) for key, (good, bad) in _LOOKS.items() if values.get(key) is not None
    ]
    if values.get("colour"):
        parts.append(say(translate, later("colour %(colour)s"), colour=translate(COLOUR[values["colour"]])))
    if values.get("new_tissue_mm") is not None:
        parts.append(say(translate, later("%(mm)g mm of new tissue"), mm=values["new_tissue_mm"]))
    told = say(translate, later("Looked at: %(parts)s."), parts=", ".join(parts) or translate(later("nothing to tell")))
    return f"{told} {values['note']}" if values.get("note") else told


def dip_sentence(values: Mapping[str, Any], translate: Translate = str) -> str:
    """A dip."""
    name = translate(DIP.get(str(values.get("dip")), later("another dip")))
    if values.get("minutes") is not None:
        told = say(translate, later("Dipped: %(dip)s, %(minutes)g min."), dip=name, minutes=values["minutes"])
    else:
        told = say(translate, later("Dipped: %(dip)s."), dip=name)
    if values.get("eggs_seen"):
        told = f"{told} {translate(later('Eggs seen.'))}"
    if values.get("fell_off"):
        told = f"{told} {say(translate, later('Fell off: %(what)s.'), what=values['fell_off'])}"
    return told


def tending_sentence(kind: str, given: Mapping[str, Any], translate: Translate = str) -> str:
    """Something done to a tank."""
    note = f" {given['note']}" if given.get("note") else ""
    if kind == "fed":
        return say(translate, later("Fed: %(food)s."), food=translate(FOOD[given["food"]])) + note
    if kind == "dosed":
        amount = f", {given['amount']:g} {given.get('unit') or 'ml'}" if given.get("amount") is not None else ""
        return say(translate, later("Dosed: %(what)s%(amount)s."), what=given["what"], amount=amount) + note
    if kind == "water_changed":
        return say(translate, later("%(litres)g L of water changed."), litres=given["litres"]) + note
    if kind == "serviced":
        return say(translate, later("Equipment: %(what)s."), what=given["what"]) + note
    return str(given.get("text", ""))
