"""From a bag that arrived to the shop's water: how long to float it, and whether to move it, drip it or use a tub."""

from dataclasses import dataclass
from math import ceil, log2

from webapp.fit.acclimate import DRIP_MINUTES, LEAST_FLOAT_MIN
from webapp.science.acclimation import drip_growing, drops_per_second, float_minutes
from webapp.science.ammonia import PH_NBS, SALINITY, TEMP_C, free_ammonia_fraction

#: Water warms or cools no faster than the limit in this many minutes.
RATE_MIN = 15


@dataclass(frozen=True, slots=True)
class BagLimits:
    """The numbers it is decided by: °C, ppt, hours and minutes; match_rate_c: in 15 minutes."""

    cold_c: float = 18.0
    hot_c: float = 31.0
    match_temp_c: float = 1.0
    match_rate_c: float = 2.0
    rinse_gap_ppt: float = 1.0
    short_drip_gap_ppt: float = 3.0
    tub_gap_ppt: float = 5.0
    tub_ppt_per_day: float = 2.5
    long_transit_h: float = 24.0
    long_transit_drip_min: float = 30.0


@dataclass(frozen=True, slots=True)
class Drip:
    """Tank water into the bag: how much in all, how fast, the salinity it ends at. doublings: of its water."""

    add_l: float
    minutes: float
    rate_ml_min: float
    drops_per_s: float
    doublings: int
    end_ppt: float


@dataclass(frozen=True, slots=True)
class BagPlan:
    """way: 'move', 'drip', 'tub' or 'unknown'. flags: 'cold', 'hot', 'long', 'slowly' (floating alone is too quick).

    float_min: minutes to the tank's temperature, 0 when it is close, None when one of the two is not known.
    tub_ppt: the tub's salinity at the end of each day.
    """

    way: str
    float_min: int | None
    gap_ppt: float | None
    drip: Drip | None = None
    tub_ppt: tuple[float, ...] = ()
    flags: tuple[str, ...] = ()


def bag_plan(
    bag_c: float | None,
    bag_ppt: float | None,
    tank_c: float | None,
    tank_ppt: float | None,
    bag_l: float,
    transit_h: float | None,
    limits: BagLimits,
) -> BagPlan:
    """What to do with one bag. bag_l: litres of water in it. Steps, gaps and times are common practice of the trade.

    Floating follows Newton's law of cooling, the drip the mass balance (science.acclimation).
    """
    long = transit_h is not None and transit_h > limits.long_transit_h
    flags = ["long"] if long else []
    if bag_c is not None and not limits.cold_c <= bag_c <= limits.hot_c:
        flags.append("cold" if bag_c < limits.cold_c else "hot")
    minutes, slowly = _float(bag_c, tank_c, limits)
    if slowly:
        flags.append("slowly")
    if bag_ppt is None or tank_ppt is None:
        return BagPlan("unknown", minutes, None, flags=tuple(flags))
    gap = abs(bag_ppt - tank_ppt)
    if gap <= limits.rinse_gap_ppt:
        return BagPlan("move", minutes, gap, flags=tuple(flags))
    if gap > (min(limits.short_drip_gap_ppt, limits.tub_gap_ppt) if long else limits.tub_gap_ppt):
        days = ceil(gap / limits.tub_ppt_per_day - 1e-9)
        steps = tuple(bag_ppt + (tank_ppt - bag_ppt) * day / days for day in range(1, days + 1))
        return BagPlan("tub", minutes, gap, tub_ppt=steps, flags=tuple(flags))
    return BagPlan("drip", minutes, gap, _drip(bag_ppt, tank_ppt, bag_l, long, limits), flags=tuple(flags))


def free_ammonia(ph_nbs: float | None, temp_c: float | None, ppt: float | None) -> float | None:
    """Share (0 to 1) of the total ammonia of a water that is free NH3; None where a value is missing.

    Values outside the range of the equation are taken to its edge: below pH 7 the truth is less than what is told.
    Source: science.ammonia.
    """
    if ph_nbs is None or temp_c is None or ppt is None:
        return None
    given = zip((ph_nbs, temp_c, ppt), (PH_NBS, TEMP_C, SALINITY), strict=True)
    return free_ammonia_fraction(*(min(max(value, low), high) for value, (low, high) in given))


def _float(bag_c: float | None, tank_c: float | None, limits: BagLimits) -> tuple[int | None, bool]:
    """Minutes, in steps of five, and whether the rate asks for more time than floating takes by itself."""
    if bag_c is None or tank_c is None:
        return None, False
    gap = abs(bag_c - tank_c)
    if gap <= limits.match_temp_c:
        return 0, False
    alone = max(LEAST_FLOAT_MIN, float_minutes(bag_c, tank_c, limits.match_temp_c))
    by_rate = RATE_MIN * (gap - limits.match_temp_c) / limits.match_rate_c
    return 5 * ceil(max(alone, by_rate) / 5 - 1e-9), by_rate > alone


def _drip(bag_ppt: float, tank_ppt: float, bag_l: float, long: bool, limits: BagLimits) -> Drip:
    """Doublings until the rest of the gap is close; half is poured away between them, so that nothing overflows."""
    doublings = ceil(log2(abs(bag_ppt - tank_ppt) / limits.rinse_gap_ppt) - 1e-9)
    minutes: float = DRIP_MINUTES[min(doublings, max(DRIP_MINUTES))]
    if long:
        minutes = min(minutes, limits.long_transit_drip_min)
    bag_ml = bag_l * 1000
    rate = doublings * bag_ml / minutes
    end = bag_ppt
    for _ in range(doublings):
        end = drip_growing(end, tank_ppt, rate, bag_ml, minutes / doublings)
    return Drip(doublings * bag_l, minutes, rate, drops_per_second(rate), doublings, end)
