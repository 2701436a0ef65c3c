"""Landed cost by hand: freight over those that arrived alive, as part of the price floor."""

from datetime import timedelta

import pytest

from tests.services.today.making import Shop
from webapp.services.freight import freight_of, freight_share
from webapp.services.selling_costs import floor_of
from webapp.services.thresholds import DEFAULTS
from webapp.storage.base import new_id
from webapp.storage.specimen import SpecimenRow

DAY = timedelta(days=1)


@pytest.fixture
def shop(stage):
    return Shop(stage)


@pytest.fixture
def box(shop):
    """Freight of 100.00, eight alive in one line and two dead in another."""
    box, live, dead = new_id(), new_id(), new_id()
    line = {"profile_key": "zoanthus", "name": "Ring", "origin": "wild", "count": 10, "cost_cents": 2000}
    shop.tell(
        (box, "shipment_set", {"supplier": "a farm", "freight_cents": 10_000}, shop.start),
        (box, "shipment_line", {"line": live} | line, shop.start),
        (box, "shipment_line", {"line": dead} | line, shop.start),
        (box, "line_arrived", {"line": live, "alive": 8, "dead": 0, "specimens": []}, shop.start + DAY),
        (box, "line_arrived", {"line": dead, "alive": 0, "dead": 2, "specimens": []}, shop.start + DAY),
    )
    return box


def asked(shop, what, specimen_id):
    session = shop.stage.database.reading()
    try:
        return what(session, session.get_one(SpecimenRow, specimen_id))
    finally:
        session.close()


def test_the_living_carry_the_freight_of_all(shop, box):
    """100.00 over 8 alive is 12.50; ten days later 20.00 + 12.50 + 0.60 + 6 min at 20.00/h + 10 x 0.02 = 35.30."""
    one = shop.animal(shipment_id=box, cost_cents=2000)
    assert asked(shop, freight_share, one) == 1250
    costs = ("cost_consumables_cents", "cost_labour_min", "cost_labour_cents_h", "cost_rack_cents_day")
    assert [DEFAULTS[key] for key in costs] == [60, 6, 2000, 2]
    floor = asked(shop, lambda session, row: floor_of(session, row, shop.start + 10 * DAY), one)
    assert (floor.freight, floor.cents) == (1250, 3530)


def test_frags_share_what_their_mother_carried(shop, box):
    """Four frags: (20.00 + 12.50) / 4 = 8.125 each; at once 8.125 + 0.60 + 2.00."""
    mother = shop.animal(shipment_id=box, cost_cents=2000, status="mother")
    one = shop.frags(mother, 4, shop.start + DAY)[0]
    floor = asked(shop, lambda session, row: floor_of(session, row, shop.start + DAY), one)
    assert (floor.bought, floor.freight, floor.cents) == (500, 312.5, round(500 + 312.5 + 60 + 200))


def test_what_was_said_last_counts_and_nothing_said_is_nothing(shop, box):
    shop.tell((box, "shipment_set", {"freight_cents": 8000}, shop.start + DAY))
    one, other = shop.animal(shipment_id=box), shop.animal()
    assert (asked(shop, freight_share, one), asked(shop, freight_share, other)) == (1000, 0)
    empty = new_id()
    shop.tell((empty, "shipment_set", {"supplier": "a farm", "freight_cents": 500}, shop.start))
    assert asked(shop, freight_share, shop.animal(shipment_id=empty)) == 0  # nothing arrived yet
    assert asked(shop, lambda session, _row: freight_of(session, empty), one) == 500
