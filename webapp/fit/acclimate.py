"""From the water and light it is used to here to the buyer's: the first hours and the first weeks, computed.

Every Note has a code of plan_codes.ACCLIMATION; they stand in the order in which they are done. Numbers that are not
arithmetic are common practice and are named below.
"""

from math import ceil, log2

from webapp.fit.findings import Note, Spot
from webapp.fit.profile import Profile
from webapp.fit.requires import hungry, lives_by_food
from webapp.fit.specimen import Specimen, UsedTo
from webapp.science.acclimation import LightStep, drip_growing, drops_per_second, float_minutes, light_steps
from webapp.science.light_integral import daily_light_integral

CLOSE_C = 0.5
LEAST_FLOAT_MIN = 15
MOST_FLOAT_MIN = 45
CLOSE_PPT = 1.0  # up to this gap: rinse and move; a drip ends within it
DRIP_MINUTES = {1: 40, 2: 60, 3: 90}  # by doublings
WIDEST_DRIP_PPT = 5.0
TUB_PPT_PER_DAY = 2.5
LONG_JOURNEY_H = 24.0
LONG_JOURNEY_DRIP_MIN = 30
WIDEST_SHORT_DRIP_PPT = 3.0
USUAL_BAG_ML = 500.0
USUAL_HOURS = 9.0
BEYOND_ANY_SUN_MOL = 100.0
"""mol m-2 d-1: above every day on Earth (about 65), so no reading of an animal's light, nor a goal to lead it to."""
FIRST_DAY_SHARE = 0.5
DIM_DAYS = 1
"""The lamp is dimmed or off for the rest of day 0, so its steps begin on the next."""
DAYS_WITHOUT_FOOD = 2
DAYS_BETWEEN_MOVES = 7
LOOKS = ((7, "open"), (14, "water"), (21, "spot"), (28, "compare"))


def acclimate(
    specimen: Specimen,
    temp_c: float | None,
    salinity_ppt: float | None,
    spot: Spot | None,
    *,
    light_hours: float | None = None,
    journey_h: float | None = None,
    bag_ml: float = USUAL_BAG_ML,
) -> tuple[Note, ...]:
    """Day 0 and the weeks after it for this animal.

    temp_c, salinity_ppt: the buyer's tank (None: not given). spot: the place chosen there, with its light and flow.
    Source: common practice (minutes, half a degree, 1 ppt, days); the sums are those of science.acclimation.
    light_hours: of the buyer's lamp a day; where neither side's hours are known both are taken as equal. journey_h:
    hours the bag is closed, None for an ordinary trip home. bag_ml: water in the bag.
    """
    used, profile = specimen.used_to, specimen.profile
    notes = [
        *_first_light(profile),
        *_warmth(used.get("temp"), temp_c),
        *_salinity(used.get("salinity"), salinity_ppt, journey_h, bag_ml),
        Note("no_bag_water"),
        *_light(specimen, spot, light_hours),
    ]
    if "flow" in profile.bands:
        notes.append(Note("flow_low_first", {"flow_cm_s": profile.bands["flow"].ideal_low}))
    if profile.group == "corallimorph":  # nothing but its own foot holds it
        notes.append(Note("hold_still", {"days_low": profile.attach_days[0], "days_high": profile.attach_days[1]}))
    fed_early = lives_by_food(profile) or hungry(profile)
    notes.append(
        Note("feed_from_day", {"day": 1}) if fed_early else Note("no_feeding_yet", {"days": DAYS_WITHOUT_FOOD})
    )
    notes.append(Note("leave_in_peace", {"days": DAYS_BETWEEN_MOVES}))
    looks = [(day, what) for day, what in LOOKS if what != "spot" or not lives_by_food(profile)]
    return (*notes, *(Note("look_on_day", {"day": day, "what": what}) for day, what in looks))


def _first_light(profile: Profile) -> list[Note]:
    if lives_by_food(profile):
        return []
    return [Note("dim_first", {"share": FIRST_DAY_SHARE})]


def _warmth(used: UsedTo | None, tank_c: float | None) -> list[Note]:
    if used is None or tank_c is None:
        return [Note("float_unmeasured", {"minutes": 2 * LEAST_FLOAT_MIN})]
    bag_c = used.median
    if abs(bag_c - tank_c) <= CLOSE_C:
        return [Note("no_float", {"bag_c": bag_c, "tank_c": tank_c})]
    minutes = 5 * ceil(float_minutes(bag_c, tank_c, CLOSE_C) / 5)
    minutes = min(max(minutes, LEAST_FLOAT_MIN), MOST_FLOAT_MIN)
    return [Note("float", {"minutes": minutes, "bag_c": bag_c, "tank_c": tank_c})]


def _salinity(used: UsedTo | None, tank_ppt: float | None, journey_h: float | None, bag_ml: float) -> list[Note]:
    long = journey_h is not None and journey_h > LONG_JOURNEY_H
    notes = [Note("long_journey", {"hours": journey_h, "most_minutes": LONG_JOURNEY_DRIP_MIN})] if long else []
    if used is None or tank_ppt is None:
        return [*notes, Note("salinity_unknown")]
    bag_ppt, gap = used.median, abs(used.median - tank_ppt)
    if gap <= CLOSE_PPT:
        return [*notes, Note("rinse_and_move", {"bag_ppt": bag_ppt, "tank_ppt": tank_ppt, "gap_ppt": gap})]
    if gap > (WIDEST_SHORT_DRIP_PPT if long else WIDEST_DRIP_PPT):
        return [*notes, *_tub(bag_ppt, tank_ppt)]
    return [*notes, *_drip(bag_ppt, tank_ppt, gap, bag_ml, long)]


def _drip(bag_ppt: float, tank_ppt: float, gap: float, bag_ml: float, long: bool) -> list[Note]:
    """Doublings until the rest of the gap is close; between them half is poured away, so that nothing overflows."""
    doublings = ceil(log2(gap / CLOSE_PPT) - 1e-9)
    minutes = min(DRIP_MINUTES[doublings], LONG_JOURNEY_DRIP_MIN) if long else DRIP_MINUTES[doublings]
    rate = doublings * bag_ml / minutes
    end = bag_ppt
    for _ in range(doublings):
        end = drip_growing(end, tank_ppt, rate, bag_ml, minutes / doublings)
    drip = Note(
        "drip",
        {
            "add_ml": doublings * bag_ml,
            "bag_ml": bag_ml,
            "minutes": minutes,
            "rate_ml_min": rate,
            "drops_per_s": drops_per_second(rate),
            "doublings": doublings,
            "bag_ppt": bag_ppt,
            "end_ppt": end,
            "tank_ppt": tank_ppt,
        },
    )
    if doublings == 1:
        return [drip]
    return [drip, Note("pour_half_away", {"every_minutes": minutes / doublings, "times": doublings - 1})]


def _tub(bag_ppt: float, tank_ppt: float) -> list[Note]:
    """Equal daily steps until the tub is the tank's; day 0 stays at the bag's salinity."""
    away = tank_ppt - bag_ppt
    days = ceil(abs(away) / TUB_PPT_PER_DAY - 1e-9)
    tub = {"days": days, "from_ppt": bag_ppt, "to_ppt": tank_ppt, "ppt_per_day": abs(away) / days}
    by_day = (Note("tub_day", {"day": d, "salinity_ppt": bag_ppt + away * d / days}) for d in range(1, days + 1))
    return [Note("tub", tub), Note("tub_clean_water", {"bag_ppt": bag_ppt}), *by_day]


def _light(specimen: Specimen, spot: Spot | None, light_hours: float | None) -> list[Note]:
    """Steps in moles a day: with a dimmer at its spot, or by moving it up week by week; down is done at once."""
    if lives_by_food(specimen.profile):
        return [Note("light_not_needed")]
    band = specimen.profile.bands.get("par")
    if band and spot and spot.light and not band.limit_low <= spot.light.mid <= band.limit_high:
        return [Note("light_not_right")]  # nobody is led to a light that it does not bear
    used = specimen.used_to.get("par")
    if used is None or used.median <= 0 or spot is None or spot.light is None or spot.light.mid <= 0:
        return [Note("light_unknown")]
    hours_here = specimen.used_to["light_hours"].median if "light_hours" in specimen.used_to else None
    hours_here, hours_there = hours_here or light_hours or USUAL_HOURS, light_hours or hours_here or USUAL_HOURS
    now = daily_light_integral(used.median, hours_here)
    goal = daily_light_integral(spot.light.mid, hours_there)
    if max(now, goal) > BEYOND_ANY_SUN_MOL:
        return [Note("light_unknown")]
    dimmed, moved = light_steps(now, goal), light_steps(now, goal, by_moving=True)
    if len(dimmed) <= 2:  # one step or less: it may stand there from the first
        return [Note("light_at_once", {"now_mol": now, "goal_mol": goal})]
    pars = [step.dli_mol * 1e6 / 3600 / hours_there for step in moved]
    by_dimmer = {"steps": len(dimmed) - 1, "days": dimmed[-1].day, "start_share": dimmed[0].dli_mol / goal}
    by_moving = {"moves": len(moved) - 1, "days": moved[-1].day, "par_start": pars[0], "par_goal": pars[-1]}
    return [
        Note("light_by_dimmer", by_dimmer),
        *_steps(dimmed, goal, hours_there, "dimmer"),
        Note("final_spot_on_day", {"day": dimmed[-1].day + DIM_DAYS, "way": "dimmer"}),
        Note("light_by_moving", by_moving),
        *_steps(moved, goal, hours_there, "move"),
        Note("final_spot_on_day", {"day": moved[-1].day, "way": "move"}),
    ]


def _steps(steps: list[LightStep], goal: float, hours: float, way: str) -> list[Note]:
    return [
        Note(
            "light_step",
            {
                "day": step.day + (DIM_DAYS if way == "dimmer" else 0),
                "mol": step.dli_mol,
                "share": step.dli_mol / goal,
                "par": step.dli_mol * 1e6 / 3600 / hours,
                "way": way,
            },
        )
        for step in steps
    ]
