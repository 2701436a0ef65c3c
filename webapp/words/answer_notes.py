"""What is said of the whole, and beside it. Places: fit.codes.WHOLE, SAFETY, PAPERWORK, UNKNOWABLE."""

from webapp.words.language import later
from webapp.words.sentences import Cases, Sentence, case_of

WHOLE: dict[str, Sentence] = {
    "whole_suits": later("Everything that counts suits it."),
    "whole_left_out": later("Not said, so not in this answer, yet able to turn it: %(factors)s."),
    "whole_asked": later("Not in this answer until its question is answered: %(factors)s."),
    "whole_worst": Cases(
        case_of("verdict"),
        {
            "close": later("It can live there. Not ideal: %(factors)s."),
            "change_first": later("What must change first: %(factors)s."),
            "not_here": later("No change of water mends this: %(factors)s."),
        },
    ),
    "whole_required_missing": later("Still needed before anyone can say yes: %(factors)s."),
    "whole_unsettled": later("Given, but too coarse to settle it: %(factors)s."),
    "whole_three_close": later(
        "%(n)s things are not ideal at once: %(factors)s. For a demanding kind (grade %(hardiness)s of 5) three such "
        "count as one to change first."
    ),
    "whole_leave_it": Cases(
        lambda values: "one" if len(values["factors"]) == 1 else "several",
        {
            "one": later("A small miss for an easy animal: %(factors)s. Leave the water of a steady tank as it is."),
            "several": later(
                "Small misses for an easy animal: %(factors)s. Leave the water of a steady tank as it is."
            ),
        },
    ),
}
SAFETY: dict[str, Sentence] = {
    "safety_toxic": Cases(
        lambda values: "palytoxin" if "palytoxin" in values["note"] else "other",
        {
            "palytoxin": later(
                "%(note)s. Palytoxin is one of the strongest natural poisons, and the eye cannot tell which polyps "
                "carry it. If you feel ill after handling, stop, get fresh air and call a doctor or the poisons line "
                "at once; say 'aquarium coral, possible palytoxin' and at what hour. Keep children and pets away."
            ),
            "other": later(
                "Dangerous to people: %(note)s. If you feel ill after handling, stop, get fresh air and call a doctor "
                "or the poisons line at once. Keep children and pets away."
            ),
        },
    ),
    "safety_stings": later(
        "%(note)s. Do not rub a sting: rinse it with sea water, not fresh. Trouble with breathing, or a sting in the "
        "eye, is an emergency."
    ),
    "safety_handling": Cases(
        lambda values: "said" if "wear gloves" in values["note"] else "not_said",
        {
            "said": later("%(note)s. Wash your hands afterwards."),
            "not_said": later("%(note)s. Wear gloves, and wash your hands afterwards."),
        },
    ),
    "safety_electricity": later(
        "Salt water and electricity: give every cable a drip loop, use a residual-current device (30 mA), and unplug "
        "with dry hands before you reach in. Local rules come first."
    ),
    "safety_dosing": later(
        "Powders: protect your eyes, take reagent or food grade, and follow the label. If you are hurt, call a doctor "
        "or the local poisons line."
    ),
}
PAPERWORK: dict[str, Sentence] = {
    "paper_cites": later(
        "Listed in appendix %(appendix)s of CITES, the convention on trade in wild species: to cross a border with it "
        "you need papers first. Ask the authority of each country, and at the counter which papers this one has."
    ),
}
UNKNOWABLE: dict[str, Sentence] = {
    "unknown_pests": later("Pests and disease that show only later."),
    "unknown_temper": later("How your own animals behave; individuals differ: %(tankmates)s."),
    "unknown_shadow": later(
        "Shadows of rock and neighbours, and the age of the lamp: they are not in the light figure."
    ),
    "unknown_flow_pattern": later("How the stream bends around your rock: it is not in the flow figure."),
    "unknown_size": later("How long, wide and deep your tank is: taken from its volume."),
    "unknown_past": later("How your tank was before these readings."),
    "unknown_used_to": later("What this animal is used to: there are too few readings of ours yet."),
}
