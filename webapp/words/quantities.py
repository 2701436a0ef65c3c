"""Names of what is measured, for people, and of the units."""

from webapp.science.units import QUANTITIES
from webapp.words.language import Translate, later

NAMES = {
    "temp": later("Temperature"),
    "salinity": later("Salinity"),
    "alk": later("Alkalinity"),
    "ca": later("Calcium"),
    "mg": later("Magnesium"),
    "no3": later("Nitrate"),
    "po4": later("Phosphate"),
    "ph": later("pH"),
    "ammonia": later("Ammonia"),
    "nitrite": later("Nitrite"),
    "volume": later("Volume"),
    "length": later("Length"),
    "par": later("Light (PAR)"),
    "flow_speed": later("Flow"),
    "flow": later("Flow"),
}


def quantity_name(quantity: str, translate: Translate = str) -> str:
    """What to call a quantity."""
    return translate(NAMES.get(quantity, quantity))


def unit_label(quantity: str, unit: str) -> str:
    """A unit as it is written."""
    return QUANTITIES[quantity].units[unit].label
