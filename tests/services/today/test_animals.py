"""Rules about single animals, each one step either side of its threshold. The thresholds are common practice."""

from datetime import timedelta

import pytest

from tests.services.today.making import SECOND, Shop
from webapp.services.recording import NewEvent, new_deed, record
from webapp.services.thresholds import save_thresholds
from webapp.storage.base import new_id

DAY, HOUR = timedelta(days=1), timedelta(hours=1)
WELL = {"holds": True, "edge_closed": True, "open": True, "pest_free": True, "bitten": False, "slime": False}


@pytest.fixture
def shop(stage):
    return Shop(stage)


@pytest.mark.parametrize(
    ("sign", "trouble"),
    [({"slime": True}, "slime"), ({"colour": "bleached"}, "bleached"), ({"pest_free": False}, "pest")],
)
def test_off_sale(shop, sign, trouble):
    one = shop.animal()
    assert shop.ids("off_sale", shop.start + DAY) == []
    shop.tell((one, "checked", sign, shop.start + HOUR))
    found = shop.ask("off_sale", shop.start + DAY)
    assert [(due.id, due.values["trouble"]) for due in found.due] == [(one, trouble)]
    shop.tell((one, "status_set", {"status": "kept"}, shop.start + 2 * HOUR))
    assert shop.ids("off_sale", shop.start + DAY) == []


def test_stop_sale(shop, stage):
    found = {"tank_id": stage.tank, "pest": "brown_jelly", "stops_sale": True}
    pest = new_id()
    shop.tell((pest, "pest_found", found, shop.start))
    assert shop.ids("stop_sale", shop.start + DAY) == []
    shop.animal(shop.start + HOUR)
    assert [(due.id, due.name) for due in shop.ask("stop_sale", shop.start + DAY).due] == [(stage.tank, "North")]
    shop.tell((pest, "pest_stop", {"stops_sale": False}, shop.start + 2 * HOUR))
    assert shop.ids("stop_sale", shop.start + DAY) == []


def test_loose_check_is_due_48_hours_after_the_cut_until_it_was_seen_to_hold(shop, stage):
    one = shop.frags(stage.mother, 1, shop.start)[0]
    assert shop.ids("loose_check", shop.start + 48 * HOUR - SECOND) == []
    assert shop.ids("loose_check", shop.start + 48 * HOUR) == [one]
    shop.tell((one, "checked", {"holds": False}, shop.start + 49 * HOUR))
    assert shop.ids("loose_check", shop.start + 50 * HOUR) == [one]
    shop.tell((one, "checked", {"holds": True}, shop.start + 60 * HOUR))
    assert shop.ids("loose_check", shop.start + 61 * HOUR) == []


def test_loose_check_leaves_out_what_lies_on_the_sand(shop, stage):
    from webapp.schemas.profiles import load_profiles

    free = next(key for key, kind in load_profiles().items() if kind.attach_days == (0, 0))
    shop.frags(stage.mother, 1, shop.start, profile_key=free)
    assert shop.ids("loose_check", shop.start + 9 * DAY) == []


def healed(shop, stage, opened):
    """Three polyps, cut long ago, clean at two looks a week apart, open on so many of the last seven days."""
    one = shop.frags(stage.mother, 1, shop.start, heads=3)[0]
    looks = [(one, "checked", WELL, shop.start + 20 * DAY)]
    looks += [
        (one, "checked", WELL | {"open": number < opened}, shop.start + (28 + number) * DAY) for number in range(7)
    ]
    shop.tell(*looks)
    return one, shop.start + 34 * DAY + HOUR


@pytest.mark.parametrize(("opened", "is_ready"), [(4, False), (5, True)])
def test_ready(shop, stage, opened, is_ready):
    one, now = healed(shop, stage, opened)
    assert (shop.ids("ready", now) == [one]) is is_ready


def test_ready_ends_with_the_days_in_which_it_was_open(shop, stage):
    one, now = healed(shop, stage, 5)
    assert shop.ids("ready", now) == [one]
    assert shop.ids("ready", now + 3 * DAY) == []


@pytest.mark.parametrize(("days", "gap", "may"), [(14, 7, True), (14 - 1e-4, 7, False), (14, 7 - 1e-4, False)])
def test_release_after_its_days_and_two_clean_looks_a_week_apart(shop, days, gap, may):
    one = shop.animal(status="quarantine")
    now = shop.start + days * DAY
    shop.tell((one, "checked", WELL, now - gap * DAY), (one, "checked", WELL, now))
    assert (shop.ids("release", now) == [one]) is may


def test_inspect_when_nobody_looked_for_a_week(shop):
    one = shop.animal(status="quarantine")
    assert shop.ids("inspect", shop.start + 7 * DAY - SECOND) == []
    assert shop.ids("inspect", shop.start + 7 * DAY) == [one]
    shop.tell((one, "checked", WELL, shop.start + 8 * DAY))
    assert shop.ids("inspect", shop.start + 15 * DAY - SECOND) == []
    assert shop.ids("inspect", shop.start + 15 * DAY) == [one]


def test_dip_again_at_27_degrees_after_12_and_24_days(shop):
    one = shop.animal(status="quarantine", profile_key="acropora")
    shop.read("temp", 27.0, "c", shop.start)
    shop.tell((one, "dipped", {"dip": "iodine", "repeat": True}, shop.start))
    assert shop.ids("dip", shop.start + 12 * DAY - 60 * SECOND) == []
    assert [due.values["number"] for due in shop.ask("dip", shop.start + 12 * DAY + SECOND).due] == [2]
    shop.tell((one, "dipped", {"dip": "iodine", "repeat": True}, shop.start + 12 * DAY))
    assert shop.ids("dip", shop.start + 24 * DAY - 60 * SECOND) == []
    assert [due.values["number"] for due in shop.ask("dip", shop.start + 24 * DAY + SECOND).due] == [3]


def test_hold_ends_is_said_the_day_before(shop):
    one, until = shop.animal(), shop.start + 3 * DAY
    shop.tell((one, "held", {"word": "pearl", "until": until.isoformat()}, shop.start))
    assert shop.ids("hold_ends", until - 24 * HOUR - SECOND) == []
    assert shop.ids("hold_ends", until - 24 * HOUR) == [one]
    assert shop.ids("hold_ends", until - SECOND) == [one]
    assert shop.ids("hold_ends", until) == []


def test_hold_unwell(shop):
    one, until = shop.animal(), shop.start + 3 * DAY
    shop.tell((one, "held", {"word": "pearl", "until": until.isoformat()}, shop.start))
    assert shop.ids("hold_unwell", shop.start + DAY) == []
    shop.tell((one, "checked", {"slime": True}, shop.start + HOUR))
    assert shop.ids("hold_unwell", shop.start + DAY) == [one]
    assert shop.ids("hold_unwell", until) == []


def test_price_review_after_60_days_for_sale(shop):
    one = shop.animal()
    assert shop.ids("price_review", shop.start + 60 * DAY - SECOND) == []
    assert shop.ids("price_review", shop.start + 60 * DAY) == [one]


def test_a_price_that_was_looked_at_waits_as_long_again(shop):
    one = shop.animal(status="for_sale")
    shop.tell((one, "priced", {"price_cents": 900, "reason": "it stays"}, shop.start + 40 * DAY))
    assert shop.ids("price_review", shop.start + 100 * DAY - SECOND) == []
    assert shop.ids("price_review", shop.start + 100 * DAY) == [one]


def test_missing_until_it_is_seen(shop, stage):
    one = shop.animal()
    where = {"count": new_id(), "tank_id": stage.tank}
    shop.tell((one, "missing", where, shop.start + HOUR))
    assert shop.ids("missing", shop.start + DAY) == [one]
    shop.tell((one, "seen", where, shop.start + 2 * HOUR))
    assert shop.ids("missing", shop.start + DAY) == []


def test_conflict_until_one_of_the_two_is_undone(shop, stage):
    one = shop.animal()
    shop.tell((one, "sold", {}, shop.start + HOUR))
    assert shop.ids("conflict", shop.start + DAY) == []
    with stage.database.saving() as session:
        deed = record(session, stage.owner, [NewEvent("sold", one, {}, shop.start + 2 * HOUR)], new_deed())
    assert [due.values["conflict"] for due in shop.ask("conflict", shop.start + DAY).due] == ["sold_after_sold"]
    with stage.database.saving() as session:
        from webapp.services.recording import undo

        undo(session, stage.owner, deed)
    assert shop.ids("conflict", shop.start + DAY) == []


def test_the_shops_own_threshold_is_the_one_that_counts(shop, stage):
    one = shop.animal()
    with stage.database.saving() as session:
        save_thresholds(session, {"price_review_days": 10})
    assert shop.ids("price_review", shop.start + 10 * DAY) == [one]
    assert shop.ids("price_review", shop.start + 10 * DAY - SECOND) == []


def test_a_rule_lists_a_hundred_and_says_that_there_are_more(shop, stage):
    from webapp.services import intake

    given = {"profile_key": "zoanthus", "name": "Many", "origin": "own", "status": "for_sale", "tank_id": stage.tank}
    with stage.database.saving() as session:
        intake.take_in(session, stage.owner, new_deed(), given, 100, at=shop.start)
    assert (
        len(shop.ids("price_review", shop.start + 61 * DAY)),
        shop.ask("price_review", shop.start + 61 * DAY).more,
    ) == (100, False)
    shop.animal()
    assert (
        len(shop.ids("price_review", shop.start + 61 * DAY)),
        shop.ask("price_review", shop.start + 61 * DAY).more,
    ) == (100, True)
