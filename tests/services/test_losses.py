"""Losses against a shop counted by hand."""

from datetime import timedelta

import pytest

from tests.services.today.making import Shop
from webapp.services.losses import losses
from webapp.services.thresholds import DEFAULTS

DAY = timedelta(days=1)


@pytest.fixture
def shop(stage):
    return Shop(stage)


def asked(shop, days=90, since=None):
    session = shop.stage.database.reading()
    now = shop.start + days * DAY
    try:
        return losses(session, DEFAULTS, since or shop.start - DAY, now)
    finally:
        session.close()


def test_nothing_died(shop):
    found = asked(shop)
    assert (found.losses, found.month_pct, found.value_cents) == ([], 0.0, 0)
    assert all(not groups for groups in found.groups.values())


def test_every_way_of_counting_agrees_with_the_fingers(shop, stage):
    """Eight frags of two mothers by two methods, and the colony that the stage has: three frags and a mother die."""
    one = shop.animal(status="mother", name="One")
    two = shop.animal(status="mother", name="Two", supplier="a farm", origin="bought_in", cost_cents=900)
    of_one = shop.frags(one, 5, shop.start + DAY, price_cents=1000)
    of_two = shop.frags(two, 3, shop.start + DAY, method="saw", tank_id=stage.other_tank, price_cents=2000)
    shop.tell(
        (of_one[0], "lost", {"cause": "melt_after_cut"}, shop.start + 3 * DAY),
        (of_one[1], "lost", {"cause": "pest", "stage": "dip"}, shop.start + 80 * DAY),
        (of_two[0], "status_set", {"status": "for_sale"}, shop.start + 20 * DAY),
        (of_two[0], "lost", {"cause": "pest"}, shop.start + 85 * DAY),
        (of_two[1], "sold", {}, shop.start + 30 * DAY),
        (two, "lost", {"cause": "human"}, shop.start + 86 * DAY),
    )
    found = asked(shop)
    assert len(found.losses) == 4
    assert found.stages == {"healing": 1, "dip": 1, "rack": 2}
    assert found.causes == {"pest": 2, "melt_after_cut": 1, "human": 1}
    told = {by: {one.key: (one.pieces, one.lost) for one in groups} for by, groups in found.groups.items()}
    assert told["mother"] == {one: (5, 2), two: (3, 1)}
    assert told["method"] == {"scalpel": (5, 2), "saw": (3, 1)}
    assert told["supplier"] == {"a farm": (1, 1)}
    assert told["tank"] == {stage.tank: (8, 3), stage.other_tank: (3, 1)}
    assert told["kind"] == {"zoanthus": (11, 4)}
    # 10 + 10 + 20 by their prices, and the mother by her cost of 9.
    assert found.value_cents == 4900
    # Within 30 days of day 90: three. Standing: the stage's mother, One, 3 of hers, 1 of Two: 6. 3 of 9.
    assert (found.month_lost, found.stock) == (3, 6)
    assert found.month_pct == pytest.approx(100 / 3)
    assert {(group.key, group.lost, group.pieces) for group in found.worth_a_look} == {(one, 2, 5), (two, 1, 3)}


def test_only_the_time_asked_about_counts(shop):
    ids = shop.frags(shop.animal(status="mother"), 2, shop.start)
    shop.tell(
        *((one, "lost", {"cause": "unknown"}, shop.start + day * DAY) for one, day in zip(ids, (5, 50), strict=True))
    )
    assert len(asked(shop, since=shop.start + 40 * DAY).losses) == 1


def test_an_undone_loss_is_none(shop, stage):
    from webapp.services.recording import NewEvent, new_deed, record, undo

    one = shop.animal()
    with stage.database.saving() as session:
        deed = record(session, stage.owner, [NewEvent("lost", one, {"cause": "pest"}, shop.start + DAY)], new_deed())
        undo(session, stage.owner, deed)
    assert asked(shop).losses == []


@pytest.mark.parametrize(("pieces", "dead", "looks"), [(5, 1, True), (10, 1, False), (4, 2, False)])
def test_a_day_of_work_deserves_a_look_from_five_pieces_and_above_ten_percent(shop, stage, pieces, dead, looks):
    """1 of 5 is 20 %; 1 of 10 exactly 10 %; of 4 nothing is said."""
    mother = shop.animal(status="mother", name="One", at=shop.start - 30 * DAY)
    at = shop.start.replace(hour=9, minute=0)
    ids = shop.frags(mother, pieces, at)
    shop.frags(mother, 3, at + DAY)
    shop.tell(*((one, "lost", {"cause": "unknown"}, at + 2 * DAY) for one in ids[:dead]))
    [day] = asked(shop, since=at - DAY).days
    assert (day.day.date(), day.author, day.names) == (at.date(), "Noor", ("Frag",))
    assert (day.pieces, day.lost, day.deserves_a_look) == (pieces, dead, looks)


def test_a_day_is_the_shops_own_and_a_split_by_itself_is_nobodys_work(shop, stage):
    """23:30 in UTC is the next day in Berlin, summer or winter."""
    mother = shop.animal(status="mother", name="One", at=shop.start - 30 * DAY)
    late = shop.start.replace(hour=23, minute=30)
    one = shop.frags(mother, 1, late)[0]
    by_itself = shop.frags(mother, 1, late, method="natural_split")[0]
    shop.tell(*((dead, "lost", {"cause": "unknown"}, late + DAY) for dead in (one, by_itself)))
    [day] = asked(shop, since=late - DAY).days
    assert (day.day.date(), day.pieces, day.lost) == ((late + timedelta(hours=1)).date(), 1, 1)
