"""Heat stress, after the method that satellites watch reefs with.

On a reef the baseline is the maximum monthly mean (MMM) of a climatology. A tank has none: we take the warmest monthly
mean of its own past year. That step is our own judgement, not published; whoever shows the number has to say so.
"""

from collections.abc import Sequence

from webapp.science.ranges import within

THRESHOLD_C = 1.0
WINDOW_DAYS = 84


def hotspot_c(temp_c: float, warmest_month_c: float) -> float:
    """How far (°C) a daily mean is above the warmest monthly mean; 0 below it.

    Range: 0 to 45 °C. Equation: max(0, T - MMM). Source: skirving_2020.
    """
    return max(0.0, within("temp_c", temp_c, 0, 45) - within("warmest_month_c", warmest_month_c, 0, 45))


def degree_heating_weeks(daily_temps_c: Sequence[float], warmest_month_c: float) -> float:
    """Heat stress in °C-weeks over the last 84 of the daily mean temperatures (°C, oldest first).

    Range: 0 to 45 °C; fewer than 84 days give the stress of those days. Equation: sum of hotspots of 1 °C and more,
    over 7. Source: skirving_2020.
    """
    # A ten-thousandth of a degree of grace: 28.1 - 27.1 is a hair below 1 in binary.
    spots = [hotspot_c(temp, warmest_month_c) for temp in daily_temps_c[-WINDOW_DAYS:]]
    return sum(spot for spot in spots if spot >= THRESHOLD_C - 1e-4) / 7


def stress_level(hotspot: float, heating_weeks: float) -> str:
    """'none', 'watch', 'warning' (bleaching possible), 'alert_1' (likely) or 'alert_2' (severe, deaths likely).

    hotspot in °C, heating_weeks in °C-weeks, both 0 or more. Equation: hotspot 0: none; below 1 °C: watch; else by
    4 and 8 °C-weeks. Source: skirving_2020.
    """
    within("hotspot", hotspot, 0, 45)
    within("heating_weeks", heating_weeks, 0, 1000)
    if hotspot == 0:
        return "none"
    if hotspot < THRESHOLD_C - 1e-4:
        return "watch"
    if heating_weeks < 4:
        return "warning"
    return "alert_1" if heating_weeks < 8 else "alert_2"


def warmest_month_c(monthly_means_c: Sequence[float]) -> float:
    """The baseline of a tank: the highest of its monthly mean temperatures (°C) of the past year.

    Range: 1 to 12 months of 0 to 45 °C; with few months it is a weak baseline. Equation: maximum. Source: our own
    stand-in for the climatology of skirving_2020.
    """
    within("monthly_means_c", len(monthly_means_c), 1, 12)
    return max(within("monthly_means_c", mean, 0, 45) for mean in monthly_means_c)
