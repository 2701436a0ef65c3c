"""What is said of tankmates, neighbours, room, food and age. Places: fit.codes.REASONS."""

from webapp.words.language import later
from webapp.words.sentences import Cases, Plural, Sentence


def _water_and_carbon(values) -> str:
    if values["carbon"]:
        return "carbon"
    return "no_size" if values["volume_l"] is None else "size"


ANIMALS: dict[str, Sentence] = {
    "tankmates_not_said": later("Which fish and other animals live there was not said."),
    "tankmates_fine": Plural(
        later("%(n)s kind of animal named: no danger to it, nor it to them."),
        later("%(n)s kinds of animal named: none is a danger to it, nor it to them."),
        "n",
    ),
    "no_tankmates": later("No fish or other animals: nobody to bite it."),
    "would_be_eaten": later("Not beside these: %(tankmate)s. They eat or bite this kind."),
    "may_be_nipped": later("These may nip it: %(tankmate)s. Some do, some never."),
    "would_eat": later("Not beside these: %(tankmate)s. It eats or kills them."),
    "may_catch": later("It may catch or sting these: %(tankmate)s."),
    "neighbours_not_said": later("Which corals stand near the spot was not said."),
    "no_neighbours": later("No coral stands near the spot."),
    "neighbour_unknown": later("We have no ranges for one of its neighbours, so nothing can be said of it."),
    "neighbour_gap_not_said": later("%(needed_cm)s clear to the %(neighbour)s is needed; the gap was not said."),
    "neighbour_gap_fine": later("%(gap_cm)s clear to the %(neighbour)s; %(needed_cm)s is enough."),
    "neighbour_grows_close": later(
        "%(gap_cm)s clear to the %(neighbour)s: beyond reach today (%(reach_cm)s), but both grow. %(needed_cm)s is "
        "enough for good."
    ),
    "would_sting": later(
        "%(gap_cm)s clear to the %(neighbour)s: this one has a reach of %(reach_cm)s and would sting there."
    ),
    "would_be_stung": later(
        "%(gap_cm)s clear to the %(neighbour)s, with a reach of %(reach_cm)s: this one would be stung."
    ),
    "reach_borne": later(
        "%(gap_cm)s clear to the %(neighbour)s, within a reach of %(reach_cm)s: the one that is reached bears it."
    ),
    "gap_longer_than_tank": later(
        "%(needed_cm)s clear to the %(neighbour)s is needed, and the tank is %(length_cm)s long."
    ),
    "same_kind_may_touch": later("It and the %(neighbour)s are one kind or near relatives: the two may touch."),
    "walking_anemone_near": later("The %(neighbour)s can walk, and stings whatever it meets."),
    "leather_and_stony": Cases(
        lambda values: "no_size" if values["volume_l"] is None else "size",
        {
            "size": later(
                "It would share %(volume_l)s with the %(neighbour)s. Leather corals give off defensive substances "
                "(terpenes), which stony corals bear badly in little water without carbon."
            ),
            "no_size": later(
                "It would share the water with the %(neighbour)s. Leather corals give off defensive substances "
                "(terpenes), which stony corals bear badly in little water without carbon."
            ),
        },
    ),
    "chemistry_fine": Cases(
        _water_and_carbon,
        {
            "carbon": later(
                "It would share the water with the %(neighbour)s. Leather corals give off defensive substances "
                "(terpenes); your carbon takes them out."
            ),
            "size": later(
                "It would share %(volume_l)s with the %(neighbour)s. Leather corals give off defensive substances "
                "(terpenes); this much water thins them enough."
            ),
            "no_size": later("It would share the water with the %(neighbour)s, and there is enough of it."),
        },
    ),
    "pumps_covered": later("Pump intakes are covered: an anemone that walks is safe from them."),
    "pumps_open": later("Anemones walk, and an open pump intake draws them in and kills them."),
    "pumps_not_said": later("Whether pump intakes are covered was not said; anemones walk into open ones."),
    "space_not_said": later("It grows to %(adult_cm)s; the free width at the spot was not said."),
    "space_fine": later("%(free_cm)s free, and it grows to %(adult_cm)s."),
    "space_for_now": later("%(free_cm)s free for its %(size_cm)s of today; it grows to %(adult_cm)s."),
    "space_too_small": later("%(free_cm)s free, and it is %(size_cm)s across today."),
    "outgrows_tank": later("Grown, it is %(adult_cm)s across, and the tank is %(length_cm)s long; it can be cut back."),
    "too_big_for_tank": later(
        "Grown, it is %(adult_cm)s across, the tank is %(length_cm)s long, and it cannot be cut back."
    ),
    "feeding_fine": Plural(
        later("%(days)s day of feeding a week; it does best with %(needs_days)s."),
        later("%(days)s days of feeding a week; it does best with %(needs_days)s."),
        "days",
    ),
    "feeding_less": Plural(
        later("%(days)s day of feeding a week is less than the %(needs_days)s it does best with."),
        later("%(days)s days of feeding a week are less than the %(needs_days)s it does best with."),
        "days",
    ),
    "feeding_too_little": Plural(
        later("%(days)s day of feeding a week is too little: this kind needs %(needs_days)s."),
        later("%(days)s days of feeding a week are too little: this kind needs %(needs_days)s."),
        "days",
    ),
    "feeding_cannot": Plural(
        later("It lives by food alone, %(needs_days)s days a week; %(days)s day is too little to live on."),
        later("It lives by food alone, %(needs_days)s days a week; %(days)s days are too little to live on."),
        "days",
    ),
    "feeding_not_said": Plural(
        later("It wants food %(needs_days)s day a week; how often you can feed was not said."),
        later("It wants food %(needs_days)s days a week; how often you can feed was not said."),
        "needs_days",
    ),
    "age_fine": Plural(
        later("The tank has run for %(age_months)s month or more; this kind needs %(needs_months)s."),
        later("The tank has run for %(age_months)s months or more; this kind needs %(needs_months)s."),
        "age_months",
    ),
    "age_too_young": Cases(
        lambda values: "new" if values["age_months"] < 1 else "young",
        {
            "new": later("The tank has run for less than a month; this kind needs %(needs_months)s."),
            "young": Plural(
                later("The tank has run for %(age_months)s month; this kind needs %(needs_months)s."),
                later("The tank has run for %(age_months)s months; this kind needs %(needs_months)s."),
                "age_months",
            ),
        },
    ),
    "age_not_said": Plural(
        later("It needs a tank that has run for %(needs_months)s month; the age of yours was not said."),
        later("It needs a tank that has run for %(needs_months)s months; the age of yours was not said."),
        "needs_months",
    ),
}  # fmt: skip
