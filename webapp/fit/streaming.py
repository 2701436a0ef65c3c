"""The flow that the buyer described, as speeds at places in the tank."""

from dataclasses import dataclass

from webapp.fit.findings import Note, Question
from webapp.fit.size import Size
from webapp.fit.tank import FlowSaid
from webapp.science import flow as science
from webapp.science.fixture import Footprint
from webapp.science.interval import Interval

POSSIBLE_CM_S = 100.0
POSSIBLE_TURNOVER_PER_H = 200.0
"""Above this the pumps' figures are asked about: litres in a gallons box, or a number with a digit too many."""


@dataclass(frozen=True, slots=True)
class Streaming:
    """`field` is None where nothing usable was said; `notes` say why."""

    field: science.FlowField | None
    way: str
    notes: tuple[Note, ...] = ()
    questions: tuple[Question, ...] = ()

    def at(self, depth_fraction: float, spot: str) -> Interval | None:
        """Speed (cm/s) at a depth (0 surface, 1 bottom) and kind of spot; None without a field."""
        return None if self.field is None else self.field.at(depth_fraction, spot)


def streaming_of(said: FlowSaid | None, size: Size) -> Streaming:
    """The flow field of a tank of `size`. What is impossible becomes a question, not an error."""
    if said is None:
        return Streaming(None, "", (Note("flow_not_said"),))
    try:
        return _field(said, size)
    except ValueError:
        value = said.speed_cm_s if said.speed_cm_s is not None else sum(pump.rated_l_h for pump in said.pumps)
        return _asked(said.way, value)


def _asked(way: str, value: float) -> Streaming:
    return Streaming(None, way, (Note("question_open"),), (Question("flow", "impossible", value, way),))


def _field(said: FlowSaid, size: Size) -> Streaming:
    if said.way == "words" and said.word:
        return Streaming(science.from_words(said.word), said.way)
    if said.way == "meter" and said.speed_cm_s is not None:
        if said.speed_cm_s > POSSIBLE_CM_S:
            return _asked(said.way, said.speed_cm_s)
        return Streaming(science.from_meter(max(said.speed_cm_s, 0.05)), said.way)
    if said.way == "pumps" and said.pumps:
        if size.volume_l is None:
            return Streaming(None, said.way, (Note("tank_size_not_said", {"factor": "flow"}),))
        pumps = [science.Pump(pump.rated_l_h, pump.kind, pump.count) for pump in said.pumps]
        footprint = None
        if not size.guessed and size.length_cm and size.width_cm and size.depth_cm:
            footprint = Footprint(size.length_cm, size.width_cm, size.depth_cm)
        field = science.from_pumps(pumps, footprint=footprint, volume_l=size.volume_l)
        if field.turnover_per_h and field.turnover_per_h.mid > POSSIBLE_TURNOVER_PER_H:
            return _asked(said.way, sum(pump.rated_l_h * pump.count for pump in said.pumps))
        return Streaming(field, said.way)
    return Streaming(None, said.way, (Note("flow_not_said"),))
