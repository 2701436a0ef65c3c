"""The buyer's water readings as intervals in canonical units, or questions where a value must be asked about."""

from collections.abc import Sequence
from dataclasses import dataclass

from webapp.fit.asking import FORM_UNKNOWN, FORMS, ask, canonical, french_twin
from webapp.fit.findings import Note, Question
from webapp.fit.methods import Method, method_for
from webapp.fit.tank import BuyerTank, Measured
from webapp.science.interval import Interval
from webapp.science.units import QUANTITIES

#: Temperature and salinity first: other conversions need them.
QUANTITY_ORDER = ("temp", "salinity", "alk", "ca", "mg", "ph", "no3", "po4", "ammonia", "nitrite")
HYDROMETERS = frozenset({"hydrometer_swing", "hydrometer_glass"})
COMPENSATED_FROM_PPT = 38.0


@dataclass(frozen=True, slots=True)
class Estimate:
    """One reading as a range in the canonical unit, how it was measured, and what must be said beside it.

    The range is even about the reading, also where that takes it below zero: judged so, shown cut off (`shown`).
    """

    interval: Interval
    method: Method
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True, slots=True)
class Readings:
    """Estimates by quantity (in the order typed), and the questions. A quantity with a question is not judged."""

    estimates: dict[str, tuple[Estimate, ...]]
    questions: tuple[Question, ...]

    def middle(self, quantity: str) -> float | None:
        """Mean of the best estimates of `quantity`, canonical unit; None without one."""
        found = self.estimates.get(quantity)
        return _mean(found) if found else None


def _mean(estimates: Sequence[Estimate]) -> float:
    return sum(estimate.interval.mid for estimate in estimates) / len(estimates)


def read(tank: BuyerTank) -> Readings:
    """All water readings of `tank`. Quantities that science.units does not know are ignored."""
    estimates: dict[str, tuple[Estimate, ...]] = {}
    questions: list[Question] = []
    temp_c: float | None = None
    salinity_ppt = 35.0
    for quantity in QUANTITY_ORDER:
        asked: list[Question] = []
        found: list[Estimate] = []
        for measured in tank.readings.get(quantity, ()):
            sample_c = _sample_temp(quantity, measured, temp_c)
            question = ask(quantity, measured, tank.answers, temp_c=sample_c, salinity_ppt=salinity_ppt)
            if question:
                asked.append(question)
            else:
                found.extend(_estimates(quantity, measured, sample_c, salinity_ppt))
        questions.extend(asked)
        if found and not asked:
            estimates[quantity] = tuple(found)
            if quantity == "temp":
                temp_c = _mean(found)
            elif quantity == "salinity":
                salinity_ppt = _mean(found)
    return Readings(estimates, tuple(questions))


def estimate(quantity: str, measured: Measured) -> Estimate | None:
    """One reading outside the usual list (a summer high) as a range; None where it cannot be converted."""
    at = canonical(quantity, measured.value, measured.unit, None, 35.0)
    return None if at is None else _around(quantity, at, measured, ())


def _sample_temp(quantity: str, measured: Measured, temp_c: float | None) -> float | None:
    """The sample's temperature where the unit needs it: a hydrometer floats in the tank, optics correct themselves."""
    if quantity != "salinity":
        return temp_c
    if measured.unit == "ms_cm" or (measured.unit.startswith("sg_") and measured.method in HYDROMETERS):
        return temp_c
    return None


def _estimates(quantity: str, measured: Measured, temp_c: float | None, salinity_ppt: float) -> list[Estimate]:
    if measured.unit == FORM_UNKNOWN:
        return [
            _around(quantity, at, measured, (Note("form_unknown", {"typed": measured.value, "assumed_value": at}),))
            for unit in FORMS[quantity]
            if (at := canonical(quantity, measured.value, unit, temp_c, salinity_ppt)) is not None
        ]
    at = canonical(quantity, measured.value, measured.unit, temp_c, salinity_ppt)
    return [] if at is None else [_around(quantity, at, measured, _remarks(quantity, measured, at, temp_c))]


def _around(quantity: str, at: float, measured: Measured, notes: tuple[Note, ...]) -> Estimate:
    method, assumed = method_for(quantity, measured.method)
    half = method.half_range(at)
    if assumed:
        notes = (*notes, Note("method_assumed", {"method": method.key, "half_range": half}))
    return Estimate(Interval(at - half, at, at + half), method, notes)


def _remarks(quantity: str, measured: Measured, at: float, temp_c: float | None) -> tuple[Note, ...]:
    twin = french_twin(quantity, measured)
    if twin is not None:
        return (Note("maybe_french_degrees", {"typed": measured.value, "other_value": twin}),)
    if quantity == "salinity":
        if measured.method == "hydrometer_glass" and measured.unit in ("sg_25", "sg_20"):
            other = canonical("salinity", measured.value, "sg_60f", temp_c, 35.0)
            if other is not None:
                return (Note("hydrometer_check_stem", {"typed": measured.value, "value": at, "other_value": other}),)
        if measured.unit == "ppt" and at > COMPENSATED_FROM_PPT and measured.method in ("", "conductivity_meter"):
            return (Note("conductivity_may_be_uncompensated", {"value": at}),)
    return ()


def unit_of(quantity: str) -> str:
    """The canonical unit of `quantity`."""
    return QUANTITIES[quantity].canonical_unit
