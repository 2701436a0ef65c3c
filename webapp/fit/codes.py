"""Every code that a check can emit, what it means, and the names of its values.

Units are in the names: `_c` °C, `_ppt` practical salinity, `_dkh`, `_mg_l`, `_umol` µmol m-2 s-1, `_cm`, `_cm_s`, `_l`.
Names without a unit: `value`, `low`, `high`, `limit_low` ... are in the finding's own canonical unit (`Finding.unit`).
Codes of plans, the schedule and acclimation are listed beside their makers.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Code:
    """`meaning` in one line, for whoever writes the sentence; `values` are the names in Note.values."""

    meaning: str
    values: tuple[str, ...] = ()


RANGE = ("value", "low", "high")
BAND = ("limit_low", "ideal_low", "ideal_high", "limit_high")
NEAR = ("neighbour", "count")

#: Reasons of one factor.
REASONS: dict[str, Code] = {
    "in_ideal": Code("the reading, error and all, lies in the ideal band", RANGE + BAND),
    "in_ideal_near_edge": Code("the reading is in the ideal band, its error reaches beyond", RANGE + BAND),
    "above_ideal": Code("above the ideal, within the limits", RANGE + BAND),
    "below_ideal": Code("below the ideal, within the limits", RANGE + BAND),
    "above_limit": Code("above the upper limit", RANGE + BAND),
    "below_limit": Code("below the lower limit", RANGE + BAND),
    "straddles_limit": Code(
        "the error reaches over a limit: the reading cannot settle it; share_outside is 0..1",
        RANGE + BAND + ("share_outside",),
    ),
    "no_reading": Code("no reading was given"),
    "question_open": Code("a value was given that must be asked about first; nothing is judged"),
    "used_to_differs": Code(
        "the animal is used to `used_to` here; `difference` is the buyer's reading less that (signed)",
        ("used_to", "value", "difference"),
    ),
    "readings_disagree": Code(
        "two readings of one kind disagree by more than their errors; the worse was used",
        ("used_value", "other_value"),
    ),
    "readings_oppose": Code(
        "one reading would have the animal, another refuses it: nothing is judged or dosed", ("low", "high")
    ),
    "form_unknown": Code(
        "the kit's form was not said (ion or element): the worse was assumed", ("typed", "assumed_value")
    ),
    "hydrometer_check_stem": Code(
        "read the stem of the glass: `other_value` is what the same reading is on one marked 60 F",
        ("typed", "value", "other_value"),
    ),
    "conductivity_may_be_uncompensated": Code(
        "a salinity this high may be conductivity read without temperature compensation", ("value",)
    ),
    "maybe_french_degrees": Code(
        "the alkalinity is plausible as typed, but the number is usual in French degrees too", ("typed", "other_value")
    ),
    "method_assumed": Code(
        "how it was measured was not said: the usual kit and its error were assumed (method label code, half-range)",
        ("method", "half_range"),
    ),
    "matters_little": Code("this kind builds no skeleton: close at most, and not one of the three", RANGE),
    "zero_not_seen": Code(
        "a reading that the method cannot tell from zero, for it sees nothing below `sees`", ("sees",)
    ),
    "zero_nutrient": Code("no measurable nutrient: corals need some", ("ideal_low",)),
    "zero_nutrient_hungry": Code("no measurable nutrient, and this kind starves first", ("ideal_low",)),
    "nutrient_present_toxic": Code("ammonia or nitrite is present: the tank is not ready for any animal", RANGE),
    "free_ammonia": Code("of that, the poisonous free form at the tank's pH and temperature", ("nh3_mg_l",)),
    "ph_low_room_air": Code(
        "low pH with sound alkalinity: carbon dioxide from the room's air (pco2_uatm against about 420 outdoors)",
        ("ph", "alk_dkh", "pco2_uatm", "ph_outdoor_air"),
    ),
    "ph_low_alkalinity": Code("low pH because the alkalinity is low", ("ph", "alk_dkh", "ph_outdoor_air")),
    "ph_low_cause_unknown": Code("low pH; with an alkalinity reading its cause can be told", ("ph",)),
    "ph_probe": Code(
        "pH and alkalinity fit outdoor air: a low reading is most likely the probe's", ("ph", "pco2_uatm")
    ),
    "ph_daily": Code("pH swings 0.2 to 0.3 over a day: time of day matters"),
    # stability, summer
    "swing_fine": Code(
        "the daily swing is within what is borne; quantity is temp, salinity or alk", ("quantity", "swing", "bears")
    ),
    "swing_large": Code("the daily swing is larger than what is borne", ("quantity", "swing", "bears")),
    "swing_not_seen": Code(
        "the kit's error hides a swing of this size: three tests in one direction, or a finer kit",
        ("quantity", "swing", "bears", "half_range"),
    ),
    "swings_not_said": Code("how far the tank swings in a day was not said"),
    "summer_fine": Code("the summer high stays in the ideal band", RANGE + ("ideal_high", "limit_high")),
    "summer_warm": Code("the summer high is above the ideal, within the limit", RANGE + ("ideal_high", "limit_high")),
    "summer_hot": Code("the summer high is above the limit", RANGE + ("ideal_high", "limit_high")),
    "summer_unsettled": Code("the summer high may reach over the limit", RANGE + ("ideal_high", "limit_high")),
    # light and flow
    "light_not_said": Code("nothing was said about the light"),
    "flow_not_said": Code("nothing was said about the flow"),
    "light_estimated": Code(
        "the light was computed or estimated, not measured; way is fixture, lux or words", ("way",)
    ),
    "meter_correction_not_said": Code(
        "whether the meter corrects for water was not said: up to `times` the reading", ("times",)
    ),
    "lux_colour_not_said": Code(
        "lux without the lamp's colour: between `low` and `high` lux a micromole", ("low_lux", "high_lux")
    ),
    "light_words_only": Code(
        "described light is not enough for a kind that lives by strong light: measure it", ("group",)
    ),
    "tank_size_not_said": Code("without the tank's size the light or flow cannot be computed", ("factor",)),
    # tankmates
    "tankmates_not_said": Code("the tankmates were not said"),
    "tankmates_fine": Code("none of the tankmates named is a danger either way", ("n",)),
    "no_tankmates": Code("no tankmates"),
    "would_be_eaten": Code("this tankmate eats or bites this kind: not while it stays", ("tankmate",)),
    "may_be_nipped": Code("this tankmate may nip it", ("tankmate",)),
    "would_eat": Code("this kind eats or kills this tankmate", ("tankmate",)),
    "may_catch": Code("this kind may catch or sting this tankmate", ("tankmate",)),
    # neighbours, chemistry, pumps
    "neighbours_not_said": Code("the neighbours were not said"),
    "no_neighbours": Code("no corals near"),
    "neighbour_unknown": Code("this neighbour's kind is not in the profiles", NEAR),
    "neighbour_gap_not_said": Code(
        "the gap to this neighbour was not said; it needs `needed_cm`", NEAR + ("needed_cm",)
    ),
    "neighbour_gap_fine": Code("the gap is enough for reach and growth", NEAR + ("gap_cm", "needed_cm")),
    "neighbour_grows_close": Code(
        "beyond reach today, but growth will close the gap", NEAR + ("gap_cm", "needed_cm", "reach_cm")
    ),
    "would_sting": Code("it reaches this neighbour", NEAR + ("gap_cm", "reach_cm")),
    "would_be_stung": Code("this neighbour reaches it", NEAR + ("gap_cm", "reach_cm")),
    "reach_borne": Code("one reaches the other, which nothing stings", NEAR + ("gap_cm", "reach_cm")),
    "gap_longer_than_tank": Code("the gap it needs is longer than the tank", NEAR + ("needed_cm", "length_cm")),
    "same_kind_may_touch": Code("its own kind or genus: they may touch", NEAR),
    "walking_anemone_near": Code("an anemone already in the tank can walk and sting whatever it meets", NEAR),
    "leather_and_stony": Code(
        "soft corals' terpenes and stony corals share this water", ("neighbour", "volume_l", "carbon")
    ),
    "chemistry_fine": Code("terpenes: enough water or carbon in use", ("neighbour", "volume_l", "carbon")),
    "pumps_covered": Code("pump intakes are covered"),
    "pumps_open": Code("a walking anemone is drawn into open pump intakes"),
    "pumps_not_said": Code("whether pump intakes are covered was not said"),
    # space, feeding, age
    "space_not_said": Code("the free space was not said; it grows to adult_cm", ("adult_cm",)),
    "space_fine": Code("room for the grown animal", ("free_cm", "adult_cm")),
    "space_for_now": Code(
        "room for now, not for the grown animal: trim or move later", ("free_cm", "adult_cm", "size_cm")
    ),
    "space_too_small": Code("less room than it takes today", ("free_cm", "size_cm")),
    "outgrows_tank": Code("grown, it is longer than the tank; it can be cut back", ("adult_cm", "length_cm")),
    "too_big_for_tank": Code("grown, it is longer than the tank and cannot be cut back", ("adult_cm", "length_cm")),
    "feeding_fine": Code("the feeding offered is enough", ("days", "needs_days")),
    "feeding_less": Code("less feeding than it does best with", ("days", "needs_days")),
    "feeding_too_little": Code("too little feeding for a kind that needs it", ("days", "needs_days")),
    "feeding_cannot": Code("it lives by food alone, and cannot be fed as often as it must", ("days", "needs_days")),
    "feeding_not_said": Code("how often it can be fed was not said", ("needs_days",)),
    "age_fine": Code("the tank has run long enough", ("age_months", "needs_months")),
    "age_too_young": Code("the tank is younger than this kind needs", ("age_months", "needs_months", "wait_months")),
    "age_not_said": Code("the tank's age was not said", ("needs_months",)),
}

#: What to do about a factor.
ADVICE: dict[str, Code] = {
    "leave_it": Code("leave the tank as it is: no change of its water for one easy animal that lives well there"),
    "test_again": Code(
        "test again; `method` (label code) would settle it, its half-range is `half_range`", ("method", "half_range")
    ),
    "test_finer": Code(
        "the reading lies on a limit: the finest there is, which may still not settle it", ("method", "half_range")
    ),
    "mend_either_way": Code("whatever the better test says, it is outside the ideal: mend it meanwhile", ("target",)),
    "third_test": Code("two readings oppose each other: test a third time with another kit, dose nothing before"),
    "thins_out": Code("a little too much calcium or magnesium: add none, the usual water changes bring it down"),
    "test_again_same_day": Code("test again at another time of day, same method, and take the mean"),
    "give_reading": Code("measure it before buying; `method` is a kit that is enough", ("method",)),
    "answer_question": Code("answer the question about the value first"),
    "lower_slowly": Code("bring it down to `target` within a safe daily rate", ("target",)),
    "raise_slowly": Code("bring it up to `target` within a safe daily rate", ("target",)),
    "ph_high": Code("a high pH: nothing is dosed for it, what lifts it is cut back"),
    "do_not_dose_ph": Code("do not dose for pH"),
    "fresh_air": Code("more fresh air: open a window, or draw the skimmer's air from outside"),
    "raise_alkalinity": Code("bring the alkalinity up slowly: pH follows"),
    "calibrate_probe": Code("calibrate the probe in fresh buffers and read again"),
    "feed_more_or_export_less": Code("feed a little more or take out less: zero nutrients is not the goal"),
    "wait_for_cycle": Code("no animal until ammonia and nitrite cannot be seen on two days running"),
    "find_cause": Code("find the cause first: ammonia in an old tank means something died or broke"),
    "steady_it": Code("steady it first: `quantity` within `bears` a day", ("quantity", "bears")),
    "cool_in_summer": Code("plan shade, a fan or a chiller before the next heat; degrees to lose: `by_c`", ("by_c",)),
    "measure_light": Code(
        "borrow or hire a quantum meter and measure at the spot, depth_cm below the surface", ("depth_cm",)
    ),
    "describe_light": Code("say which light, how many watts, how high; or measure"),
    "look_at_flow": Code("look at the spot chosen and say what the flow looks like there"),
    "describe_flow": Code("say which pumps, or what the flow looks like"),
    "dim_light": Code("every spot is too bright: dim by this share (0..1)", ("share",)),
    "more_light": Code("no spot is bright enough: the light must give this many times as much", ("factor",)),
    "less_flow": Code("every spot is too strong: turn the pumps down or shield it; share (0..1) to keep", ("share",)),
    "more_flow": Code("no spot has enough flow: this many times as much", ("factor",)),
    "remove_tankmate": Code("only if this tankmate goes first", ("tankmate",)),
    "watch_tankmate": Code("watch; start only if it can be taken out again", ("tankmate",)),
    "keep_gap": Code("keep at least this much clear between them", ("neighbour", "needed_cm")),
    "far_end": Code("the gap needs most of the tank's length: opposite ends", ("neighbour", "needed_cm", "length_cm")),
    "down_current": Code("the leather down-current of stony corals"),
    "use_carbon": Code("run activated carbon, change it monthly"),
    "cover_pumps": Code("cover every intake before it goes in"),
    "secure_anemone_first": Code("wait until the anemone has stayed put for weeks", ("neighbour",)),
    "make_room": Code("make room first", ("needs_cm",)),
    "plan_to_move": Code("plan to move it as it grows: it cannot be cut back"),
    "plan_to_trim": Code("plan to trim or move it as it grows"),
    "say_space": Code("measure the clear space at the spot"),
    "feed_it": Code("feed it this many days a week", ("needs_days",)),
    "wait_months": Code("wait this many months", ("wait_months",)),
    "name_tankmates": Code("say which fish, shrimps, crabs, stars and urchins live there"),
}

#: Reasons of the chosen spot.
SPOT: dict[str, Code] = {
    "spot_light_decides": Code("light decides the depth here", ("low_umol", "high_umol")),
    "spot_flow_decides": Code("flow decides the place here", ("low_cm_s", "high_cm_s")),
    "spot_as_usual": Code("this is where this kind usually stands", ("placement",)),
    "spot_higher_than_usual": Code("higher than this kind usually stands, for light or flow", ("placement",)),
    "spot_lower_than_usual": Code("lower than this kind usually stands, for light or flow", ("placement",)),
    "spot_on_sand": Code("it lies free on the sand"),
    "spot_edge": Code("near a side, out of the middle of the beam"),
    "spot_half_shade": Code("partly shaded by rock"),
    "spot_shade": Code("in the shade of rock or under an overhang"),
    "spot_sheltered": Code("behind rock, out of the pumps' stream"),
    "spot_half_sheltered": Code("half sheltered by rock"),
    "spot_edge_of_stream": Code("at the edge of a pump's stream"),
    "spot_in_stream": Code("in a pump's stream, a third to most of the tank's length from it"),
    "spot_near_pump": Code("in a pump's stream, about a third of the tank's length from it"),
    "spot_gap": Code("and at least this far from a neighbour", ("neighbour", "needed_cm")),
    "spot_by_habit": Code("no light or flow was given: the place is this kind's habit only", ("placement",)),
}

#: Why the whole is what it is.
WHOLE: dict[str, Code] = {
    "whole_suits": Code("every factor that counts suits"),
    "whole_worst": Code("the whole is its worst factors; factors: their names", ("verdict", "factors")),
    "whole_required_missing": Code("readings that this kind requires are missing", ("factors",)),
    "whole_unsettled": Code("readings that were given cannot settle it", ("factors",)),
    "whole_three_close": Code(
        "hardiness 3 and up: three factors close count as one to change first", ("n", "factors", "hardiness")
    ),
    "whole_left_out": Code("not said and not held against it, yet each could turn the answer", ("factors",)),
    "whole_asked": Code("not judged until a question about them is answered", ("factors",)),
    "whole_leave_it": Code("an easy animal and small misses: leave the tank as it is", ("factors",)),
}

SAFETY: dict[str, Code] = {
    "safety_toxic": Code("may carry a dangerous poison: the handling page comes before any sale talk", ("note",)),
    "safety_stings": Code("stings people", ("note",)),
    "safety_handling": Code("how to handle it", ("note",)),
    "safety_electricity": Code("salt water and mains: drip loop, residual-current device, unplug before hands go in"),
    "safety_dosing": Code(
        "chemicals: eye protection, reagent or food grade, read the label; doctor or local poisons line if hurt"
    ),
}

PAPERWORK: dict[str, Code] = {
    "paper_cites": Code("listed: crossing a border needs papers first", ("appendix",)),
}

UNKNOWABLE: dict[str, Code] = {
    "unknown_pests": Code("pests and disease that show later"),
    "unknown_temper": Code("how one fish or shrimp behaves: individuals differ", ("tankmates",)),
    "unknown_size": Code("the sides of the tank: they were taken from its volume"),
    "unknown_shadow": Code("shadows of rock and neighbours, and the lamp's age, are not in the light figure"),
    "unknown_flow_pattern": Code("how the stream bends around the rock is not in the flow figure"),
    "unknown_past": Code("how the tank was before the readings"),
    "unknown_used_to": Code("too few readings here to say what this animal is used to"),
}

#: Codes of Question.
QUESTIONS: dict[str, Code] = {
    "other_unit": Code("hardly possible in its unit, usual in another; offers say which"),
    "impossible": Code("impossible in every unit: look again", ("usual_low", "usual_high", "usual_unit")),
    "dropped_zero": Code("a specific gravity with a digit missing (1.25 for 1.025?): ask, never fix"),
    "sg_times_1000": Code(
        "a specific gravity times 1000, or a density in kg per cubic metre: they differ by several ppt"
    ),
    "par_may_be_lux": Code(
        "a light this strong is most likely lux, which LED light does not convert: the range it could be",
        ("low_umol", "high_umol"),
    ),
    "which_gallon": Code("US or imperial gallons"),
    "volume_against_size": Code(
        "volume and inside dimensions disagree by more than 12 percent; sides_may_be: in, cm or empty",
        ("volume_l", "size_volume_l", "difference_percent", "sides_may_be"),
    ),
    "not_a_number": Code("not a usable number"),
}
"""Every question's values also hold `answer`: put this string into BuyerTank.answers to say 'really meant'
(absent where the value cannot be true)."""

ALL: dict[str, Code] = {**REASONS, **ADVICE, **SPOT, **WHOLE, **SAFETY, **PAPERWORK, **UNKNOWABLE, **QUESTIONS}
