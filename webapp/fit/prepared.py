"""What does not depend on the animal, computed once for a tank and used for every kind asked about."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from webapp.fit.asking import ask
from webapp.fit.findings import Question
from webapp.fit.lighting import Lighting, lighting_of
from webapp.fit.ph_cause import PhCause, cause_of
from webapp.fit.profile import Profile
from webapp.fit.readings import Readings, read
from webapp.fit.size import Size, size_of
from webapp.fit.spots import Place, places_in
from webapp.fit.streaming import Streaming, streaming_of
from webapp.fit.tank import BuyerTank

NO_KINDS: Mapping[str, Profile] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class PreparedTank:
    """The tank, its readings as ranges, its light and flow by place; `kinds` are the neighbours' profiles.

    memo: what `check` has already judged for a kind and size: the water an animal is used to changes no verdict.
    """

    tank: BuyerTank
    readings: Readings
    size: Size
    lighting: Lighting
    streaming: Streaming
    places: tuple[Place, ...]
    ph_cause: PhCause | None
    questions: tuple[Question, ...]
    asked: frozenset[str] = frozenset()
    given: frozenset[str] = frozenset()
    kinds: Mapping[str, Profile] = field(default_factory=lambda: NO_KINDS)
    memo: dict[tuple[int, float | None], Any] = field(default_factory=dict, compare=False, repr=False)


def prepare(tank: BuyerTank, kinds: Mapping[str, Profile] = NO_KINDS) -> PreparedTank:
    """Readings, size, light, flow and places of `tank`. `kinds`: profiles by key, for the neighbours named."""
    readings = read(tank)
    size, size_questions = size_of(tank)
    lighting = lighting_of(tank.light, size, tank.answers)
    streaming = streaming_of(tank.flow, size)
    hot = tank.summer_high and ask("temp", tank.summer_high, tank.answers, name="summer")
    questions = (
        *readings.questions, *([hot] if hot else []), *size_questions, *lighting.questions, *streaming.questions,
    )  # fmt: skip
    return PreparedTank(
        tank,
        readings,
        size,
        lighting,
        streaming,
        places_in(size, lighting, streaming),
        cause_of(readings),
        questions,
        frozenset(question.quantity for question in questions),
        frozenset(readings.estimates),
        kinds,
    )
