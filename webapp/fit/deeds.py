"""One day's deed towards the goals: how much of it is safe today, and the water after it."""

from dataclasses import dataclass
from math import ceil, log

from webapp.fit.doses import (
    DAILY,
    LARGEST_CHANGE,
    SALT_FOR,
    NewWater,
    Water,
    after_dose,
    after_swap,
    litres_for_salinity,
)

STRONG_WATER_PPT = (35.0, 40.0)  # new water to raise salinity: natural strength to what mixes clear (common practice)
STRONGER_BY_PPT = 5.0
SMALLEST_SHARE = 0.005  # less of a water change is not worth a bucket


@dataclass(frozen=True, slots=True)
class Deed:
    """`amount` in `unit` of `action` (plan_codes.ACTIONS) for the quantities `serves`; `after`: the water then."""

    action: str
    amount: float
    unit: str
    after: Water
    serves: tuple[str, ...]


def swap_for_salinity(water: Water, goal: float, volume_l: float, new: NewWater) -> Deed:
    """Fresh water in to lower salinity, stronger water to raise it: an equal part of the way each day."""
    away = goal - water["salinity"]
    today = water["salinity"] + away / _days(away, DAILY["salinity"])
    strength = 0.0 if away < 0 else strong_water_ppt(goal)
    poured = new.at(strength)
    litres = min(litres_for_salinity(water, today, volume_l, strength), largest_share(water, poured) * volume_l)
    action = "fresh_water_swap" if away < 0 else "salt_water_swap"
    return Deed(action, litres, "l", after_swap(water, litres, volume_l, poured), ("salinity",))


def strong_water_ppt(goal: float) -> float:
    """The salinity to mix new water to, in order to raise a tank to `goal`."""
    return min(max(goal + STRONGER_BY_PPT, STRONG_WATER_PPT[0]), STRONG_WATER_PPT[1])


def change_water(
    water: Water, goals: dict[str, float], volume_l: float, new: NewWater, floors: dict[str, float]
) -> Deed | None:
    """A water change that lowers every quantity of `goals`: all of them served by equal changes of a safe share.

    floors: quantities that the new water must not thin out below a value. None where a floor leaves nothing to change.
    """
    poured = new.at(water.get("salinity", 35.0))
    left = min((goal - poured[name]) / (water[name] - poured[name]) for name, goal in goals.items())
    times = ceil(log(left) / log(1 - largest_share(water, poured)) - 1e-9)
    share = 1 - left ** (1 / times)
    for name, floor in floors.items():
        if water[name] > poured[name]:
            share = min(share, (water[name] - floor) / (water[name] - poured[name]))
            if share < SMALLEST_SHARE:
                return None
    litres = share * volume_l
    return Deed("water_change", litres, "l", after_swap(water, litres, volume_l, poured), tuple(goals))


def dose(water: Water, quantity: str, goal: float, volume_l: float) -> Deed:
    """A dose of the salt that raises `quantity`: an equal part of the way each day."""
    away = goal - water[quantity]
    after, grams = after_dose(water, SALT_FOR[quantity], away / _days(away, DAILY[quantity]), volume_l)
    return Deed(SALT_FOR[quantity], grams, "g", after, (quantity,))


def undo_salinity(before: Water, dosed: Deed, volume_l: float, new: NewWater) -> Deed:
    """The little fresh water to swap with a dose (its powder dissolved in it) so that the salinity stays as it was."""
    poured = new.at(0.0)
    litres = litres_for_salinity(dosed.after, before["salinity"], volume_l, 0.0)
    return Deed("fresh_water_swap", litres, "l", after_swap(dosed.after, litres, volume_l, poured), dosed.serves)


def largest_share(water: Water, poured: Water) -> float:
    """The largest share of the water that may be replaced by `poured` in a day, by every daily rate."""
    shares = [LARGEST_CHANGE]
    for name in ("alk", "ca", "mg"):
        if name in water and water[name] != poured[name]:
            shares.append(DAILY[name] / abs(water[name] - poured[name]))
    return min(shares)


def temperature_today(water: Water, goal: float) -> float:
    """The temperature (C) to set today: an equal part of the way each day."""
    away = goal - water["temp"]
    return water["temp"] + away / _days(away, DAILY["temp"])


def _days(away: float, per_day: float) -> int:
    return max(1, ceil(abs(away) / per_day - 1e-9))
