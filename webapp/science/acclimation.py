"""From the bag to the tank: drip, float, and steps of light."""

from dataclasses import dataclass
from math import exp, inf, log

from webapp.science.ranges import above, within

DROPS_PER_ML = 20.0  # common practice; a real drip line gives 15 to 25
FLOAT_TIME_CONSTANT_MIN = 8.0  # half a litre in a bag; 3 to 14 with the stirring on both sides (estimate)
DIM_STEP, DIM_STEP_DAYS = 1.15, 3  # common practice
MOVE_STEP, MOVE_STEP_DAYS = 1.39, 7  # common practice


@dataclass(frozen=True)
class LightStep:
    """From `day` (0 is the first) on, the animal gets `dli_mol` (mol photons per m² and day)."""

    day: int
    dli_mol: float


def drip_growing(start: float, tank: float, rate_ml_min: float, bag_ml: float, minutes: float) -> float:
    """A concentration (or salinity) in a bag that fills up: `rate_ml_min` of tank water for `minutes` into `bag_ml`.

    Range: all 0 or more, bag above 0. Equation: (V0 C0 + q t C) / (V0 + q t). Source: mass balance.
    """
    _not_negative(start=start, tank=tank, rate_ml_min=rate_ml_min, minutes=minutes)
    added = rate_ml_min * minutes
    return (above("bag_ml", bag_ml, 0) * start + added * tank) / (bag_ml + added)


def drip_constant(start: float, tank: float, rate_ml_min: float, tub_ml: float, minutes: float) -> float:
    """A concentration (or salinity) in a tub that overflows at `tub_ml`: `rate_ml_min` of tank water for `minutes`.

    Range: all 0 or more, tub above 0. Equation: C + (C0 - C) exp(-q t / V). Source: mass balance.
    """
    _not_negative(start=start, tank=tank, rate_ml_min=rate_ml_min, minutes=minutes)
    return tank + (start - tank) * exp(-rate_ml_min * minutes / above("tub_ml", tub_ml, 0))


def water_to_add_ml(start: float, tank: float, goal: float, bag_ml: float) -> float:
    """Tank water (mL) to add to `bag_ml` of salinity `start` so that the mix has salinity `goal`.

    Range: all 0 or more, bag above 0; goal between start and tank but not at tank, which no mixing reaches (else
    ValueError naming goal). Equation: A = V (C0 - goal) / (goal - C). Source: mass balance.
    """
    _not_negative(start=start, tank=tank, goal=goal)
    above("bag_ml", bag_ml, 0)
    if goal == start:
        return 0.0
    if not min(start, tank) < goal < max(start, tank):
        raise ValueError(f"goal {goal:g} is not between {start:g} and {tank:g}")
    return bag_ml * (start - goal) / (goal - tank)


def drops_per_second(rate_ml_min: float, drops_per_ml: float = DROPS_PER_ML) -> float:
    """Drops per second of a drip of `rate_ml_min` (mL/min); 6 mL/min are 2 a second.

    Range: rate 0 or more, 10 to 30 drops per mL. Equation: q · drops / 60. Source: common practice (20 drops per mL).
    """
    _not_negative(rate_ml_min=rate_ml_min)
    return rate_ml_min * within("drops_per_ml", drops_per_ml, 10, 30) / 60


def temp_after_floating(
    bag_c: float, tank_c: float, minutes: float, time_constant_min: float = FLOAT_TIME_CONSTANT_MIN
) -> float:
    """Temperature (°C) of a closed bag that floated for `minutes` in a tank of `tank_c` (°C).

    Range: 0 to 45 °C, time constant 1 to 120 min. Equation: T + (T0 - T) exp(-t/τ). Source: Newton's law of cooling.
    """
    _not_negative(minutes=minutes)
    tau = within("time_constant_min", time_constant_min, 1, 120)
    return _temp("tank_c", tank_c) + (_temp("bag_c", bag_c) - tank_c) * exp(-minutes / tau)


def float_minutes(
    bag_c: float, tank_c: float, within_c: float = 0.5, time_constant_min: float = FLOAT_TIME_CONSTANT_MIN
) -> float:
    """Minutes a closed bag must float until it is within `within_c` (°C) of the tank; 0 when it already is.

    Range: 0 to 45 °C, within_c 0.1 to 5 °C, time constant 1 to 120 min. Equation: τ ln(|T0 - T| / within).
    Source: Newton's law of cooling.
    """
    gap = abs(_temp("bag_c", bag_c) - _temp("tank_c", tank_c))
    tau = within("time_constant_min", time_constant_min, 1, 120)
    close = within("within_c", within_c, 0.1, 5)
    return tau * log(gap / close) if gap > close else 0.0


def bag_time_constant_min(
    volume_l: float, wetted_area_m2: float, heat_transfer_w_m2_k: float = 100.0, heat_capacity_kj_l_k: float = 4.09
) -> float:
    """Time constant τ (minutes) of a floating bag from its volume (L) and the area (m²) in contact with the tank.

    Range: all above 0; the heat transfer of still to stirred water is 50 to 200 W/m²/K. Equation: m cp / (U A).
    Source: Newton's law of cooling; cp of sea water 4.00 kJ/kg/K times 1.023 kg/L (teos10_2010).
    """
    area = above("wetted_area_m2", wetted_area_m2, 0) * above("heat_transfer_w_m2_k", heat_transfer_w_m2_k, 0)
    heat = above("volume_l", volume_l, 0) * above("heat_capacity_kj_l_k", heat_capacity_kj_l_k, 0) * 1000
    return heat / area / 60


def light_steps(dli_now: float, dli_goal: float, *, by_moving: bool = False) -> list[LightStep]:
    """Steps from the light an animal is used to (mol/m²/day) to the light of its place.

    Day 0 keeps what it is used to. Up: at most 15 % more every 3 days with a dimmer, at most 39 % more a week by moving
    it; the steps are equal in ratio and the last is the goal. Down: the goal at once. Range: both above 0, at most 100
    mol/m²/day. Equation: n = ceil(ln(goal/now) / ln(step)). Source: common practice; diperna_2018 for the time that
    corals need.
    """
    above("dli_now", within("dli_now", dli_now, 0, 100), 0)
    above("dli_goal", within("dli_goal", dli_goal, 0, 100), 0)
    step, days = (MOVE_STEP, MOVE_STEP_DAYS) if by_moving else (DIM_STEP, DIM_STEP_DAYS)
    if dli_goal <= dli_now:
        return [LightStep(0, dli_goal)]
    count = 1
    while dli_now * step**count < dli_goal * (1 - 1e-9):
        count += 1
    ratio = dli_goal / dli_now
    return [LightStep(i * days, dli_now * ratio ** (i / count)) for i in range(count + 1)]


def _temp(argument: str, temp_c: float) -> float:
    return within(argument, temp_c, 0, 45)


def _not_negative(**values: float) -> None:
    for name, value in values.items():
        if not 0 <= value < inf:
            raise ValueError(f"{name} {value:g} must be 0 or more")
