"""Timing of the Acropora-eating flatworm by temperature, for the dates of repeated dips."""

from math import exp, log

from webapp.science.ranges import within

HATCH_DAYS_27, GENERATION_DAYS_27, GENERATION_DAYS_24 = 11.0, 38.0, 64.0
MEASURED_C = (21.0, 30.0)


def slowdown(
    temp_c: float, generation_days_27: float = GENERATION_DAYS_27, generation_days_24: float = GENERATION_DAYS_24
) -> float:
    """How many times longer than at 27 °C development takes at `temp_c` (°C).

    Range: 21 to 30 °C, as in the study; interpolated between 24 and 27 °C, extrapolated beyond them.
    Equation: exp(k (27 - T)), k = ln(G24 / G27) / 3: a constant ratio a degree between the two generation times.
    Source: Barton et al. 2019, Front. Mar. Sci. 6:524, for the times; the exponential between them is our own.
    """
    within("temp_c", temp_c, *MEASURED_C)
    return exp(log(generation_days_24 / generation_days_27) / 3 * (27 - temp_c))


def stretched_days(days_at_27: float, temp_c: float, **generations: float) -> float:
    """Days at `temp_c` (°C) for what takes `days_at_27` at 27 °C; outside 21 to 30 °C the nearer end counts.

    Range: days 0 or more. Equation: days · slowdown. Source: as `slowdown`.
    """
    low, high = MEASURED_C
    return within("days_at_27", days_at_27, 0, 1000) * slowdown(min(max(temp_c, low), high), **generations)
