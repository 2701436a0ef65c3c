"""From our water to the buyer's, step by step. Places: fit.plan_codes.ACCLIMATION. WHEN: the heading of each step."""

from webapp.science.flow import WORDS
from webapp.words.language import later
from webapp.words.sentences import Cases, Plural, Sentence, case_of

SEEN = ("dirt_settles", "gentle_sway", "waves_steadily", "bent_over")


def flow_as_seen(flow_cm_s: float) -> str:
    """What can be seen at that speed: a key of science.flow.WORDS, up to the strongest that anybody starts in."""
    return [word for word in SEEN if word == SEEN[0] or WORDS[word][0][0] <= flow_cm_s][-1]


STEPS: dict[str, Sentence] = {
    "dim_first": later("Lamp off or at most at %(share)s of its strength until the next morning."),
    "no_float": later("Our water has %(bag_c)s and yours %(tank_c)s: no floating needed."),
    "float": later("Float the closed bag for %(minutes)s minutes: our water has %(bag_c)s, yours %(tank_c)s."),
    "float_unmeasured": later("Float the closed bag for %(minutes)s minutes, for we do not know both temperatures."),
    "salinity_unknown": later(
        "Measure the salinity of the bag and of your tank: without both no drip can be worked out. Ask us."
    ),
    "rinse_and_move": later(
        "Salinity is close, %(bag_ppt)s here and %(tank_ppt)s with you: rinse it in your tank's water and put it in."
    ),
    "drip": later(
        "Let %(add_ml)s ml of your tank's water drip into %(bag_ml)s ml of the bag's over %(minutes)s minutes: "
        "%(drops_per_s)s drops a second. Salinity goes from %(bag_ppt)s to %(end_ppt)s; your tank has %(tank_ppt)s."
    ),
    "pour_half_away": later("Each time the water has doubled, every %(every_minutes)s minutes, pour half of it away."),
    "tub": later(
        "Too far for a drip: from %(from_ppt)s to %(to_ppt)s takes %(days)s days in a heated tub with moving water, "
        "%(ppt_per_day)s a day."
    ),
    "tub_day": later("Bring the tub to %(salinity_ppt)s."),
    "tub_clean_water": later("Fill the tub with new salt water at %(bag_ppt)s, not with the bag's water."),
    "long_journey": later(
        "After %(hours)s hours on the road no long drip, at most %(most_minutes)s minutes: in an opened bag ammonia "
        "turns poisonous."
    ),
    "no_bag_water": later("The bag's water never goes into your tank."),
    "light_not_needed": later("It lives without light: any dim place will do."),
    "light_not_right": later("First make the light right for it, as said under Light; then ask again."),
    "light_unknown": later("The light here or at your spot is not known: start low and dim, and move it up slowly."),
    "light_at_once": Cases(
        lambda values: "more" if values["goal_mol"] > values["now_mol"] else "less",
        {
            "more": later(
                "Your spot gives little more light than it had here (%(goal_mol)s against %(now_mol)s mol/m² a day): "
                "it may stand there at once."
            ),
            "less": later(
                "Your spot gives no more light than it had here (%(goal_mol)s against %(now_mol)s mol/m² a day): it "
                "may stand there at once."
            ),
        },
    ),
    "light_by_dimmer": later(
        "With a dimmer, and nothing under the lamp that needs its full light: put it at its spot, the lamp at "
        "%(start_share)s, and raise it in %(steps)s steps over %(days)s days."
    ),
    "light_by_moving": later(
        "Without a dimmer: start where the light is %(par_start)s µmol/m²/s and move it up over %(days)s days to "
        "where it is %(par_goal)s."
    ),
    "light_step": Cases(
        case_of("way"),
        {
            "dimmer": later("Lamp at %(share)s (%(par)s µmol/m²/s at the spot)."),
            "move": later("Move it to where the light is %(par)s µmol/m²/s."),
        },
    ),
    "final_spot_on_day": Cases(
        case_of("way"),
        {
            "dimmer": later("It has its full light."),
            "move": later("It stands at its spot for good."),
        },
    ),
    "flow_low_first": Cases(
        lambda values: flow_as_seen(values["flow_cm_s"]),
        {
            "dirt_settles": later(
                "Start at the gentle end of its flow, about %(flow_cm_s)s cm/s: almost still, tentacles hang."
            ),
            "gentle_sway": later(
                "Start at the gentle end of its flow, about %(flow_cm_s)s cm/s: soft corals sway gently."
            ),
            "waves_steadily": later(
                "Start at the gentle end of its flow, about %(flow_cm_s)s cm/s: tentacles wave all the time."
            ),
            "bent_over": later(
                "Start at the gentle end of its flow, about %(flow_cm_s)s cm/s: soft corals are bent over to one side."
            ),
        },
    ),
    "hold_still": later(
        "Keep it behind mesh or in a still corner until it holds by itself, %(days_low)s to %(days_high)s days."
    ),
    "no_feeding_yet": Plural(
        later("No food for the first day."), later("No food for the first %(days)s days."), "days"
    ),
    "feed_from_day": later("Feed it from this day on: this kind does not wait long."),
    "leave_in_peace": later("Move it at most once in the first %(days)s days."),
    "look_on_day": Cases(
        case_of("what"),
        {
            "open": later("Look: it should open by day. If it stays shut, test the water before you move it."),
            "water": later("Test the water again, alkalinity and salinity first."),
            "spot": later("Look at the spot: pale means too much light, stretched towards the lamp too little."),
            "compare": later("Compare it with a picture from the first day: size, colour, new growth."),
        },
    ),
}  # fmt: skip

#: Heading of a step; codes that carry a `day` are headed by it.
WHEN: dict[str, str] = {
    "dim_first": later("First of all"),
    "no_float": later("Warmth"),
    "float": later("Warmth"),
    "float_unmeasured": later("Warmth"),
    "salinity_unknown": later("Salinity"),
    "rinse_and_move": later("Salinity"),
    "drip": later("Salinity"),
    "pour_half_away": later("Meanwhile"),
    "tub": later("Salinity"),
    "tub_clean_water": later("Salinity"),
    "long_journey": later("Before you open the bag"),
    "no_bag_water": later("Then"),
    "light_not_needed": later("Light"),
    "light_not_right": later("Light"),
    "light_unknown": later("Light"),
    "light_at_once": later("Light"),
    "light_by_dimmer": later("Light"),
    "light_by_moving": later("Or"),
    "flow_low_first": later("Flow"),
    "hold_still": later("Until it holds"),
    "no_feeding_yet": later("Food"),
    "leave_in_peace": later("In peace"),
}
