"""All the rules in the order of the page: what cannot wait first."""

from collections.abc import Callable

from webapp.errors import NotFound
from webapp.services.today import afterwards, animals, racks, strains, tanks
from webapp.services.today.day import Day, Found

Rule = Callable[[Day], Found]
RULES: dict[str, Rule] = {
    "alarm": tanks.alarm,
    "off_sale": animals.off_sale,
    "stop_sale": animals.stop_sale,
    "out": tanks.out,
    "dead_claim": afterwards.dead_claim,
    "shipment": afterwards.shipment,
    "conflict": animals.conflict,
    "hold_unwell": animals.hold_unwell,
    "hold_ends": animals.hold_ends,
    "claims": afterwards.claims,
    "posted": afterwards.posted,
    "loose_check": animals.loose_check,
    "dip": animals.dip,
    "pest_look": afterwards.pest_look,
    "inspect": animals.inspect,
    "ready": animals.ready,
    "release": animals.release,
    "feed": tanks.feed,
    "read_water": tanks.read_water,
    "low_stock": strains.low_stock,
    "may_be_cut": strains.may_be_cut,
    "read_light": racks.read_light,
    "move_rack": racks.move_rack,
    "measure": strains.measure,
    "batch_losses": strains.batch_losses,
    "mother_in_question": strains.mother_in_question,
    "month_losses": afterwards.month_losses,
    "missing": animals.missing,
    "count_gap": racks.count_gap,
    "count_racks": racks.count_racks,
    "count_all": racks.count_all,
    "price_review": animals.price_review,
}
CAN_WAIT = frozenset((
    "low_stock", "may_be_cut", "read_light", "move_rack", "measure", "batch_losses", "mother_in_question",
    "month_losses", "missing", "count_gap", "count_racks", "count_all", "price_review",
))  # fmt: skip
"""Rules of which nothing suffers when they are seen to tomorrow: they stand behind a tap."""


def today(day: Day) -> list[Found]:
    """What each rule found, without those that found nothing."""
    return [found for rule in RULES.values() if (found := rule(day)).due]


def one_rule(day: Day, rule: str) -> Found:
    """What one rule found. Raises NotFound."""
    if rule not in RULES:
        raise NotFound("There is no such list. Go back to Today.")
    return RULES[rule](day)
