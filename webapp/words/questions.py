"""A value that looks typed in another unit, asked about in a sentence. Codes: fit.codes.QUESTIONS."""

from webapp.fit.findings import Question
from webapp.science.units import QUANTITIES
from webapp.words.factors import NAMES, quantity_of
from webapp.words.language import later
from webapp.words.speaker import Speaker

TEXTS = {
    "other_unit": later(
        "You typed %(typed)s. That is hardly possible in this unit, but usual in another. Which did you mean?"
    ),
    "dropped_zero": later("You typed %(typed)s. Sea water is near 1.025: was a digit left out?"),
    "sg_times_1000": later(
        "You typed %(typed)s: most likely a specific gravity times 1000. Which is printed on your instrument? They "
        "differ by several ppt."
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
    "not_a_number": later("This is not a number we can use. Please type it again."),
    "impossible": later(
        "You typed %(typed)s. That cannot be, in this unit or any other; usual is %(usual)s. Please look again."
    ),
    "impossible_light": later("%(typed)s gives a light that cannot be. Please look again at what you typed of it."),
    "impossible_flow": later("%(typed)s gives a flow that cannot be. Please look again at what you typed of it."),
}
LUX = later("%(number)s lux")


def question_text(question: Question, speaker: Speaker) -> str:
    """The question as a sentence or two, with the value as it was typed. Raises KeyError for an unknown code."""
    code = question.code
    if code == "impossible" and question.quantity in ("light", "flow"):
        code = f"impossible_{question.quantity}"
    values = question.values
    places = {"typed": _typed(question, speaker)}
    for name in ("low_umol", "high_umol", "difference_percent"):
        if name in values:
            places[name] = speaker.number(abs(values[name]))
    for name in ("volume_l", "size_volume_l"):
        if name in values:
            places[name] = speaker.reading("volume", values[name])
    if "usual_low" in values:
        quantity = quantity_of(_asked_of(question))
        places["usual"] = speaker.span(quantity, values["usual_low"], values["usual_high"])
    return speaker.say(TEXTS[code], **places)


def offers_of(question: Question, speaker: Speaker) -> list[tuple[str, str, float]]:
    """(unit key, what the button says, value as typed) of every offer."""
    return [(unit, _offer(question, unit, value, at, speaker), value) for unit, value, at in question.offers]


def name_of(question: Question, speaker: Speaker) -> str:
    """What the question is about."""
    return speaker.translate(NAMES[question.quantity])


def _asked_of(question: Question) -> str:
    return "light" if question.quantity == "par" else question.quantity


def _offer(question: Question, unit: str, value: float, at: float, speaker: Speaker) -> str:
    if unit == "lux":
        return speaker.say(LUX, number=speaker.number(value, 0))
    quantity = quantity_of(_asked_of(question)) or "length"
    canonical = QUANTITIES[quantity].canonical_unit
    label = speaker.translate(QUANTITIES[quantity].units[unit].label)
    typed = speaker.number(value, 4)
    if unit == canonical:
        return speaker.say(later("%(number)s %(unit)s"), number=typed, unit=label)
    plain = speaker.number(at, QUANTITIES[quantity].units[canonical].decimals)
    same = speaker.written(quantity, canonical, plain)
    return speaker.say(later("%(number)s %(unit)s, that is %(same)s"), number=typed, unit=label, same=same)


def _typed(question: Question, speaker: Speaker) -> str:
    number = speaker.number(question.typed, 4)
    quantity = quantity_of(_asked_of(question))
    unit = QUANTITIES[quantity].units.get(question.unit) if quantity else None
    if unit is None:
        return number
    return speaker.say(later("%(number)s %(unit)s"), number=number, unit=speaker.translate(unit.label))
