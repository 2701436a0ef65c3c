"""The light that the buyer described, as a field through the depth of the tank."""

from dataclasses import dataclass

from webapp.fit.asking import answer_for
from webapp.fit.findings import Note, Question
from webapp.fit.size import Size
from webapp.fit.tank import LightSaid, Measured
from webapp.science import light as science
from webapp.science.fixture import Fixture, Footprint
from webapp.science.interval import Interval

LUX_FROM_UMOL = 1200.0
LUX_PER_UMOL = (75.0, 35.0, 12.0)
"""The range of lux in a micromole under lamps of any colour, for showing what a lux number could mean."""
SIZE_GUESSED = 0.3
DEPTH_NOT_SAID_CM = 45.0


@dataclass(frozen=True, slots=True)
class Lighting:
    """`field` is None where nothing usable was said; `notes` say why, or how the figure came about."""

    field: science.LightField | None
    way: str
    notes: tuple[Note, ...] = ()
    widen: float = 0.0
    questions: tuple[Question, ...] = ()

    def at(self, depth_cm: float, place: str) -> Interval | None:
        """Light (umol m-2 s-1) at a depth and place; None without a field."""
        if self.field is None:
            return None
        interval = self.field.at(min(depth_cm, self.field.water_depth_cm), place)
        return interval.widened(self.widen) if self.widen and interval.low > 0 else interval


def lighting_of(said: LightSaid | None, size: Size, answers: frozenset[str]) -> Lighting:
    """The light field of a tank of `size`. What is impossible becomes a question, not an error."""
    if said is None:
        return Lighting(None, "", (Note("light_not_said"),))
    question = _question(said, answers)
    if question:
        return Lighting(None, said.way, (Note("question_open"),), questions=(question,))
    try:
        return _field(said, size)
    except ValueError as error:
        asked = Question("light", "impossible", *_culprit(error, said))
        return Lighting(None, said.way, (Note("question_open"),), questions=(asked,))


def _culprit(error: ValueError, said: LightSaid) -> tuple[float, str]:
    """What was typed, and its name, from an error that begins with the argument's name."""
    name = str(error).split()[0]
    typed = {"watts_each": said.watts}.get(name, getattr(said, name, None))
    return (typed, name) if isinstance(typed, int | float) else (0.0, name)


def _question(said: LightSaid, answers: frozenset[str]) -> Question | None:
    if said.way != "meter" or said.par is None or said.par <= LUX_FROM_UMOL:
        return None
    answer = answer_for("light", Measured(said.par, "umol"))
    if answer in answers and said.par <= 3000:
        return None
    low, mid, high = (said.par / factor for factor in LUX_PER_UMOL)
    values = {"low_umol": low, "high_umol": high}
    if said.par <= 3000:
        values["answer"] = answer
    return Question("light", "par_may_be_lux", said.par, "umol", (("lux", said.par, mid),), values)


def _meter_notes(said: LightSaid) -> tuple[Note, ...]:
    if said.corrected_for_water is not None or not said.par:
        return ()
    return (Note("meter_correction_not_said", {"times": science.IMMERSION[2]}),)


def _lux_notes(said: LightSaid) -> tuple[Note, ...]:
    if said.colour not in ("", "unknown"):
        return ()
    low, _, high = science.LUX_PER_UMOL["unknown"][0]
    return (Note("lux_colour_not_said", {"low_lux": low, "high_lux": high}),)


def _field(said: LightSaid, size: Size) -> Lighting:
    depth = said.depth_cm if said.depth_cm is not None else 0.0
    water = size.depth_cm or max(DEPTH_NOT_SAID_CM, depth)
    estimated = (Note("light_estimated", {"way": said.way}),)
    if said.way == "meter" and said.par is not None:
        field = science.from_meter(
            said.par, min(depth, water), water, corrected_for_water=said.corrected_for_water, hours=said.hours
        )
        return Lighting(field, said.way, _meter_notes(said))
    if said.way == "lux" and said.lux is not None:
        field = science.from_lux(
            said.lux, said.colour or "unknown", min(depth, water), water,
            instrument=said.instrument or None, hours=said.hours,
        )  # fmt: skip
        return Lighting(field, said.way, (*estimated, *_lux_notes(said)))
    if said.way == "words" and said.word:
        return Lighting(science.from_words(said.word, water, hours=said.hours), said.way, estimated)
    if said.way == "fixture" and said.watts is not None:
        if size.length_cm is None or size.width_cm is None or size.depth_cm is None:
            return Lighting(None, said.way, (Note("tank_size_not_said", {"factor": "light"}),))
        fixture = Fixture(
            said.kind or "unknown", said.count, said.watts, hours=said.hours, height_cm=said.height_cm, lid=None
        )
        field = science.from_fixture(fixture, Footprint(size.length_cm, size.width_cm, size.depth_cm))
        return Lighting(field, said.way, estimated, SIZE_GUESSED if size.guessed else 0.0)
    return Lighting(None, said.way, (Note("light_not_said"),))
