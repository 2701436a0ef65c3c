"""Every number the shop decides by, with its default and what that default rests on. Units stand in the key."""

from dataclasses import dataclass

COMMON = "common practice"
LOWER = "common practice gives a range; its careful end is taken"
OURS = "our choice, a place to start: put in what it costs here"
BARTON = "Barton et al. 2019, Front. Mar. Sci. 6:524"


@dataclass(frozen=True, slots=True)
class Threshold:
    """A number the shop may change between `low` and `high`. `basis`: what the default `value` rests on."""

    key: str
    label: str
    value: float
    unit: str
    low: float
    high: float
    basis: str = COMMON


def _of(*thresholds: tuple) -> tuple[Threshold, ...]:
    return tuple(Threshold(*one) for one in thresholds)


#: What each is about -> its thresholds, in the order of the settings page.
SECTIONS: dict[str, tuple[Threshold, ...]] = {
    "Tanks": _of(
        ("heat_warn_c", "Warm: warn from", 28.0, "°C", 24, 32),
        ("heat_act_c", "Hot: act from", 29.0, "°C", 24, 34),
        ("cold_warn_c", "Cold: warn below", 22.5, "°C", 15, 26),
        ("ammonia_stop_mg_l_n", "Ammonia: stop sales above", 0.25, "mg/L NH3-N", 0.01, 5),
        ("odd_reading_spreads", "A reading is asked about this many spreads from the last ones", 3.5, "", 2, 20,
         "modified z-score of Iglewicz and Hoaglin 1993, How to Detect and Handle Outliers"),
        ("reading_due_days", "Water is due to be read after", 7, "days", 1, 90),
        ("rack_par_days", "Light of a rack is due to be read after", 30, "days", 1, 365),
        ("feed_lps_days", "Large-polyp stony corals are due to be fed after", 7, "days", 1, 60, LOWER),
        ("feed_mushroom_days", "Mushrooms are due to be fed after", 7, "days", 1, 60, LOWER),
    ),
    "Receiving": _of(
        ("bag_cold_c", "A bag is flagged below", 18.0, "°C", 10, 25),
        ("bag_hot_c", "A bag is flagged above", 31.0, "°C", 26, 40),
        ("match_temp_c", "A bag is warm enough within", 1.0, "°C", 0.1, 3),
        ("match_rate_c", "A bag warms or cools by at most", 2.0, "°C in 15 min", 0.5, 10),
        ("rinse_gap_ppt", "Rinse and move up to a salinity gap of", 1.0, "ppt", 0.2, 3),
        ("short_drip_gap_ppt", "After a long journey: a tub above a gap of", 3.0, "ppt", 1, 5),
        ("tub_gap_ppt", "A tub instead of a drip above a gap of", 5.0, "ppt", 2, 8),
        ("tub_ppt_per_day", "Walk a tub back by at most", 2.5, "ppt a day", 0.5, 5),
        ("long_transit_h", "A journey is long above", 24, "h", 4, 72),
        ("long_transit_drip_min", "After a long journey drip at most", 30, "min", 5, 90),
        ("doa_window_h", "Claim what arrived dead within", 24, "h", 1, 240, LOWER + "; the supplier's own terms win"),
    ),
    "Quarantine": _of(
        ("quarantine_soft_days", "Mushrooms, zoanthids, soft corals and gorgonians stay", 14, "days", 1, 120, LOWER),
        ("quarantine_lps_days", "Large-polyp stony corals and anemones stay", 28, "days", 1, 120, LOWER),
        ("quarantine_sps_days", "Small-polyp stony corals stay", 42, "days", 1, 120, LOWER + "; " + BARTON),
        ("quarantine_clam_days", "Giant clams stay", 42, "days", 1, 120),
        ("clean_checks", "Clean inspections before release", 2, "", 1, 10),
        ("clean_check_gap_days", "Days between two that count", 7, "days", 1, 60),
        ("hatch_days_27", "Eggs of Acropora flatworms hatch at 27 °C after", 11, "days", 3, 40, BARTON),
        ("generation_days_27", "Their generation at 27 °C", 38, "days", 20, 100, BARTON),
        ("generation_days_24", "Their generation at 24 °C", 64, "days", 20, 150, BARTON),
        ("dip_repeat_first_days", "Dip again at 27 °C after", 12, "days", 1, 60, COMMON + ", from the hatch time"),
        ("dip_repeat_second_days", "And once more at 27 °C after", 24, "days", 2, 90, COMMON + ", from the hatch time"),
        ("fresh_cut_h", "No dip sooner after a cut than", 48, "h", 0, 240),
    ),
    "Cutting and healing": _of(
        ("cut_rest_days", "A mother rests between cuts", 28, "days", 1, 365, LOWER),
        ("cut_rest_lps_days", "A large-polyp mother rests between cuts", 56, "days", 1, 365, LOWER),
        ("cut_share_pct", "Take at most of her at once", 33, "%", 1, 90),
        ("cut_share_sps_pct", "Take at most of a small-polyp mother", 50, "%", 1, 90),
        ("least_piece_mm", "Keep a piece from", 10, "mm", 1, 100),
        ("loose_check_h", "Look whether it holds after", 48, "h", 1, 240),
        ("open_days", "Days open before sale", 5, "days", 0, 14),
        ("open_window_days", "Of the last", 7, "days", 1, 30),
        ("sale_pest_checks", "Checks without a pest before sale", 2, "", 0, 10),
        ("sale_pest_gap_days", "Days between two that count for sale", 7, "days", 1, 60),
        ("new_tissue_mm", "New tissue of a small-polyp frag before sale", 1.0, "mm", 0, 20, LOWER),
        ("least_sps_mm", "Least size for sale, small-polyp", 20, "mm", 1, 200, LOWER),
        ("least_lps_heads", "Least heads for sale, large-polyp", 1, "heads", 1, 20),
        ("least_zoanthid_heads", "Least polyps for sale, zoanthids", 3, "polyps", 1, 50),
        ("least_mushroom_mm", "Least size for sale, mushrooms", 20, "mm", 1, 200),
        ("least_soft_mm", "Least size for sale, soft corals and gorgonians", 30, "mm", 1, 300),
    ),
    "Growth": _of(
        ("growth_least_days", "No growth rate from fewer than", 14, "days", 1, 120),
        ("growth_error_mm", "Error of a size measured by hand", 1.0, "mm", 0.1, 20),
        ("growth_odd_times", "A size is asked about beyond the usual growth times", 10, "×", 2, 100),
        ("measure_due_days", "A mother is due to be measured after", 30, "days", 7, 365),
    ),
    "Pests": _of(
        ("pest_check_days", "Look again after a pest in", 7, "days", 1, 60),
        ("pest_clear_checks", "Clean looks before it counts as gone", 2, "", 1, 10),
        ("pest_share_days", "What shared the water this long before the finding is exposed too", 0, "days", 0, 120,
         "our choice: from the finding on; a longer look back is safer"),
    ),
    "Losses and counts": _of(
        ("loss_batch_pct", "A loss in one batch deserves a look above", 10, "%", 1, 100),
        ("loss_month_pct", "A loss of rack stock in 30 days deserves a look above", 5, "%", 1, 100),
        ("scrap_mother_pct", "A mother is in question when her frags die above", 40, "%", 1, 100),
        ("scrap_mother_batches", "In this many batches", 3, "", 1, 20),
        ("recount_pct", "Recount when more is missing than", 2, "%", 0, 100),
        ("investigate_pct", "Investigate when more is missing than", 5, "%", 0, 100),
        ("count_rack_days", "A rack is due to be counted after", 7, "days", 1, 365),
        ("count_all_days", "Everything is due to be counted after", 30, "days", 1, 365),
    ),
    "Sales": _of(
        ("hold_h", "A hold without a deposit lasts at most", 72, "h", 1, 720),
        ("hold_deposit_days", "A hold with a deposit lasts at most", 14, "days", 1, 90),
        ("hold_warn_h", "Warn before a hold runs out", 24, "h", 1, 168),
        ("price_review_days", "Look at the price after this long for sale", 60, "days", 1, 730),
        ("low_stock", "Cut again when fewer are for sale than", 3, "plugs", 0, 100, LOWER),
        ("claim_posted_h", "Posted: claim within", 2, "h", 0.5, 72, COMMON + "; local consumer law wins"),
        ("claim_shop_h", "From the shop: claim within", 24, "h", 1, 720, LOWER + "; local consumer law wins"),
    ),
    "Costs for the price floor": _of(
        ("cost_consumables_cents", "Plug, glue and bag, each", 60, "cents", 0, 100_000, OURS),
        ("cost_labour_min", "Work on one, from the cut to the till", 6, "min", 0, 600, OURS),
        ("cost_labour_cents_h", "An hour of work costs", 2000, "cents", 0, 1_000_000, OURS),
        ("cost_rack_cents_day", "A day on the rack costs", 2, "cents", 0, 10_000, OURS),
    ),
    "Journeys and trouble": _of(
        ("bag_air_h", "Bag with air, safe for", 2, "h", 0.5, 12, LOWER),
        ("bag_insulated_air_h", "Insulated, air, safe for", 8, "h", 1, 24, LOWER),
        ("bag_insulated_oxygen_h", "Insulated, oxygen, safe for", 18, "h", 1, 48, LOWER),
        ("bag_freight_h", "Freight box, oxygen and pack, safe for", 24, "h", 1, 72, LOWER),
        ("bag_hardy_h", "Longer than this only hardy kinds", 36, "h", 1, 96),
        ("box_cold_c", "Keep the box above", 22.0, "°C", 15, 26),
        ("box_hot_c", "Keep the box below", 27.0, "°C", 24, 32),
        ("unfed_before_bag_h", "No food before bagging", 24, "h", 0, 96),
        ("uncut_before_bag_h", "No cut before bagging", 48, "h", 0, 240),
        ("power_air_min", "Power off: air stones after", 30, "min", 5, 240),
        ("power_plan_h", "Power off: heat and cold plan after", 4, "h", 0.5, 24),
    ),
}  # fmt: skip

THRESHOLDS: dict[str, Threshold] = {one.key: one for group in SECTIONS.values() for one in group}
#: (lower, upper): the second would never speak, or always, were it below the first.
ORDERED = (
    ("cold_warn_c", "heat_warn_c"), ("heat_warn_c", "heat_act_c"), ("recount_pct", "investigate_pct"),
    ("box_cold_c", "box_hot_c"), ("bag_cold_c", "bag_hot_c"),
)  # fmt: skip
