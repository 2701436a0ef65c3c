"""What is said of plans and of the whole schedule. Places: fit.plan_codes.CAUTIONS, NOTES."""

from webapp.words.language import later
from webapp.words.sentences import Plural, Sentence

CAUTIONS: dict[str, Sentence] = {
    "rate": later("At most %(per_day)s a day (common practice); slower is always allowed."),
    "changes": Plural(
        later("One water change, %(share)s of the water."),
        later("%(count)s water changes, the largest %(share)s of the water."),
        "count",
    ),
    "net_volume": later(
        "All amounts are for %(volume_l)s of water: your tank less %(displaced_share)s for rock and sand."
    ),
    "test_again": later("Test before each next step, and stop at %(target)s."),
    "daily_use_comes_on_top": later("What your animals use up each day comes on top: your tests will show it."),
    "stop_dosing": later(
        "Stop dosing %(quantity)s first: what your animals use brings it down too, and may do so without more changes."
    ),
    "given_back": later(
        "Rock and sand give bound phosphate back: test a day after each change, and go on if it has risen again."
    ),
    "add_slowly": later(
        "Dissolve it first, then pour it in where the flow is strong, over at least %(minutes)s minutes."
    ),
    "one_thing_at_a_time": later("One powder a day, and never two in one vessel."),
    "apart_from": Plural(
        later("Keep calcium and alkalinity doses at least %(hours)s hour apart: together they turn to chalk."),
        later("Keep calcium and alkalinity doses at least %(hours)s hours apart: together they turn to chalk."),
        "hours",
    ),
    "pure_and_labelled": later(
        "Take reagent or food grade. The grams are for pure %(salt)s; where the label differs, the label wins."
    ),
    "goggles_and_gloves": later("Wear goggles and gloves with %(salt)s."),
    "heats_up": later("It grows hot in water: powder into plenty of cold water, never water onto powder."),
    "keep_dry": later("It draws water from the air: keep it closed, or it weighs more than it holds."),
    "keep_from_children": later("Keep it locked away from children, in its own labelled vessel, never one for food."),
    "or_sodium_carbonate": later(
        "Or the same rise with %(total_g)s g of sodium carbonate in all; it lifts pH, so not above pH 8.3."
    ),
    "match_new_water": later("Mix new salt water a day ahead, aired, at your tank's salinity and warmth."),
    "strong_water": later("Mix the new water to %(salinity_ppt)s, air it for a day, and pour it in slowly."),
    "pure_water": later("Use reverse-osmosis water at your tank's warmth, and pour it in slowly."),
    "electricity_off": later("Unplug pumps and heater with dry hands before the level falls."),
    "heater_slowly": later("Move the thermostat by %(c_per_day)s a day, no faster."),
    "cooling": later("A fan or a shorter day of light cools. More water evaporates then: top up with pure water."),
}  # fmt: skip
NOTES: dict[str, Sentence] = {
    "new_water_taken_as": later(
        "New salt water is taken to hold %(alk_dkh)s, %(ca_mg_l)s of calcium and %(mg_mg_l)s of magnesium. If you "
        "know yours, say so."
    ),
    "rest_by_media": later(
        "%(quantity)s is left at %(value)s: more water changes would take too much %(other)s. Bind the rest with a "
        "filter medium made for it."
    ),
    "new_water_no_help": later(
        "%(quantity)s at %(value)s: new salt water holds as much, so changing it does not help. Stop dosing, and let "
        "it be used up."
    ),
    "raise_by_feeding": later(
        "%(quantity)s at %(value)s is too little for it, and no powder is right: feed more or filter less, to about "
        "%(target)s."
    ),
    "falls_along": later("The changes thin %(quantity)s out to about %(value)s: feed a little more meanwhile."),
    "cannot_be_planned": later("%(quantity)s at %(value)s is beyond what can be planned at home: ask at the counter."),
    "takes_too_long": later("Safe steps would take more than %(days)s days: ask at the counter."),
    "never_dose_ph": later("Nothing is dosed for pH: it follows from the room's air and the alkalinity."),
    "no_volume": later("Without the volume of your tank no amount can be told."),
}  # fmt: skip
