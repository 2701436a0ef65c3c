"""Rules about strains, losses, pests, shipments and claims, each one step either side of its threshold."""

from datetime import timedelta

import pytest

from tests.services.today.making import SECOND, Shop
from webapp.storage.base import new_id
from webapp.words.today import why

DAY, HOUR = timedelta(days=1), timedelta(hours=1)


@pytest.fixture
def shop(stage):
    return Shop(stage)


def mother(shop, name="Mum", **given):
    return shop.animal(status="mother", name=name, **given)


@pytest.mark.parametrize(("for_sale", "is_low"), [(2, True), (3, False)])
def test_low_stock_below_three_for_sale(shop, for_sale, is_low):
    her = mother(shop)
    for _ in range(for_sale):
        shop.animal(name="Mum")
    shop.animal(name="Mum", status="healing")
    shop.animal(name="Another")
    found = {due.id: due.values for due in shop.ask("low_stock", shop.start + DAY).due}
    assert (her in found) is is_low
    if is_low:
        assert (found[her]["for_sale"], found[her]["healing"], found[her]["least"]) == (2, 1, 3)


@pytest.mark.parametrize(("kind", "rest"), [("zoanthus", 28), ("euphyllia_glabrescens", 56)])
def test_low_stock_says_to_cut_only_when_her_rest_is_over(shop, kind, rest):
    """Four weeks, eight for stony corals with large polyps: common practice, as the thresholds say."""
    her = mother(shop, profile_key=kind)
    shop.frags(her, 1, shop.start, profile_key=kind)
    shop.tell((her, "checked", {"edge_closed": True}, shop.start + 20 * DAY))

    def said(at):
        values = next(due.values for due in shop.ask("low_stock", at).due if due.id == her)
        return values["stop"], values["days"], why("low_stock", values).split("low. ")[1]

    rests = "She rests: not to be cut for another %s."
    assert said(shop.start + (rest - 3) * DAY) == ("rested", 3, rests % "3 days")
    assert said(shop.start + (rest - 3) * DAY - SECOND) == ("rested", 4, rests % "4 days")
    assert said(shop.start + rest * DAY - SECOND) == ("rested", 1, rests % "1 day")
    assert said(shop.start + rest * DAY) == ("", 0, "She may be cut now.")


def test_low_stock_does_not_send_to_a_mother_that_is_not_well_or_has_not_closed(shop):
    her = mother(shop)
    shop.frags(her, 1, shop.start)
    stop = lambda: shop.ask("low_stock", shop.start + 40 * DAY).due[-1].values["stop"]  # noqa: E731
    assert stop() == ""
    shop.tell((her, "checked", {"edge_closed": False}, shop.start + 20 * DAY))
    assert stop() == "edge_closed"
    shop.tell((her, "checked", {"edge_closed": True, "slime": True}, shop.start + 21 * DAY))
    assert stop() == "nothing_wrong"


def test_low_stock_names_the_mother_that_may_be_cut_first(shop):
    tired, rested = mother(shop), mother(shop)
    shop.frags(tired, 1, shop.start + 20 * DAY)
    assert rested in shop.ids("low_stock", shop.start + 40 * DAY)
    assert tired not in shop.ids("low_stock", shop.start + 40 * DAY)


def test_low_stock_names_a_strain_once(shop):
    mother(shop), mother(shop)
    assert [due.name for due in shop.ask("low_stock", shop.start + DAY).due].count("Mum") == 1


@pytest.mark.parametrize(("kind", "rest"), [("zoanthus", 28), ("euphyllia_torch", 56)])
def test_may_be_cut_in_the_week_after_her_rest(shop, kind, rest):
    from webapp.schemas.profiles import load_profiles

    key = kind if kind in load_profiles() else next(k for k, one in load_profiles().items() if one.group == "lps")
    her = mother(shop, profile_key=key)
    shop.frags(her, 1, shop.start, profile_key=key)
    shop.tell((her, "checked", {"edge_closed": True}, shop.start + 20 * DAY))
    assert shop.ids("may_be_cut", shop.start + rest * DAY - SECOND) == []
    assert shop.ids("may_be_cut", shop.start + rest * DAY) == [her]
    assert shop.ids("may_be_cut", shop.start + (rest + 7) * DAY) == [her]
    assert shop.ids("may_be_cut", shop.start + (rest + 7) * DAY + SECOND) == []


def test_may_be_cut_not_while_something_ails_her(shop):
    her = mother(shop)
    shop.frags(her, 1, shop.start)
    shop.tell((her, "checked", {"edge_closed": True, "slime": True}, shop.start + 20 * DAY))
    assert shop.ids("may_be_cut", shop.start + 28 * DAY) == []


def test_measure_a_mother_after_30_days(shop):
    her = mother(shop)
    ask = lambda days: her in shop.ids("measure", shop.start + timedelta(days=days))  # noqa: E731
    assert (ask(29.999), ask(30)) == (False, True)
    shop.tell((her, "measured", {"size_mm": 40}, shop.start + 31 * DAY))
    assert (ask(60.999), ask(61)) == (False, True)


@pytest.mark.parametrize(("pieces", "dead", "told"), [(10, 1, False), (10, 2, True), (9, 1, True)])
def test_batch_losses_above_ten_percent(shop, pieces, dead, told):
    her = mother(shop)
    ids = shop.frags(her, pieces, shop.start)
    shop.tell(*((one, "lost", {"cause": "unknown"}, shop.start + DAY) for one in ids[:dead]))
    assert (shop.ids("batch_losses", shop.start + 2 * DAY) == [her]) is told


@pytest.mark.parametrize(("alive", "dead", "told"), [(9, 1, False), (8, 1, True)])
def test_a_shipment_counts_as_a_batch(shop, alive, dead, told):
    box, line = new_id(), new_id()
    opened = {"supplier": "a farm", "opened_at": shop.start.isoformat()}
    ordered = {"line": line, "profile_key": "zoanthus", "name": "Ring", "origin": "wild", "count": 10}
    arrived = {"line": line, "alive": alive, "dead": dead, "specimens": []}
    shop.tell(
        (box, "shipment_set", opened, shop.start), (box, "shipment_line", ordered, shop.start),
        (box, "line_arrived", arrived, shop.start + HOUR),
    )  # fmt: skip
    assert (shop.ids("batch_losses", shop.start + 30 * DAY) == [box]) is told
    assert shop.ids("batch_losses", shop.start + 30 * DAY + SECOND) == []


@pytest.mark.parametrize(("died", "told"), [(1, False), (2, True)])
def test_of_a_shipment_those_count_that_died_here(shop, died, told):
    """Ten came alive: one in ten is not above ten percent, two are. What died of another box is none of its."""
    box, other, line = new_id(), new_id(), new_id()
    opened = {"supplier": "a farm", "opened_at": shop.start.isoformat()}
    ordered = {"line": line, "profile_key": "zoanthus", "name": "Ring", "origin": "wild", "count": 10}
    came = [shop.animal(shipment_id=box) for _ in range(died)]
    shop.tell(
        (box, "shipment_set", opened, shop.start), (box, "shipment_line", ordered, shop.start),
        (box, "line_arrived", {"line": line, "alive": 10, "dead": 0, "specimens": came}, shop.start + HOUR),
        *((one, "lost", {"cause": "unknown"}, shop.start + DAY) for one in [*came, shop.animal(shipment_id=other)]),
    )  # fmt: skip
    assert (shop.ids("batch_losses", shop.start + 2 * DAY) == [box]) is told


def test_batch_losses_are_told_for_30_days(shop):
    her = mother(shop)
    one = shop.frags(her, 2, shop.start)[0]
    shop.tell((one, "lost", {"cause": "unknown"}, shop.start + DAY))
    assert shop.ids("batch_losses", shop.start + 31 * DAY) == [her]
    assert shop.ids("batch_losses", shop.start + 31 * DAY + SECOND) == []


@pytest.mark.parametrize(
    ("dead", "told"), [((3, 3, 3), True), ((3, 2, 3), False), ((0, 3, 3, 3), True), ((3, 3, 3, 0), False)]
)
def test_mother_in_question_after_three_batches_above_forty_percent(shop, dead, told):
    """Batches of five, oldest first: 3 of 5 is 60 %, 2 of 5 exactly 40 %."""
    her = mother(shop)
    for number, count in enumerate(dead):
        ids = shop.frags(her, 5, shop.start + number * DAY)
        shop.tell(*((one, "lost", {"cause": "unknown"}, shop.start + 10 * DAY) for one in ids[:count]))
    assert (shop.ids("mother_in_question", shop.start + 11 * DAY) == [her]) is told


@pytest.mark.parametrize(("dead", "told"), [(1, False), (2, True)])
def test_month_losses_above_five_percent(shop, dead, told):
    """The stage's mother and 19 more: 1 of 20 is 5 %, 2 of 20 is 10 %."""
    ids = [shop.animal() for _ in range(19)]
    shop.tell(*((one, "lost", {"cause": "unknown"}, shop.start + DAY) for one in ids[:dead]))
    found = shop.ask("month_losses", shop.start + 2 * DAY).due
    assert [(due.values["lost"], due.values["pct"]) for due in found] == ([(2, 10.0)] if told else [])
    assert shop.ask("month_losses", shop.start + 31 * DAY + SECOND).due == ()


def test_pest_look_every_week_until_it_is_gone(shop, stage):
    pest = new_id()
    shop.tell((pest, "pest_found", {"tank_id": stage.tank, "pest": "other", "stops_sale": False}, shop.start))
    assert shop.ids("pest_look", shop.start + 7 * DAY - SECOND) == []
    assert shop.ids("pest_look", shop.start + 7 * DAY) == [pest]
    shop.tell((pest, "pest_looked", {"clean": True}, shop.start + 7 * DAY))
    assert shop.ids("pest_look", shop.start + 14 * DAY - SECOND) == []
    shop.tell((pest, "pest_cleared", {}, shop.start + 14 * DAY))
    assert shop.ids("pest_look", shop.start + 30 * DAY) == []


def test_shipment_from_its_hour_until_it_is_unpacked(shop):
    box = new_id()
    due = shop.start + 2 * DAY
    shop.tell((box, "shipment_set", {"supplier": "a farm", "expected_at": due.isoformat()}, shop.start))
    assert shop.ids("shipment", due - SECOND) == []
    assert shop.ids("shipment", due) == [box]
    shop.tell((box, "shipment_done", {}, due + HOUR))
    assert shop.ids("shipment", due + DAY) == []


def test_dead_claim_within_the_suppliers_hours(shop):
    box, line = new_id(), new_id()
    opened = {"supplier": "a farm", "opened_at": shop.start.isoformat()}
    ordered = {"line": line, "profile_key": "zoanthus", "name": "Ring", "origin": "wild", "count": 5}
    shop.tell(
        (box, "shipment_set", opened, shop.start), (box, "shipment_line", ordered, shop.start),
        (box, "line_arrived", {"line": line, "alive": 3, "dead": 2, "specimens": []}, shop.start + HOUR),
    )  # fmt: skip
    assert [due.values["dead"] for due in shop.ask("dead_claim", shop.start + 24 * HOUR).due] == [2]
    assert shop.ids("dead_claim", shop.start + 24 * HOUR + SECOND) == []
    shop.tell((box, "dead_claimed", {"count": 2}, shop.start + 2 * HOUR))
    assert shop.ids("dead_claim", shop.start + 3 * HOUR) == []


def test_claims_until_they_are_settled(shop):
    one, sale, claim = shop.animal(), new_id(), new_id()
    shop.tell(
        (sale, "sale_made", {"number": 4, "lines": [{"specimen_id": one, "price_cents": 100}]}, shop.start),
        (sale, "sale_claimed", {"claim": claim, "specimen_id": one, "trouble": "died"}, shop.start + HOUR),
    )
    assert shop.ids("claims", shop.start + DAY) == ["4"]
    shop.tell((sale, "claim_settled", {"claim": claim, "outcome": "credit"}, shop.start + 2 * HOUR))
    assert shop.ids("claims", shop.start + DAY) == []


@pytest.mark.parametrize(
    ("case", "carry", "told"), [("freight", True, True), ("air", True, False), ("freight", False, False)]
)
def test_a_parcel_that_should_have_arrived_until_its_claim_time_is_over(shop, case, carry, told):
    """Packed at 0 h, 20 h on the way, two hours to claim: from 20 h to 22 h."""
    one, sale = shop.animal(), new_id()
    packed = {"case": case, "journey_h": 20, "safe_h": 24, "carry": carry}
    shop.tell(
        (sale, "sale_made", {"number": 4, "lines": [{"specimen_id": one, "price_cents": 100}]}, shop.start),
        (sale, "sale_bagged", packed, shop.start),
    )
    ask = lambda hours: shop.ids("posted", shop.start + hours * HOUR)  # noqa: E731
    assert (ask(20 - 0.001), ask(20), ask(22), ask(22.001)) == ([], ["4"] * told, ["4"] * told, [])
    claimed = {"claim": new_id(), "specimen_id": one, "trouble": "died"}
    shop.tell((sale, "sale_claimed", claimed, shop.start + 20 * HOUR))
    assert ask(21) == []  # it is with the claims now
