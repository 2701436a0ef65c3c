"""What is said of one reading against its range. Places: fit.codes.REASONS, and `ideal`, `limits`, `range`."""

from webapp.words.language import later
from webapp.words.sentences import Cases, Sentence, case_of

RANGES: dict[str, Sentence] = {
    "in_ideal": later("%(value)s is within its ideal, %(ideal)s."),
    "in_ideal_near_edge": later(
        "%(value)s is within its ideal, %(ideal)s, but near the edge: its error reaches beyond."
    ),
    "above_ideal": later("%(value)s is above its ideal, %(ideal)s, and within the %(limits)s that it bears."),
    "below_ideal": later("%(value)s is below its ideal, %(ideal)s, and within the %(limits)s that it bears."),
    "above_limit": later("%(value)s is more than it bears: at most %(limit_high)s, ideal %(ideal)s."),
    "below_limit": later("%(value)s is less than it bears: at least %(limit_low)s, ideal %(ideal)s."),
    "straddles_limit": later(
        "%(value)s, with its error, may lie within or beyond the %(limits)s that it bears: this cannot settle it."
    ),
    "no_reading": later("No reading was given."),
    "question_open": later("Not judged yet: there is a question about what was typed."),
    "used_to_differs": Cases(
        lambda values: "more" if values["difference"] > 0 else "less",
        {
            "more": later("It is used to %(used_to)s here; yours is %(difference)s higher."),
            "less": later("It is used to %(used_to)s here; yours is %(difference)s lower."),
        },
    ),
    "readings_disagree": later(
        "Two of your readings disagree: %(used_value)s and %(other_value)s. The worse for this animal was used."
    ),
    "readings_oppose": later(
        "Your readings %(low)s and %(high)s cannot both be right: on one of them it could live here, on the other not."
    ),
    "form_unknown": later(
        "You typed %(typed)s without saying what the kit counts. The worse case was taken: %(assumed_value)s."
    ),
    "hydrometer_check_stem": later(
        "Look at the stem of the glass: if it is marked 60 °F, your %(typed)s means %(other_value)s, not %(value)s."
    ),
    "conductivity_may_be_uncompensated": later(
        "%(value)s is high. A meter that does not correct for warmth reads too high in a warm tank: check that yours "
        "does."
    ),
    "maybe_french_degrees": later(
        "If your kit counts in French degrees (°fH), %(typed)s is only %(other_value)s: check the kit."
    ),
    "method_assumed": Cases(
        lambda values: values["method"] if values["method"] == "thermometer" else "other",
        {
            "thermometer": later("Which thermometer was not said. Taken as: %(method)s."),
            "other": later("How it was measured was not said. Taken as: %(method)s."),
        },
    ),
    "matters_little": later("%(value)s: noted, but this kind builds no skeleton and minds it little."),
    "zero_not_seen": later(
        "Your kit sees nothing below %(sees)s: a reading this low may be nothing, or enough."
    ),
    "zero_nutrient": later("0 measured. Corals need some; its ideal starts at %(ideal_low)s."),
    "zero_nutrient_hungry": later(
        "0 measured. Corals need some, and this kind starves first; its ideal starts at %(ideal_low)s."
    ),
    "nutrient_present_toxic": later("%(value)s was found. In a tank that is ready for animals a test finds none."),
    "free_ammonia": later("Of that, about %(nh3_mg_l)s mg/L is the poisonous free form at your pH and temperature."),
    "ph_low_room_air": later(
        "At %(alk_dkh)s of alkalinity fresh air would give %(ph_outdoor_air)s; you have %(ph)s. The likely cause is "
        "carbon dioxide from the room's air: your water holds what air with about %(pco2_uatm)s ppm would give it, "
        "against about 420 ppm outdoors."
    ),
    "ph_low_alkalinity": later(
        "%(alk_dkh)s of alkalinity is low, and pH follows it: even in fresh air it would only be %(ph_outdoor_air)s."
    ),
    "ph_low_cause_unknown": later("%(ph)s is low. With an alkalinity reading the cause can be told."),
    "ph_probe": later(
        "%(ph)s fits water in air with about %(pco2_uatm)s ppm of carbon dioxide, near the 420 ppm outdoors: most "
        "likely nothing is wrong, or the meter reads a little low."
    ),
    "ph_daily": later("pH moves by 0.2 to 0.3 in a day, lowest at dawn: the hour of the reading matters."),
    "swing_fine": later("%(quantity)s moves %(swing)s in a day; it bears up to %(bears)s."),
    "swing_large": later("%(quantity)s moves %(swing)s in a day; it bears only %(bears)s."),
    "swing_not_seen": later(
        "%(quantity)s seems to move %(swing)s in a day and it bears %(bears)s, but two tests can differ by "
        "%(half_range)s by chance. Three tests in a row that move the same way, or a finer kit, would tell."
    ),
    "swings_not_said": later("How far the water moves in a day was not said. Steady counts as much as right."),
    "summer_fine": later("%(value)s at the hottest stays within its ideal, up to %(ideal_high)s."),
    "summer_warm": later(
        "%(value)s at the hottest is above its ideal, %(ideal_high)s, and within the %(limit_high)s that it bears."
    ),
    "summer_hot": later("%(value)s at the hottest is more than the %(limit_high)s that it bears."),
    "summer_unsettled": later(
        "%(value)s at the hottest, with its error, may lie within or beyond the %(limit_high)s that it bears."
    ),
    "light_not_said": later("Nothing was said about the light."),
    "flow_not_said": later("Nothing was said about the flow."),
    "light_estimated": Cases(
        case_of("way"),
        {
            "fixture": later("Worked out from your lamp and tank, not measured, so the range is wide."),
            "lux": later("Worked out from a lux reading, so the range is wide."),
            "words": later("Judged by how it looks, so the range is wide."),
        },
    ),
    "meter_correction_not_said": later(
        "Whether the meter corrects for being under water was not said: the light may be up to %(times)s times the "
        "reading."
    ),
    "lux_colour_not_said": later(
        "Lux alone is no measure of this light: depending on the lamp's colour %(low_lux)s to %(high_lux)s lux are one "
        "µmol/m²/s. Say the colour, or use a light meter (PAR)."
    ),
    "light_words_only": later(
        "For a kind like this, what the eye says of light is not enough. Measure it."
    ),
    "tank_size_not_said": Cases(
        case_of("factor"),
        {
            "light": later("Without the size of the tank its light cannot be worked out from the lamp."),
            "flow": later("Without the size of the tank its flow cannot be worked out from the pumps."),
        },
    ),
}  # fmt: skip
