"""Rules about tanks and racks, each one step either side of its threshold. The thresholds are common practice."""

from datetime import timedelta

import pytest

from tests.services.today.making import SECOND, Shop
from webapp.storage.base import new_id

DAY = timedelta(days=1)


@pytest.fixture
def shop(stage):
    return Shop(stage)


@pytest.mark.parametrize(
    ("quantity", "value", "unit", "code"),
    [
        ("temp", 27.99, "c", None), ("temp", 28.0, "c", "warm"), ("temp", 28.99, "c", "warm"),
        ("temp", 29.0, "c", "hot"), ("temp", 22.5, "c", None), ("temp", 22.49, "c", "cold"),
        ("ammonia", 0.25, "mg_l_n", None), ("ammonia", 0.26, "mg_l_n", "ammonia"),
    ],
)  # fmt: skip
def test_alarm(shop, quantity, value, unit, code):
    shop.read(quantity, value, unit, shop.start)
    found = shop.ask("alarm", shop.start + DAY).due
    assert [due.values["code"] for due in found] == ([code] if code else [])


def test_alarm_only_where_something_lives(shop, stage):
    shop.read("temp", 30.0, "c", shop.start, tank_id=stage.other_tank)
    assert shop.ids("alarm", shop.start + DAY) == []
    shop.animal(tank_id=stage.other_tank)
    assert shop.ids("alarm", shop.start + DAY) == [stage.other_tank]


def test_out_of_range_for_whom_and_since_when(shop, stage):
    """Zoanthids: the first of the last run of readings outside their limits is when it began."""
    from webapp.schemas.profiles import load_profiles

    band = load_profiles()["zoanthus"].bands["alk"]
    for day, value in enumerate((band.limit_low, band.limit_low - 0.01, band.limit_low - 0.5)):
        shop.read("alk", value, "dkh", shop.start + day * DAY)
        found = shop.ask("out", shop.start + 5 * DAY).due
        assert bool(found) is (value < band.limit_low)
    assert (found[0].values["quantity"], found[0].values["others"]) == ("alk", 0)
    assert found[0].values["days"] == pytest.approx(4.0, abs=1e-6)
    assert found[0].values["kind"] == load_profiles()["zoanthus"].trade_name


def test_water_is_due_to_be_read_after_a_week(shop, stage):
    assert shop.ids("read_water", shop.start) == [stage.tank]
    shop.read("alk", 8.0, "dkh", shop.start)
    assert shop.ids("read_water", shop.start + 7 * DAY - SECOND) == []
    assert shop.ids("read_water", shop.start + 7 * DAY) == [stage.tank]


def test_light_of_a_rack_is_due_to_be_read_after_a_month(shop, stage):
    assert shop.ids("read_light", shop.start) == [stage.rack]
    shop.read("par", 120, "umol", shop.start, rack_id=stage.rack)
    assert shop.ids("read_light", shop.start + 30 * DAY - SECOND) == []
    assert shop.ids("read_light", shop.start + 30 * DAY) == [stage.rack]


@pytest.mark.parametrize(("kind", "waits"), [("discosoma", True), ("zoanthus", False)])
def test_mushrooms_are_fed_every_week_and_zoanthids_need_none(shop, stage, kind, waits):
    shop.animal(profile_key=kind)
    shop.tell((new_id(), "fed", {"tank_id": stage.tank, "food": "meaty"}, shop.start))
    assert shop.ids("feed", shop.start + 7 * DAY - SECOND) == []
    assert shop.ids("feed", shop.start + 7 * DAY) == ([stage.tank] if waits else [])


def test_a_rack_is_due_to_be_counted_after_a_week(shop, stage):
    assert shop.ids("count_racks", shop.start) == [stage.rack]
    counted(shop, stage, 100, 0)
    assert shop.ids("count_racks", shop.start + 7 * DAY - SECOND) == []
    assert shop.ids("count_racks", shop.start + 7 * DAY) == [stage.rack]


@pytest.mark.parametrize(
    ("missing", "told", "investigate"), [(2, False, None), (3, True, False), (5, True, False), (6, True, True)]
)
def test_a_count_gap_above_two_percent_is_counted_again_and_above_five_investigated(
    shop, stage, missing, told, investigate
):
    counted(shop, stage, 100, missing)
    found = shop.ask("count_gap", shop.start + DAY).due
    assert bool(found) is told
    assert not told or found[0].values["investigate"] is investigate


def counted(shop, stage, expected, missing):
    tally = {"count": new_id(), "expected": expected, "seen": expected - missing, "missing": missing, "moved": 0}
    shop.tell((stage.rack, "rack_counted", tally, shop.start))
