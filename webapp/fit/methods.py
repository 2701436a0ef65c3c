"""How far each way of measuring can be off. Half-ranges are in the canonical unit of the quantity (science.units).

They are the usual errors of a careful person with a kit in date, from common practice unless a basis says otherwise; a
maker's better figure holds for one instrument, not for the class. `sees`: the smallest amount it tells from zero.
"""

import math
from dataclasses import dataclass

from webapp.fit.profile import Basis

COMMON = Basis("common_practice")


@dataclass(frozen=True, slots=True)
class Method:
    """half-range = sqrt(absolute^2 + (relative x value)^2). `key` is also the label's code."""

    key: str
    absolute: float
    relative: float = 0.0
    sees: float = 0.0
    basis: Basis = COMMON

    def half_range(self, value: float) -> float:
        """How far a reading of `value` can be off, canonical unit: the error of its way of measuring.

        Equation: sqrt(absolute² + (relative x value)²). Source: common practice; teos10_2010, lewis_1980 for salinity.
        """
        return math.hypot(self.absolute, self.relative * value)


def _basis(note: str) -> Basis:
    return Basis("common_practice", note=note)


_STEP = _basis("0.001 of specific gravity is 1.3 of practical salinity (TEOS-10); half to one graduation")
_CONDUCTIVITY = _basis("1 % of conductivity is 0.39, 1 degree of compensation error 0.79 (PSS-78), in quadrature")

#: The first of each quantity is taken where the buyer did not say.
METHODS: dict[str, tuple[Method, ...]] = {
    "temp": (Method("thermometer", 0.5), Method("digital_probe", 0.3), Method("strip_thermometer", 1.0)),
    "salinity": (
        Method("refractometer", 1.0),
        Method("hydrometer_swing", 2.0, basis=_STEP),
        Method("hydrometer_glass", 0.7, basis=_STEP),
        Method("conductivity_meter", 0.9, basis=_CONDUCTIVITY),
        Method("laboratory", 0.1),
    ),
    "alk": (
        Method("drop_kit", 0.4),
        Method("fine_titration", 0.15),
        Method("colorimeter", 0.3, 0.03),
        Method("laboratory", 0.1),
        Method("strip", 2.0),
    ),
    "ca": (Method("drop_kit", 20.0), Method("colorimeter", 25.0), Method("laboratory", 8.0)),
    "mg": (Method("drop_kit", 50.0), Method("colorimeter", 60.0), Method("laboratory", 20.0)),
    "no3": (
        Method("colour_card", 1.5, 0.3, sees=2.0),
        Method("colorimeter", 0.3, 0.15, sees=0.5),
        Method("low_range_card", 0.3, 0.25, sees=0.25),
        Method("laboratory", 0.05, 0.07, sees=0.1),
        Method("strip", 5.0, 0.5, sees=5.0),
    ),
    "po4": (
        Method("colour_card", 0.04, 0.2, sees=0.05),
        Method("colorimeter", 0.03, 0.05, sees=0.02),
        Method("low_range_colorimeter", 0.015, 0.05, sees=0.01),
        Method("laboratory", 0.006, 0.07, sees=0.005),
    ),
    "ph": (Method("electrode", 0.1), Method("colour_card", 0.25), Method("strip", 0.4)),
    "ammonia": (Method("colour_card", 0.1, 0.25, sees=0.2), Method("colorimeter", 0.05, 0.1, sees=0.05)),
    "nitrite": (Method("colour_card", 0.1, 0.25, sees=0.1), Method("colorimeter", 0.03, 0.1, sees=0.03)),
}


_BY_KEY = {(quantity, method.key): method for quantity, methods in METHODS.items() for method in methods}


def method_for(quantity: str, key: str) -> tuple[Method, bool]:
    """The method, and whether it was assumed because `key` is '' or not a way of measuring `quantity`."""
    found = _BY_KEY.get((quantity, key))
    return (found, False) if found else (METHODS[quantity][0], True)


def finer(quantity: str, than: float, value: float) -> Method | None:
    """The coarsest household method whose half-range at `value` is below `than`; else the finest there is."""
    ranked = sorted(METHODS[quantity], key=lambda method: -method.half_range(value))
    better = [method for method in ranked if method.half_range(value) < than]
    household = [method for method in better if method.key != "laboratory"]
    return (household or better or [None])[0]


def finest_for(quantity: str, value: float) -> Method:
    """The method with the least error at `value`, a laboratory among them."""
    return min(METHODS[quantity], key=lambda method: method.half_range(value))
