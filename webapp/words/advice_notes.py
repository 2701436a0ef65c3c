"""What to do about a factor. Places: fit.codes.ADVICE."""

from webapp.words.language import later
from webapp.words.sentences import Cases, Plural, Sentence, case_of

ADVICE: dict[str, Sentence] = {
    "leave_it": later("Leave it: do not change the water of a steady tank for one easy animal."),
    "test_again": later("Test again. This would settle it: %(method)s, good to %(half_range)s."),
    "test_finer": later(
        "Test again with something finer: %(method)s, good to %(half_range)s. So near a limit even that may not do."
    ),
    "mend_either_way": later("Whatever it says, this is outside its ideal: bring it slowly to %(target)s meanwhile."),
    "third_test": later("Test a third time, with another kit or at the shop, and dose nothing before."),
    "thins_out": later("Add none of it: your usual water changes bring it down."),
    "test_again_same_day": later("Test again at another time of day in the same way, and take the mean of the two."),
    "give_reading": later("Measure it before you buy. Good enough: %(method)s."),
    "answer_question": later("Answer the question about it."),
    "lower_slowly": later("Bring it down slowly, to %(target)s."),
    "raise_slowly": later("Bring it up slowly, to %(target)s."),
    "ph_high": later(
        "Do not dose anything for pH. Limewater, carbonate powders and much algae in strong light lift it: use less, "
        "or take some out."
    ),
    "do_not_dose_ph": later("Do not dose anything for pH: find what keeps it low."),
    "fresh_air": later("Give it fresh air: open a window, or lead outside air to the skimmer."),
    "raise_alkalinity": later("Bring the alkalinity up slowly: pH follows."),
    "calibrate_probe": later("Calibrate the meter in fresh buffers, and read again."),
    "feed_more_or_export_less": later("Feed a little more or filter a little less: zero is not the goal."),
    "wait_for_cycle": later("Add no animal until a test sees neither ammonia nor nitrite on two days running."),
    "find_cause": later("Find the cause first: in a tank this old something has died or stopped working."),
    "steady_it": later("Steady the %(quantity)s first, to within %(bears)s a day."),
    "cool_in_summer": later("Plan for the next heat: shade, a fan or a chiller that takes off %(by_c)s."),
    "measure_light": later(
        "Borrow or hire a PAR meter (it counts the light that corals live by) and measure at the spot, %(depth_cm)s "
        "below the surface."
    ),
    "describe_light": later("Say which lamp, how many watts and how high it hangs; or measure it."),
    "look_at_flow": later("Look at the spot chosen above, and say what the flow looks like there."),
    "describe_flow": later("Say which pumps you have, or what the flow looks like where it would stand."),
    "dim_light": later("Every spot is too bright for it: dim the lamp by %(share)s."),
    "more_light": later("No spot is bright enough for it: it takes %(factor)s times the light."),
    "less_flow": later("Every spot is too rough for it: turn the pumps down to %(share)s, or shield it with rock."),
    "more_flow": later("No spot has enough flow for it: it takes %(factor)s times as much."),
    "remove_tankmate": later("Only if these leave the tank first: %(tankmate)s."),
    "watch_tankmate": later("Watch these, and start only if you could take it out again: %(tankmate)s."),
    "keep_gap": later("Keep at least %(needed_cm)s clear between it and the %(neighbour)s."),
    "far_end": later("Your tank is %(length_cm)s long: put it and the %(neighbour)s at opposite ends."),
    "down_current": later("Place the leather coral so that the water flows from the stony ones to it."),
    "use_carbon": later("Run activated carbon, and change it every month."),
    "cover_pumps": later("Cover every pump intake before it goes in."),
    "secure_anemone_first": later("Wait until the %(neighbour)s has stayed in one place for some weeks."),
    "make_room": later("Make room first: at least %(needs_cm)s."),
    "plan_to_move": later("It cannot be cut back: plan to move it to where there is room as it grows."),
    "plan_to_trim": later("Plan to cut it back or move it as it grows."),
    "say_space": later("Measure the clear width at the spot."),
    "feed_it": Plural(
        later("Feed it on %(needs_days)s day a week."), later("Feed it on %(needs_days)s days a week."), "needs_days"
    ),
    "wait_months": Plural(
        later("Wait %(wait_months)s month more."), later("Wait %(wait_months)s months more."), "wait_months"
    ),
    "name_tankmates": later("Say which fish, shrimps, crabs, stars and urchins live there."),
}  # fmt: skip

SPOT: dict[str, Sentence] = {
    "spot_light_decides": later("Light there: %(low_umol)s to %(high_umol)s µmol/m²/s (PAR)."),
    "spot_flow_decides": later("Flow there: %(low_cm_s)s to %(high_cm_s)s cm/s."),
    "spot_as_usual": Cases(
        case_of("placement"),
        {
            "upper": later("This kind usually stands in the upper third."),
            "middle": later("This kind usually stands at half height."),
            "lower": later("This kind usually stands in the lower third."),
            "anywhere": later("This kind stands at any height where light and flow suit it."),
        },
    ),
    "spot_higher_than_usual": later("Higher than this kind usually stands: light or flow suit it better there."),
    "spot_lower_than_usual": later("Lower than this kind usually stands: light or flow suit it better there."),
    "spot_on_sand": later("It lies free on the sand, never wedged into rock."),
    "spot_edge": later("Near a side, out of the middle of the beam."),
    "spot_half_shade": later("Partly shaded by rock."),
    "spot_shade": later("In the shade of rock or under an overhang."),
    "spot_sheltered": later("Behind rock, out of the pumps' stream."),
    "spot_half_sheltered": later("Half sheltered by rock."),
    "spot_edge_of_stream": later("At the edge of a pump's stream."),
    "spot_in_stream": later("In a pump's stream, at least a third of the tank's length away from the pump."),
    "spot_near_pump": later("In a pump's stream, about a third of the tank's length away from the pump."),
    "spot_gap": later("Keep it at least %(needed_cm)s clear of the %(neighbour)s there."),
    "spot_by_habit": Cases(
        case_of("placement"),
        {
            "upper": later("Without light or flow this is habit only: this kind usually stands in the upper third."),
            "middle": later("Without light or flow this is habit only: this kind usually stands at half height."),
            "lower": later("Without light or flow this is habit only: this kind usually stands in the lower third."),
            "bottom": later("Without light or flow this is habit only: this kind lies on the sand."),
            "anywhere": later("Without light or flow given nothing can be said of the height: this kind takes any."),
        },
    ),
}  # fmt: skip
