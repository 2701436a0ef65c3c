"""What one deed does to the whole water: a dose, a swap, a water change. Water is a dict of quantity -> value.

Quantities and units are those of fit.profile.BANDED: temp (C), salinity (practical, "ppt"), alk (dKH), ca, mg, no3, po4
(mg/L). Only what is known is in the dict; what is not known is never invented.
"""

from dataclasses import dataclass

from webapp.science.dilution import after_water_change, litres_to_swap, salinity_after_salt, salinity_after_swap
from webapp.science.dosing import SALTS, dose_g

Water = dict[str, float]

#: Share of the stated volume that rock and sand take away (common practice: a tenth to a fifth).
DISPLACED_SHARE = 0.15

#: The most that may change in one day (common practice; slower is always allowed).
DAILY = {"temp": 1.0, "salinity": 1.0, "alk": 0.5, "ca": 20.0, "mg": 50.0}
#: Nothing says how fast nutrients may fall; a fifth of the water at once is the usual most.
LARGEST_CHANGE = 0.20

SALT_FOR = {
    "alk": "sodium_bicarbonate",
    "ca": "calcium_chloride_dihydrate",
    "mg": "magnesium_chloride_hexahydrate",
}
_TEMP_IF_UNKNOWN_C = 25.0  # only density hangs on it: 0.03 % per degree
_MIXED = ("alk", "ca", "mg", "no3", "po4")


@dataclass(frozen=True, slots=True)
class NewWater:
    """New salt water as mixed to salinity 35: alk (dKH), ca, mg, no3, po4 (mg/L). Weaker or stronger scales with it.

    The defaults are usual for salt mixes (common practice); a buyer who has measured theirs should say so.
    """

    alk: float = 8.0
    ca: float = 420.0
    mg: float = 1300.0
    no3: float = 0.0
    po4: float = 0.0

    def at(self, salinity: float) -> Water:
        """Its composition when mixed to `salinity`; 0 is pure water."""
        return {"salinity": salinity, **{name: getattr(self, name) * salinity / 35 for name in _MIXED}}


def net_volume_l(stated_l: float, displaced_share: float = DISPLACED_SHARE) -> float:
    """Litres of water in a tank of `stated_l` litres less what rock and sand displace (share 0 to 0.6).

    Source: common practice (15 %).
    """
    if not stated_l > 0:
        raise ValueError(f"stated_l must be above 0, got {stated_l}")
    if not 0 <= displaced_share <= 0.6:
        raise ValueError(f"displaced_share must be 0..0.6, got {displaced_share}")
    return stated_l * (1 - displaced_share)


def after_swap(water: Water, litres: float, volume_l: float, new: Water) -> Water:
    """The water after `litres` of it were replaced by `new` (NewWater.at), by mass balance; temperature is matched."""
    mixed = {
        name: after_water_change(value, new[name], litres / volume_l) if name in _MIXED else value
        for name, value in water.items()
    }
    if "salinity" in water:
        mixed["salinity"] = salinity_after_swap(volume_l, water["salinity"], litres, new["salinity"], temp_of(water))
    return mixed


def litres_for_salinity(water: Water, goal: float, volume_l: float, new_salinity: float) -> float:
    """Litres to replace by water of `new_salinity` so that the salinity becomes `goal`."""
    return litres_to_swap(volume_l, water["salinity"], goal, new_salinity, temp_of(water))


def after_dose(water: Water, salt: str, rise: float, volume_l: float) -> tuple[Water, float]:
    """The water after `salt` raised its quantity by `rise`, with the salinity it adds, and the grams it takes."""
    quantity = SALTS[salt].quantity
    grams = dose_g(salt, volume_l, rise)
    dosed = {**water, quantity: water[quantity] + rise}
    if "salinity" in water:
        solute_g = grams * SALTS[salt].solute / SALTS[salt].molar_mass  # crystal water adds no salt
        dosed["salinity"] = salinity_after_salt(volume_l, water["salinity"], solute_g, temp_of(water))
    return dosed, grams


def temp_of(water: Water) -> float:
    """Its temperature (C), or an ordinary one where it is not known or out of the equations' range."""
    temp_c = water.get("temp", _TEMP_IF_UNKNOWN_C)
    return temp_c if 5 <= temp_c <= 35 else _TEMP_IF_UNKNOWN_C
