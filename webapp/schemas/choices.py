"""What may be chosen in a tank's JSON: units, ways of measuring, lamps, pumps and words, each from its own table."""

from webapp.fit.asking import FORM_UNKNOWN, FORMS
from webapp.fit.methods import METHODS
from webapp.science import flow, light
from webapp.science.fixture import KINDS
from webapp.science.lux import COLOURS, INSTRUMENT_ERROR
from webapp.science.units import QUANTITIES

READINGS = ("temp", "salinity", "alk", "ca", "mg", "ph", "no3", "po4", "ammonia", "nitrite")
LAMP_KINDS = tuple(KINDS)
LIGHT_WORDS = tuple(light.WORDS)
LUX_COLOURS = COLOURS
INSTRUMENTS = tuple(key for key in INSTRUMENT_ERROR if key)
PUMP_KINDS = tuple(flow.OUTLET_M_S)
FLOW_WORDS = tuple(flow.WORDS)
METHOD_KEYS = {quantity: tuple(method.key for method in methods) for quantity, methods in METHODS.items()}

#: 'gal' and the unsure form are not units but a buyer's honest answer; the check asks about them.
_ASKED_ABOUT = {"volume": ("gal",), **dict.fromkeys(FORMS, (FORM_UNKNOWN,))}
UNIT_KEYS = {name: (*quantity.units, *_ASKED_ABOUT.get(name, ())) for name, quantity in QUANTITIES.items()}
_BY_SPELLING = {
    name: {spelling.lower(): unit.key for unit in quantity.units.values() for spelling in (unit.key, unit.label)}
    for name, quantity in QUANTITIES.items()
}


def unit_key(quantity: str, spelling: str) -> str | None:
    """The unit of `quantity` that is written so (its key or its label, in any case); None where there is none."""
    known = _BY_SPELLING[quantity]
    return known.get(spelling.lower(), spelling if spelling in UNIT_KEYS[quantity] else None)
