"""The usual questions at the counter, and their answers as sentences with their numbers."""

from collections.abc import Callable, Mapping
from typing import Any

from webapp.schemas.tankmates import load_tankmates
from webapp.words import terms
from webapp.words.conditions import SEEN
from webapp.words.factors import factor_name
from webapp.words.language import Translate, later, say

QUESTION = {
    "easy": later("Is it easy?"),
    "place": later("Where do I put it?"),
    "light": later("How much light?"),
    "flow": later("How much flow?"),
    "distance": later("How far from others?"),
    "fish": later("Will my fish eat it, or it my fish?"),
    "spread": later("Will it grow over everything?"),
    "feed": later("Do I feed it?"),
    "poison": later("Is it dangerous to me?"),
    "closed": later("Why is it closed or small?"),
    "hold_on": later("How long until it holds on?"),
    "cut_it": later("Can I cut it?"),
    "papers": later("Does it need papers?"),
    "dies": later("What if it dies?"),
    "origin": later("Is it wild or farmed?"),
    "matters": later("Which reading matters most?"),
}
_EASY = {
    1: later("Yes, among the easiest."),
    2: later("Yes, for most tanks."),
    3: later("It asks for a steady tank."),
    4: later("No: for a steady, well-read tank."),
    5: later("No: among the hardest."),
}
_OTHER_FACTORS = {
    "nutrient": later("nitrate or phosphate"), "age": later("how long the tank has run"), "light": later("light"),
    "flow": later("flow"), "feeding": later("how often you feed"),
}  # fmt: skip
Values = Mapping[str, Any]


def answer_sentences(code: str, values: Values, translate: Translate = str) -> list[str]:
    """The answer to one question, a sentence or more."""
    return [one for one in _TOLD[code](values, lambda text, **places: say(translate, text, **places)) if one]


_Say = Callable[..., str]


def _easy(v: Values, tell: _Say) -> list[str]:
    return [tell(_EASY[v["hardiness"]]), tell(later("The tank should have run for %(n)g months."), n=v["months"])]


def _place(v: Values, tell: _Say) -> list[str]:
    here = tell(later("Here it stands in %(here)s."), here=v["here"]) if v["here"] else ""
    return [tell(terms.PLACEMENT.get(v["placement"], v["placement"])), here]


def _band(unit: str) -> Callable[[Values, _Say], list[str]]:
    def told(v: Values, tell: _Say) -> list[str]:
        said = []
        if v["band"]:
            ideal_low, ideal_high, low, high = v["band"]
            told = later("Best %(a)g to %(b)g %(unit)s; it bears %(c)g to %(d)g.")
            said.append(tell(told, a=ideal_low, b=ideal_high, c=low, d=high, unit=unit))
        if v["used"]:
            median, p10, p90 = v["used"]
            alone = later("Here it is used to %(m).0f %(unit)s.")
            spread = later("Here it is used to %(m).0f %(unit)s (%(a).0f to %(b).0f).")
            said.append(tell(alone if round(p10) == round(p90) else spread, m=median, a=p10, b=p90, unit=unit))
        return said or [tell(later("Nothing is known of it here; ask before you answer."))]

    return told


def _distance(v: Values, tell: _Say) -> list[str]:
    said = [tell(later("Keep %(cm)g cm clear around it: so far it reaches."), cm=v["reach_cm"])]
    if v["stung_easily"] >= 2:
        said.append(tell(later("It is easily stung itself: keep strong neighbours further off.")))
    return said


def _fish(v: Values, tell: _Say) -> list[str]:
    def names(groups: list[str]) -> str:
        mates = load_tankmates()
        return "; ".join(tell(mates[key].plain_name) for key in groups if key in mates)

    said = []
    for habit, never, risk in (
        ("nipped", later("Eaten by: %(names)s. Do not keep them together."), later("May nip at it: %(names)s.")),
        ("catches", later("It eats: %(names)s. Do not keep them together."), later("It may catch: %(names)s.")),
    ):
        if names(v[habit]["never"]):
            said.append(tell(never, names=names(v[habit]["never"])))
        if names(v[habit]["risk"]):
            said.append(tell(risk, names=names(v[habit]["risk"])))
    return said or [tell(later("No common fish is known to trouble it, nor it them."))]


def _spread(v: Values, tell: _Say) -> list[str]:
    now = tell(later("It is %(cm)g cm now."), cm=v["size_mm"] / 10) if v["size_mm"] else ""
    return [tell(later("It grows to about %(cm)g cm."), cm=v["adult_cm"]), now]


def _feed(v: Values, tell: _Say) -> list[str]:
    often = tell(later("Feeding days a week it does best with: %(n)g."), n=v["days"]) if v["days"] else ""
    return [_sentence(tell(v["feeding"])), often]


def _poison(v: Values, tell: _Say) -> list[str]:
    said = [_sentence(tell(v["note"]))] if v["note"] else [tell(later("Wash your hands after handling it."))]
    return [*said, tell(later("Feeling ill or hurt: fresh air, a doctor or the poisons line.")) if v["toxic"] else ""]


def _closed(v: Values, tell: _Say) -> list[str]:
    if v["trouble"]:
        return [tell(later("The last look saw %(what)s: do not sell it now."), what=tell(SEEN[v["trouble"]]))]
    said = []
    if v["days_since_cut"] is not None and v["days_since_cut"] < 14:
        said.append(tell(later("It heals: cut %(ago)s ago."), ago=_ago(v["days_since_cut"], tell)))
    elif v["days_here"] < 14:
        said.append(tell(later("It settles in: it came %(ago)s ago."), ago=_ago(v["days_here"], tell)))
    if v["open"]:
        said.append(tell(later("At the last look it was fully open.")))
    normal = later("After a move it may stay shut, small or slimy for up to a week.")
    return [*said, tell(normal), tell(later("Rot, smell or bare skeleton is not normal."))]


def _hold_on(v: Values, tell: _Say) -> list[str]:
    if v["free"]:
        return [tell(later("Never: it lies on the sand."))]
    if not v["by_itself"]:
        return [tell(later("Its skeleton is glued and holds at once; it grows over its plug in %(a)d to %(b)d days."),
                     a=v["low"], b=v["high"])]  # fmt: skip
    seen = tell(later("This one has been seen to hold.")) if v["seen"] else ""
    return [tell(later("Usually %(a)d to %(b)d days."), a=v["low"], b=v["high"]), seen]


def _cut_it(v: Values, tell: _Say) -> list[str]:
    care = later("Gloves, eye protection, keep it wet; local rules win.")
    toxic = later("Not at home: it may hold a strong poison that cutting sets free.")
    return [_sentence(tell(v["methods"])), tell(toxic if v["toxic"] else care)]


def _papers(v: Values, tell: _Say) -> list[str]:
    if v["cites"] == "not listed":
        listed = tell(later("It is not on the lists of CITES."))
    else:
        told = later("It is on appendix %(app)s of CITES: it crosses borders only with papers.")
        listed = tell(told, app=v["cites"])
    return [listed, tell(later("Its papers: %(papers)s."), papers=v["papers"]) if v["papers"] else ""]


def _dies(v: Values, tell: _Say) -> list[str]:
    told = later("Come within %(h)g hours with a photo and a sample of your water. The law here wins over our terms.")
    return [tell(told, h=v["claim_h"])]


def _origin(v: Values, tell: _Say) -> list[str]:
    origin = _sentence(tell(terms.ORIGIN[v["origin"]]))
    if v["mother"] and v["days"] is not None:
        told = later("Cut from %(mother)s %(ago)s ago.")
        return [origin, tell(told, mother=v["mother"], ago=_ago(v["days"], tell))]
    return [origin, tell(later("From %(mother)s."), mother=v["mother"]) if v["mother"] else ""]


def _matters(v: Values, tell: _Say) -> list[str]:
    names = [tell(_OTHER_FACTORS[key]) if key in _OTHER_FACTORS else factor_name(key).lower() for key in v["requires"]]
    told = later("The fit check needs: %(names)s. With the buyer's readings it says which one would settle most.")
    return [tell(told, names=", ".join(names))]


def _ago(days: float, tell: _Say) -> str:
    if days < 1:
        return tell(later("less than a day"))
    return tell(later("1 day")) if days < 2 else tell(later("%(n)d days"), n=int(days))


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


_TOLD: dict[str, Callable[[Values, _Say], list[str]]] = {
    "easy": _easy, "place": _place, "light": _band("µmol"), "flow": _band("cm/s"), "distance": _distance, "fish": _fish,
    "spread": _spread, "feed": _feed, "poison": _poison, "closed": _closed, "hold_on": _hold_on, "cut_it": _cut_it,
    "papers": _papers, "dies": _dies, "origin": _origin, "matters": _matters,
}  # fmt: skip
