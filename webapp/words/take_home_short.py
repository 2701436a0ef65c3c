"""Sentences of a sheet where the pages have longer ones: a sheet reminds, and states each thing once.

Codes and places are those of fit.codes and fit.plan_codes. Cautions say all that the pages say.
"""

from collections.abc import Sequence

from webapp.fit.findings import Finding, Note
from webapp.words.acclimation_notes import flow_as_seen
from webapp.words.language import later
from webapp.words.notes import sentence_of
from webapp.words.places import places_of
from webapp.words.sentences import Cases, Sentence, case_of, filled, finished
from webapp.words.speaker import Speaker

WHOLE: dict[str, Sentence] = {
    "whole_worst": Cases(
        case_of("verdict"),
        {
            "close": later("Not ideal: %(factors)s."),
            "change_first": later("%(factors)s."),  # beside the verdict, 'Change first'
            "not_here": later("No change of water mends this: %(factors)s."),
        },
    ),
    "whole_required_missing": later("Still needed: %(factors)s."),
    "whole_unsettled": later("Too coarse to settle: %(factors)s."),
    "whole_three_close": later("%(n)s things not ideal at once: %(factors)s."),
    "whole_also_close": later("Also not ideal: %(factors)s."),
}
SAFETY: dict[str, Sentence] = {
    "safety_toxic": Cases(
        lambda values: "palytoxin" if "palytoxin" in values["note"] else "other",
        {
            "palytoxin": later(
                "%(note)s. Palytoxin is one of the strongest natural poisons, and the eye cannot tell which polyps "
                "carry it. Ill after handling: stop, fresh air, a doctor or the poisons line at once; say 'aquarium "
                "coral, possible palytoxin' and at what hour."
            ),
            "other": later(
                "Dangerous to people: %(note)s. Ill after handling: stop, fresh air, a doctor or the poisons line at "
                "once."
            ),
        },
    ),
    "safety_handling": later("%(note)s."),
    "safety_dosing": later("Powders: protect your eyes, take reagent or food grade, follow the label."),
    "safety_electricity": later(
        "Electricity: a drip loop in every cable, a residual-current device (30 mA), unplug with dry hands before you "
        "reach in. Local rules come first."
    ),
}
PAPERWORK: dict[str, Sentence] = {
    "paper_cites": later(
        "CITES appendix %(appendix)s (trade in wild species): no border without papers; ask the authorities first."
    ),
}
STEPS: dict[str, Sentence] = {
    "dim_first": later("Lamp off, or at most %(share)s, until morning."),
    "no_float": later("No floating needed: %(bag_c)s here, %(tank_c)s with you."),
    "float": later("Float the closed bag: %(bag_c)s here, %(tank_c)s with you."),
    "float_unmeasured": later("Float the closed bag: we do not know both temperatures."),
    "salinity_unknown": later(
        "Measure the salinity of the bag and of your tank, and ask us: without both no drip can be worked out."
    ),
    "rinse_and_move": later("Salinity %(bag_ppt)s here, %(tank_ppt)s with you: rinse it in tank water."),
    "drip": later(
        "Drip %(add_ml)s ml of your water into %(bag_ml)s ml of the bag's, %(drops_per_s)s drops a second: from "
        "%(bag_ppt)s to %(end_ppt)s; your tank has %(tank_ppt)s."
    ),
    "pour_half_away": later("Each time the water has doubled, pour half of it away."),
    "no_bag_water": later("No bag water into your tank."),
    "light_unknown": later("The light here or at your spot is not known: start low and dim, move it up slowly."),
    "light_by_dimmer": later("If nothing else needs full light, to its spot at once."),
    "light_by_moving": later("Move it up."),
    "flow_low_first": Cases(
        lambda values: flow_as_seen(values["flow_cm_s"]),
        {
            "dirt_settles": later("Gentle at first, about %(flow_cm_s)s cm/s: almost still."),
            "gentle_sway": later("Gentle at first, about %(flow_cm_s)s cm/s: soft corals sway."),
            "waves_steadily": later("Gentle at first, about %(flow_cm_s)s cm/s: tentacles wave all the time."),
            "bent_over": later("Gentle at first, about %(flow_cm_s)s cm/s: soft corals are bent over."),
        },
    ),
    "hold_still": later("Behind mesh or in a still corner, for %(days_low)s to %(days_high)s days."),
    "no_feeding_yet": later("No food."),
    "feed_from_day": later("Feed it from this day on."),
    "leave_in_peace": later("Move it once at most."),
    "look_on_day": Cases(
        case_of("what"),
        {
            "open": later("Not open by day? Test the water, then move it."),
            "water": later("Test alkalinity, salinity, then the rest."),
            "spot": later("Pale: too much light. Stretched up: too little."),
            "compare": later("Compare with the first photo."),
        },
    ),
}
#: Groups of tankmates by a name that fits into a list; the others are called what they are called everywhere.
MATES = {
    "butterflyfish": later("most butterflyfish"),
    "butterflyfish_longnose": later("long-nosed butterflyfish"),
    "pufferfish": later("puffers and boxfish"),
    "filefish": later("filefish"),
    "quiet_small_fish": later("small quiet fish"),
    "mandarin": later("mandarins and dragonets"),
    "crab_emerald": later("emerald crabs"),
    "crab_guard": later("coral crabs"),
}
#: Groups that are called by one name where a list holds all of them.
TOGETHER = (
    (("large_angelfish", "dwarf_angelfish"), later("large and dwarf angelfish")),
    (("butterflyfish", "butterflyfish_longnose"), later("all butterflyfish")),
    (("large_wrasse", "small_wrasse"), later("large and small wrasses")),
    (("shrimp_cleaner", "shrimp_peppermint", "shrimp_other"), later("all shrimps")),
    (("crab_hermit", "crab_emerald", "crab_guard"), later("all crabs")),
)
#: Advice, under the name of its factor.
ADVICE: dict[str, Sentence] = {
    "steady_it": later("%(quantity)s: within %(bears)s a day."),
    "keep_gap": later("At least %(needed_cm)s from the %(neighbour)s."),
    "cool_in_summer": later("Shade, a fan or a chiller: %(by_c)s less."),
}
PLACE: dict[str, Sentence] = {
    "spot_light_decides": later("Light: %(low_umol)s to %(high_umol)s µmol/m²/s (PAR)."),
    "spot_flow_decides": later("Flow: %(low_cm_s)s to %(high_cm_s)s cm/s."),
}
SHORT: dict[str, Sentence] = {**WHOLE, **SAFETY, **PAPERWORK, **STEPS, **ADVICE, **PLACE}


def short_sentence(note: Note, speaker: Speaker, finding: Finding | None = None) -> str:
    """The sentence of a note as a sheet says it. `finding`: the factor it stands in.

    Raises KeyError for a code that has none.
    """
    sentence = SHORT.get(note.code) or sentence_of(note)
    return finished(filled(sentence, note.values, places_of(note, speaker, finding), speaker))


def mate_names(keys: Sequence[str], speaker: Speaker) -> list[str]:
    """Groups of tankmates inside a list, several by one name where there is one."""
    named = {key: mate_name(key, speaker) for key in keys}
    for group, name in TOGETHER:
        if named.keys() >= set(group):
            named |= dict.fromkeys(group, speaker.translate(name))
    return list(dict.fromkeys(named.values()))


def mate_name(key: str, speaker: Speaker) -> str:
    """A group of tankmates inside a list."""
    return speaker.translate(MATES[key]) if key in MATES else speaker.tankmate(key).split(" (")[0]
