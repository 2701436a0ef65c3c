"""The water of the invented tanks over the days: what it is, what is done about it, and what is read of it.

Believable, not modelled: alkalinity is used up and dosed again, salt creeps up until fresh water tops it up, one tank
warms in a hot week, kits scatter and round, nobody reads on holiday and one probe breaks.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from random import Random
from typing import Any

from demo.scenario import DAYS
from webapp.science.units import from_canonical

HOLIDAY = range(44, 51)  # days ago: nobody reads
WARM_WEEK = range(70, 77)  # the hot week of the tank by the window
BROKEN_PROBE = range(24, 34)  # the thermometer of the bright bench

#: (unit, method, step of the instrument in that unit, scatter in that unit)
Instrument = tuple[str, str, float, float]
_USUAL: dict[str, Instrument] = {
    "temp": ("c", "digital_probe", 0.1, 0.08),
    "salinity": ("ppt", "refractometer", 0.5, 0.3),
    "alk": ("dkh", "drop_kit", 0.1, 0.15),
    "ca": ("mg_l", "drop_kit", 5, 7),
    "mg": ("mg_l", "drop_kit", 10, 16),
    "no3": ("mg_l", "colorimeter", 0.1, 0.3),
    "po4": ("mg_l", "low_range_colorimeter", 0.01, 0.008),
    "ph": ("nbs", "electrode", 0.01, 0.03),
}


@dataclass(frozen=True, slots=True)
class Water:
    """What a tank's water tends to, and with what it is read.

    used: alkalinity used up in a day beyond what is dosed, dKH; creep: salt in a day, ppt.
    """

    temp: float
    salinity: float
    alk: float
    no3: float
    po4: float
    ph: float
    used: float
    creep: float
    instruments: dict[str, Instrument]


WATERS = {
    "Long Bay": Water(25.3, 34.8, 8.6, 9, 0.06, 8.15, 0.16, 0.05, {}),
    "Frag Bench": Water(25.4, 34.9, 8.4, 7, 0.05, 8.18, 0.14, 0.06, {"no3": ("mg_l", "low_range_card", 0.5, 0.5)}),
    "Bright Bench": Water(25.6, 35.1, 8.2, 4, 0.035, 8.24, 0.2, 0.05, {
        "salinity": ("ms_cm_25", "conductivity_meter", 0.1, 0.2), "alk": ("dkh", "fine_titration", 0.05, 0.06),
        "po4": ("ppb_p", "low_range_colorimeter", 1, 2),
    }),
    "Dim Shelf": Water(24.9, 34.4, 8.8, 14, 0.09, 8.08, 0.05, 0.07, {
        "salinity": ("sg_25", "refractometer", 0.0005, 0.0002), "alk": ("meq_l", "drop_kit", 0.05, 0.05),
        "no3": ("mg_l", "colour_card", 2.5, 1.5),
    }),
    "Window Garden": Water(25.5, 34.7, 8.5, 11, 0.07, 8.2, 0.12, 0.08, {"temp": ("c", "thermometer", 0.5, 0.15)}),
    "Quarantine": Water(25.0, 34.5, 8.3, 12, 0.08, 8.05, 0.03, 0.06, {
        "salinity": ("sg_20", "hydrometer_glass", 0.0005, 0.0002), "temp": ("f", "thermometer", 0.5, 0.2),
        "alk": ("ppm_caco3", "drop_kit", 5, 4),
    }),
}  # fmt: skip


@dataclass(slots=True)
class _State:
    """The true water on one day, in the units readings are kept in."""

    temp: float
    salinity: float
    alk: float
    ca: float
    mg: float
    no3: float
    po4: float
    ph: float


def readings_of(tank: str, random: Random) -> Iterator[tuple[int, float, list[dict[str, Any]]]]:
    """(days ago, hour, readings) of one tank, oldest first."""
    water = WATERS[tank]
    state = _State(water.temp, water.salinity, water.alk, 428, 1330, water.no3, water.po4, water.ph)
    drift, reserve = 0.0, 0.0
    for days_ago in range(DAYS, -1, -1):
        drift = 0.7 * drift + random.gauss(0, 0.14)
        hot = 2.6 if tank == "Window Garden" and days_ago in WARM_WEEK else 0.0
        state.temp = water.temp + drift + hot + (0.5 * hot if days_ago == WARM_WEEK[3] else 0)
        reserve = _one_day(state, water, reserve, days_ago, random)
        wanted = _wanted(tank, days_ago, random)
        if wanted:
            yield days_ago, random.uniform(9.2, 11.5), [_read(name, state, water, random) for name in wanted]


def _one_day(state: _State, water: Water, reserve: float, days_ago: int, random: Random) -> float:
    """Let a day pass. `reserve`: dKH still to be dosed; what is left of it is returned."""
    state.alk -= water.used * random.uniform(0.6, 1.3)
    state.ca -= water.used * 6
    state.mg -= water.used * 1.2
    if days_ago in HOLIDAY:
        reserve = 0.0
    elif state.alk < water.alk - 0.9 and reserve <= 0:
        reserve = water.alk + 0.3 - state.alk  # somebody notices and doses over the next days
    dose = min(reserve, 0.6)
    state.alk += dose
    state.ca += dose * 7.1  # mg/L Ca for each dKH: 40.08 g of calcium for 2 equivalents
    state.mg += 45 if state.mg < 1265 else 0
    state.ca += 25 if state.ca < 395 else 0
    state.salinity += water.creep * random.uniform(0.3, 1.6)
    if days_ago not in HOLIDAY and (state.salinity > water.salinity + 0.7 or random.random() < 0.12):
        state.salinity = water.salinity + random.uniform(-0.3, 0.1)
    state.no3 += water.no3 * 0.022 * random.uniform(0.2, 1.6)
    state.po4 += water.po4 * 0.02 * random.uniform(0.1, 1.7)
    if days_ago % 14 == 3:  # water change
        state.no3 = max(state.no3 * 0.78, 0.2)
        state.po4 = max(state.po4 * 0.8, 0.005)
    state.ph = water.ph + 0.05 * (state.alk - water.alk) + random.gauss(0, 0.03)
    return reserve - dose


def _wanted(tank: str, days_ago: int, random: Random) -> list[str]:
    """What is read on a day: temperature most days, alkalinity and salinity about three a week, the rest weekly."""
    if days_ago in HOLIDAY:
        return []
    names = []
    if random.random() < 0.86 and not (tank == "Bright Bench" and days_ago in BROKEN_PROBE):
        names.append("temp")
    if days_ago % 7 in (0, 2, 5) and random.random() < 0.88:
        names += ["salinity", "alk"]
    if days_ago % 7 == 2 and random.random() < 0.94:
        names += ["ca", "mg", "no3", "po4", "ph"]
    return names


def _read(name: str, state: _State, water: Water, random: Random) -> dict[str, Any]:
    unit, method, step, scatter = water.instruments.get(name, _USUAL[name])
    shown = from_canonical(name, getattr(state, name), unit) + random.gauss(0, scatter)
    value = round(max(round(shown / step) * step, 0), 4)
    return {"quantity": name, "value": value, "unit": unit, "method": method}
