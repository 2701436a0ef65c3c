"""A value that looks typed in another unit, asked about in a sentence. Codes: fit.codes.QUESTIONS."""

from webapp.fit.findings import Question
from webapp.science.units import QUANTITIES
from webapp.words.factors import NAMES, quantity_of
from webapp.words.language import later
from webapp.words.speaker import BEFORE, Speaker

OFFER = later("%(number)s %(unit)s, that is %(same)s")
TEXTS = {
    "other_unit": later(
        "You typed %(typed)s. That is hardly ever seen in this unit, but usual in another. Which did you mean?"
    ),
    "one_other_unit": later(
        "You typed %(typed)s. That is hardly ever seen in this unit, but usual in another. Did you mean %(offer)s?"
    ),
    "dropped_zero": later("You typed %(typed)s. Sea water is near 1.025: was a digit left out?"),
    "sg_times_1000": later(
        "You typed %(typed)s: most likely a specific gravity times 1000. Which is printed on your instrument? They "
        "differ by several grams of salt a litre."
    ),
    "par_may_be_lux": later(
        "You typed %(typed)s. Light this strong is most likely lux, which would be %(low_umol)s to %(high_umol)s "
        "µmol/m²/s by the colour of the lamp. Which is it?"
    ),
    "which_gallon": later("You typed %(typed)s gallons. Which gallons are they?"),
    "volume_against_size": later(
        "You typed %(volume_l)s, but length, width and height make %(size_volume_l)s, which differs by "
        "%(difference_percent)s percent. Which is right?"
    ),
    "volume_against_inches": later(
        "You typed %(volume_l)s, but length, width and height make %(size_volume_l)s. Measured in inches they would "
        "fit: were they?"
    ),
    "volume_against_centimetres": later(
        "You typed %(volume_l)s, but length, width and height make %(size_volume_l)s. Measured in centimetres they "
        "would fit: were they?"
    ),
    "not_a_number": later("This is not a number we can use. Please type it again."),
    "impossible": later(
        "You typed %(typed)s. That cannot be, in this unit or any other; usual is %(usual)s. Please look again."
    ),
    "impossible_light": later(
        "You typed %(typed)s. That cannot be right for this tank. Please look again at what you typed of the light."
    ),
    "impossible_flow": later(
        "You typed %(typed)s. That cannot be right for this tank. Please look again at what you typed of the flow."
    ),
    "light_and_size": later(
        "With what you typed the light cannot be worked out. Please look again at the light and the size of the tank."
    ),
}
#: What was typed of light and flow, by its name in Question.unit.
SAID = {
    "par": later("%(number)s µmol/m²/s"),
    "lux": later("%(number)s lux"),
    "watts_each": later("%(number)s watts"),
    "height_cm": later("%(number)s cm above the water"),
    "depth_cm": later("%(number)s cm below the surface"),
    "hours": later("%(number)s hours of light a day"),
    "count": later("%(number)s lamps"),
    "meter": later("%(number)s cm/s"),
    "pumps": later("%(number)s litres an hour in all"),
}


SIDES = {"in": later("The sides are in inches"), "cm": later("The sides are in centimetres")}


def question_text(question: Question, speaker: Speaker) -> str:
    """The question as a sentence or two, with the value as it was typed. Raises KeyError for an unknown code."""
    code = question.code
    if code == "impossible" and question.quantity in ("light", "flow"):
        sized = question.quantity == "light" and (question.unit not in SAID or not question.typed)
        code = "light_and_size" if sized else f"impossible_{question.quantity}"
    values = question.values
    if code == "volume_against_size" and values.get("sides_may_be"):
        code = {"in": "volume_against_inches", "cm": "volume_against_centimetres"}[values["sides_may_be"]]
    offers = offers_of(question, speaker)
    if code == "other_unit" and len(offers) == 1:
        code = "one_other_unit"
    places = {"typed": _typed(question, speaker)}
    if offers:
        places["offer"] = offers[0][1]
    for name in ("low_umol", "high_umol", "difference_percent"):
        if name in values:
            places[name] = speaker.number(abs(values[name]))
    for name in ("volume_l", "size_volume_l"):
        if name in values:
            places[name] = speaker.reading("volume", values[name])
    if "usual_low" in values:
        quantity = quantity_of(question.quantity)
        places["usual"] = speaker.span(quantity, values["usual_low"], values["usual_high"])
    return speaker.say(TEXTS[code], **places)


def offers_of(question: Question, speaker: Speaker) -> list[tuple[str, str, float]]:
    """(unit key, what the button says, value as typed) of every offer; sides_in and sides_cm are units of the sides."""
    offers = [(unit, _offer(question, unit, value, at, speaker), value) for unit, value, at in question.offers]
    sides = question.values.get("sides_may_be")
    if sides:
        offers.append((f"sides_{sides}", speaker.translate(SIDES[sides]), question.typed))
    return offers


def name_of(question: Question, speaker: Speaker) -> str:
    """What the question is about."""
    return speaker.translate(NAMES[question.quantity])


def _offer(question: Question, unit: str, value: float, at: float, speaker: Speaker) -> str:
    if unit == "lux":
        return speaker.say(SAID["lux"], number=speaker.number(value, 0))
    quantity = quantity_of(question.quantity) or "length"
    canonical = QUANTITIES[quantity].canonical_unit
    label = speaker.translate(QUANTITIES[quantity].units[unit].label)
    typed = speaker.number(value, 4)
    if unit == canonical:
        return speaker.say(later("%(number)s %(unit)s"), number=typed, unit=label)
    plain = speaker.number(at, QUANTITIES[quantity].units[canonical].decimals)
    same = speaker.written(quantity, canonical, plain)
    pattern = later("%(number)s (%(unit)s), that is %(same)s") if unit in BEFORE else OFFER
    return speaker.say(pattern, number=typed, unit=label, same=same)


def _typed(question: Question, speaker: Speaker) -> str:
    number = speaker.number(question.typed, 4)
    quantity = quantity_of(question.quantity)
    unit = QUANTITIES[quantity].units.get(question.unit) if quantity else None
    if question.unit in SAID:
        return speaker.say(SAID[question.unit], number=number)
    if unit is None:
        return number
    return speaker.written(quantity, unit.key, number)
