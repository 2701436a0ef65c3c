"""Names, units and decimals of the factors of a fit check."""

from webapp.fit.profile import BANDED
from webapp.science.units import QUANTITIES
from webapp.words.language import Translate, later

NAMES = {
    "temp": later("Temperature"),
    "salinity": later("Salinity"),
    "alk": later("Alkalinity"),
    "ca": later("Calcium"),
    "mg": later("Magnesium"),
    "ph": later("pH"),
    "no3": later("Nitrate"),
    "po4": later("Phosphate"),
    "ammonia": later("Ammonia"),
    "nitrite": later("Nitrite"),
    "stability": later("Steadiness"),
    "summer": later("Summer heat"),
    "light": later("Light"),
    "par": later("Light"),
    "flow": later("Flow"),
    "tankmates": later("Fish and other animals"),
    "neighbours": later("Corals near it"),
    "chemistry": later("What corals give off"),
    "pumps": later("Pump intakes"),
    "space": later("Room to grow"),
    "age": later("Age of the tank"),
    "feeding": later("Feeding"),
    "volume": later("Volume"),
    "length": later("Length"),
    "width": later("Width"),
    "height": later("Height"),
}
#: The same inside a sentence.
INSIDE = {
    "temp": later("temperature"),
    "salinity": later("salinity"),
    "alk": later("alkalinity"),
    "ca": later("calcium"),
    "mg": later("magnesium"),
    "ph": later("pH"),
    "no3": later("nitrate"),
    "po4": later("phosphate"),
    "ammonia": later("ammonia"),
    "nitrite": later("nitrite"),
    "stability": later("steadiness"),
    "summer": later("summer heat"),
    "light": later("light"),
    "par": later("light"),
    "flow": later("flow"),
    "tankmates": later("its tankmates"),
    "neighbours": later("corals near it"),
    "chemistry": later("what corals give off"),
    "pumps": later("pump intakes"),
    "space": later("room to grow"),
    "age": later("the tank's age"),
    "feeding": later("feeding"),
    "volume": later("volume"),
    "length": later("length"),
    "width": later("width"),
    "height": later("height"),
}
#: The quantity of science.units that a factor, or a question, is measured in.
QUANTITY = {
    "light": "par",
    "flow": "flow_speed",
    "summer": "temp",
    "space": "length",
    "width": "length",
    "height": "length",
}


def quantity_of(factor: str) -> str | None:
    """The quantity of science.units behind a factor; None where it is not measured."""
    quantity = QUANTITY.get(factor, factor)
    return quantity if quantity in QUANTITIES else None


def factor_name(factor: str, translate: Translate = str) -> str:
    """What to call a factor, as a heading."""
    return translate(NAMES[factor])


def factor_inside(factor: str, translate: Translate = str) -> str:
    """What to call a factor inside a sentence."""
    return translate(INSIDE[factor])


def factor_unit(factor: str) -> str:
    """Its canonical unit as written; '' where it has none (pH)."""
    quantity = quantity_of(factor)
    if quantity is None or quantity == "ph":
        return ""
    of = QUANTITIES[quantity]
    return of.units[BANDED.get(factor, of.canonical_unit)].label


def factor_decimals(factor: str) -> int:
    """Decimals that a table shows its ranges with, enough to tell the ranges of different kinds apart."""
    return {"no3": 1, "po4": 2, "ph": 1}.get(factor, _decimals(factor))


def _decimals(factor: str) -> int:
    quantity = quantity_of(factor)
    return 0 if quantity is None else QUANTITIES[quantity].units[QUANTITIES[quantity].canonical_unit].decimals
