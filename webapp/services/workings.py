"""How every number of an answer was worked out: factor -> functions -> what they do and where that comes from.

The words, equations and sources are those of the functions' own docstrings, so that they cannot say something else.
"""

import inspect
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from webapp.fit import (
    acclimate,
    aims,
    care,
    chemistry,
    doses,
    judge,
    methods,
    neighbours,
    placing,
    schedule,
    settle,
    space,
    spots,
    steadiness,
    tankmates,
    toxins,
    whole,
    zero,
)
from webapp.science import (
    acclimation,
    alkalinity,
    ammonia,
    carbonate,
    dilution,
    dosing,
    flow,
    interval,
    light,
    light_integral,
    light_water,
    lux,
    nutrients,
    ph_scales,
    salinity,
    survival,
    units,
)
from webapp.science.references import REFERENCES
from webapp.services import used_to

_MEASURED = (units.to_canonical, methods.Method.half_range, judge.judge)
_NUTRIENT = (*_MEASURED, nutrients.ion_from_element, nutrients.mg_l_from_umol_l, zero.judge_zero)

#: Factor of a finding, or part of an answer -> the functions behind its numbers, in the order they are used.
FUNCTIONS: dict[str, tuple[Callable[..., Any], ...]] = {
    "reading": _MEASURED,
    "temp": _MEASURED,
    "salinity": (*_MEASURED, salinity.salinity_from_sg, salinity.salinity_from_conductivity,
                 salinity.salinity_from_refractive_index),
    "alk": (*_MEASURED, alkalinity.dkh_from_meq_l, alkalinity.dkh_from_ppm_caco3, alkalinity.dkh_from_umol_kg),
    "ca": _MEASURED,
    "mg": _MEASURED,
    "ph": (*_MEASURED, ph_scales.nbs_from_total, carbonate.ph_shortfall),
    "no3": _NUTRIENT,
    "po4": _NUTRIENT,
    "ammonia": (*_MEASURED, toxins.judge_toxins, ammonia.free_ammonia_mg_l),
    "nitrite": (*_MEASURED, toxins.judge_toxins),
    "stability": (steadiness.judge_stability,),
    "summer": (*_MEASURED, steadiness.judge_summer),
    "light": (light.from_fixture, light.from_meter, light.from_lux, lux.ppfd_from_lux, light.from_words,
              light_water.attenuation_per_m, interval.combine_relative, judge.judge, placing.place),
    "flow": (flow.from_pumps, flow.from_words, flow.from_meter, interval.combine_relative, judge.judge, placing.place),
    "tankmates": (tankmates.judge_tankmates,),
    "neighbours": (neighbours.needed_gap_cm,),
    "chemistry": (chemistry.judge_chemistry,),
    "pumps": (chemistry.judge_pumps,),
    "space": (space.judge_space,),
    "age": (care.judge_age,),
    "feeding": (care.judge_feeding,),
    "whole": (whole.whole, settle.settle_next),
    "spot": (spots.places_in, placing.place),
    "plans": (doses.net_volume_l, aims.aim, schedule.build, dosing.dose_g, dilution.litres_to_swap,
              dilution.after_water_change, dilution.salinity_after_swap, dilution.salinity_after_salt),
    "acclimation": (acclimate.acclimate, acclimation.float_minutes, acclimation.drip_growing,
                    acclimation.drops_per_second, light_integral.daily_light_integral, acclimation.light_steps),
    "used_to": (used_to.quantiles,),
    "own_evidence": (survival.share_alive, used_to.quantiles),
}  # fmt: skip
_KEY = re.compile(r"\b[a-z][a-z0-9]*(?:_[a-z0-9]+)+\b")


@dataclass(frozen=True, slots=True)
class Working:
    """One function: its dotted name, what it does, its equation ('' where it is a rule), its source in words, and the
    keys of the publications among them (science.references)."""

    name: str
    does: str
    equation: str
    source: str
    keys: tuple[str, ...]


@cache
def workings() -> dict[str, tuple[Working, ...]]:
    """Every part of an answer with the functions behind it."""
    return {part: tuple(working_of(one) for one in functions) for part, functions in FUNCTIONS.items()}


def working_of(function: Callable[..., Any]) -> Working:
    """What the docstring of a function says. Raises ValueError where it names no source."""
    text = " ".join((inspect.getdoc(function) or "").split())
    source = _part(text, "Source")
    if not source:
        raise ValueError(f"{function.__qualname__} names no source")
    does = re.split(r"(?<=\.)\s", re.split(r" (?:Range|Equation|Source): ", text)[0], maxsplit=1)[0]
    keys = tuple(dict.fromkeys(key for key in _KEY.findall(source) if key in REFERENCES))
    name = f"{function.__module__.removeprefix('webapp.')}.{function.__qualname__}"
    return Working(name, does, _part(text, "Equation"), source, keys)


def cited() -> dict[str, str]:
    """Key -> full citation of every publication that the workings name, in order of the key."""
    keys = {key for part in workings().values() for working in part for key in working.keys}
    return {key: REFERENCES[key] for key in sorted(keys)}


def _part(text: str, label: str) -> str:
    """What follows `label:` up to the next label or the end."""
    found = re.search(rf"\b{label}: (.*?)(?=(?: (?:Range|Equation|Source|Raises): )|(?: Raises )|$)", text)
    return found[1].strip().rstrip(".") if found else ""
