"""Every code that plans, the schedule and the acclimation emit, what it means, and the names of its values.

Units are in the names, as in `fit.codes`; `quantity` is a key of fit.profile.BANDED, `salt` of science.dosing.SALTS,
and `value`, `target` are in the quantity's canonical unit.
"""

from webapp.fit.codes import Code

#: Actions of Step and Plan; the amount is in the unit named.
ACTIONS: dict[str, Code] = {
    "sodium_bicarbonate": Code("g: dissolved in fresh water and added slowly; raises alkalinity"),
    "calcium_chloride_dihydrate": Code("g: dissolved in fresh water and added slowly; raises calcium"),
    "magnesium_chloride_hexahydrate": Code("g: dissolved in fresh water and added slowly; raises magnesium"),
    "fresh_water_swap": Code("l: taken out and replaced by pure water; lowers salinity"),
    "salt_water_swap": Code("l: taken out and replaced by stronger salt water; raises salinity"),
    "water_change": Code("l: taken out and replaced by new salt water of the tank's own salinity"),
    "set_temperature": Code("c: degrees the thermostat is moved that day, signed"),
    "comes_along": Code("nothing of its own: the other steps bring it there"),
}

#: Plan.cautions.
CAUTIONS: dict[str, Code] = {
    "rate": Code("the most in one day (common practice)", ("quantity", "per_day")),
    "changes": Code("how many water changes, and the largest as a share of the water", ("count", "share")),
    "net_volume": Code("amounts are for this water: the tank less rock and sand", ("volume_l", "displaced_share")),
    "test_again": Code("measure before each next step; stop when it is there", ("quantity", "target")),
    "daily_use_comes_on_top": Code("what the animals use each day shows in the next test", ("quantity",)),
    "stop_dosing": Code("stop dosing it: what the animals use brings it down too", ("quantity",)),
    "given_back": Code("rock and sand give bound phosphate back: test a day after each change, go on if it rose"),
    "add_slowly": Code("dissolved first, over at least these minutes, where the flow is strong", ("minutes",)),
    "one_thing_at_a_time": Code("one powder a day, never two in one vessel"),
    "apart_from": Code("hours between this salt and the other kind: together they turn to chalk", ("salt", "hours")),
    "pure_and_labelled": Code("reagent or food grade; grams are for the pure named salt; the label wins", ("salt",)),
    "goggles_and_gloves": Code("wear both with this powder", ("salt",)),
    "heats_up": Code("heats water strongly: powder into plenty of cold water, never water on powder", ("salt",)),
    "keep_dry": Code("draws water from the air: keep closed, else it weighs more than it holds", ("salt",)),
    "keep_from_children": Code("locked away, in its own labelled vessel, never one for food or drink", ("salt",)),
    "or_sodium_carbonate": Code("the same rise by sodium carbonate; it lifts pH, so not above pH 8.3", ("total_g",)),
    "match_new_water": Code(
        "new water mixed and aired for a day, at the tank's salinity and warmth", ("salinity_ppt",)
    ),
    "strong_water": Code("mixed to this salinity and aired for a day; poured in slowly", ("salinity_ppt",)),
    "pure_water": Code("reverse-osmosis water at the tank's warmth, poured in slowly"),
    "electricity_off": Code("pumps and heater unplugged with dry hands before the level falls"),
    "heater_slowly": Code("move the thermostat a little each day", ("c_per_day",)),
    "cooling": Code("a fan or shorter light cools; more evaporates, so top up with pure water"),
}

#: Plans.notes.
NOTES: dict[str, Code] = {
    "new_water_taken_as": Code(
        "new salt water is taken to be this at salinity 35; say yours if you know it", ("alk_dkh", "ca_mg_l", "mg_mg_l")
    ),
    "rest_by_media": Code("more changes would strip nitrate (`other`): bind the rest", ("quantity", "value", "other")),
    "new_water_no_help": Code("new salt water holds as much: stop dosing, let it be used up", ("quantity", "value")),
    "raise_by_feeding": Code("too little: feed more or filter less, no powder", ("quantity", "value", "target")),
    "falls_along": Code("thinned out to this by the other steps: feed more meanwhile", ("quantity", "value")),
    "cannot_be_planned": Code("beyond what can be planned at home: ask at the counter", ("quantity", "value")),
    "takes_too_long": Code("not done within these days of safe steps: ask at the counter", ("days",)),
    "never_dose_ph": Code("pH follows from room air and alkalinity: air the room, mend alkalinity; never dose pH"),
    "no_volume": Code("without the volume no amount can be told"),
}

#: Report.acclimation, in the order they are done.
ACCLIMATION: dict[str, Code] = {
    "dim_first": Code("lamp at most at this share for the rest of day 0", ("share",)),
    "no_float": Code("bag and tank are within half a degree", ("bag_c", "tank_c")),
    "float": Code("float the closed bag", ("minutes", "bag_c", "tank_c")),
    "float_unmeasured": Code("float the closed bag; the tank's warmth was not given", ("minutes",)),
    "salinity_unknown": Code("measure both waters first: without them no drip can be planned"),
    "rinse_and_move": Code("salinities are close: no drip", ("bag_ppt", "tank_ppt", "gap_ppt")),
    "drip": Code(
        "let tank water into the bag's water, in `doublings` times its volume",
        ("add_ml", "bag_ml", "minutes", "rate_ml_min", "drops_per_s", "doublings", "bag_ppt", "end_ppt", "tank_ppt"),
    ),
    "pour_half_away": Code("each time the volume has doubled, pour half away and go on", ("every_minutes", "times")),
    "tub": Code("too wide for a drip: a heated, moved tub walked over", ("days", "from_ppt", "to_ppt", "ppt_per_day")),
    "tub_day": Code("the tub's salinity on that day", ("day", "salinity_ppt")),
    "tub_clean_water": Code("fill the tub with new salt water of the bag's salinity, not with bag water", ("bag_ppt",)),
    "long_journey": Code("longer than a day on the road: no long drip; ammonia turns toxic", ("hours", "most_minutes")),
    "no_bag_water": Code("the bag's water never goes into the tank"),
    "light_not_needed": Code("lives without light"),
    "light_not_right": Code("the light at the spot is not what it bears: mend that before anything leads up to it"),
    "light_unknown": Code("its light here or at the spot is not known: start low and dim"),
    "light_at_once": Code("the spot's light suits at once", ("now_mol", "goal_mol")),
    "light_by_dimmer": Code("at its spot with the lamp dimmed, raised in steps", ("steps", "days", "start_share")),
    "light_by_moving": Code(
        "or without a dimmer: start lower and move it up", ("moves", "days", "par_start", "par_goal")
    ),
    "light_step": Code("from that day this daily light; `way` dimmer or move", ("day", "mol", "share", "par", "way")),
    "final_spot_on_day": Code("by then it stands at its spot in full light", ("day", "way")),
    "flow_low_first": Code("start at the gentle end of its flow", ("flow_cm_s",)),
    "hold_still": Code("behind mesh or in a still corner until it holds by itself", ("days_low", "days_high")),
    "no_feeding_yet": Code("no food for these days", ("days",)),
    "feed_from_day": Code("this kind is fed from that day on", ("day",)),
    "leave_in_peace": Code("at most one move in these days", ("days",)),
    "look_on_day": Code("what to look at that day: open, water, spot or compare", ("day", "what")),
}

ALL: dict[str, Code] = {**ACTIONS, **CAUTIONS, **NOTES, **ACCLIMATION}
