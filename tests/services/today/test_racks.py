"""Racks: light that is right for what stands there, and everything counted in time. One step either side of each."""

from datetime import timedelta

import pytest

from tests.services.today.making import SECOND, Shop
from tests.services.today.test_tanks import counted
from webapp.schemas.profiles import load_profiles
from webapp.services.recording import new_deed
from webapp.services.thresholds import load_thresholds
from webapp.storage.base import new_id

DAY = timedelta(days=1)
BAND = load_profiles()["zoanthus"].bands["par"]


@pytest.fixture
def shop(stage):
    return Shop(stage)


@pytest.mark.parametrize(
    ("par", "dark"),
    [(BAND.ideal_low, None), (BAND.ideal_low - 1, True), (BAND.ideal_high, None), (BAND.ideal_high + 1, False)],
)
def test_a_plug_in_the_wrong_light_is_to_be_moved(shop, stage, par, dark):
    shop.animal(rack_id=stage.rack, slot="A1")
    shop.read("par", par, "umol", shop.start, rack_id=stage.rack)
    found = [due for due in shop.ask("move_rack", shop.start + DAY).due if due.values["kind"] == zoanthid_name()]
    assert bool(found) is (dark is not None)
    assert not found or found[0].id == stage.rack
    assert not found or found[0].values["dark"] is dark
    assert not found or (found[0].values["low"], found[0].values["high"]) == (BAND.ideal_low, BAND.ideal_high)


def zoanthid_name():
    return load_profiles()["zoanthus"].trade_name


def test_the_last_reading_counts_and_what_was_moved_away_does_not(shop, stage):
    disc, par = load_profiles()["discosoma"].bands["par"], BAND.ideal_high
    assert disc.ideal_high < par  # right for the mother that stands there too, too bright for a disc
    plug = shop.animal(rack_id=stage.rack, slot="A2", profile_key="discosoma")
    shop.read("par", par, "umol", shop.start, rack_id=stage.rack)
    [due] = shop.ask("move_rack", shop.start + DAY).due
    assert (due.id, due.values["plugs"]) == (stage.rack, 1)
    shop.tell((plug, "moved", {"tank_id": stage.tank}, shop.start + DAY))
    assert shop.ids("move_rack", shop.start + DAY) == []
    shop.tell((plug, "moved", {"tank_id": stage.tank, "rack_id": stage.rack}, shop.start + 2 * DAY))
    assert shop.ids("move_rack", shop.start + 2 * DAY) == [stage.rack]
    shop.read("par", disc.ideal_high, "umol", shop.start + 2 * DAY, rack_id=stage.rack)
    assert shop.ids("move_rack", shop.start + 3 * DAY) == []


def test_nothing_is_moved_for_its_light_in_quarantine(shop, stage):
    shop.animal(rack_id=stage.rack, slot="A1")
    shop.read("par", BAND.ideal_high + 200, "umol", shop.start, rack_id=stage.rack)
    shop.tell((stage.tank, "tank_set", {"purpose": "quarantine"}, shop.start))
    assert shop.ids("move_rack", shop.start + DAY) == []


def test_everything_is_due_to_be_counted_after_a_month(shop, stage):
    counted(shop, stage, 1, 0)
    limit = load_thresholds(stage.database.reading())["count_all_days"]
    assert limit == 30
    assert shop.ask("count_all", shop.start + 30 * DAY - SECOND).due == ()
    [due] = shop.ask("count_all", shop.start + 30 * DAY).due
    assert due.values == {"places": 1, "days": 30}


def test_what_stands_on_no_rack_is_counted_too(shop, stage):
    counted(shop, stage, 1, 0)
    loose = shop.animal()
    assert shop.ask("count_all", shop.start + 29 * DAY).due == ()
    at = shop.start + 20 * DAY
    counted_again = {"count": new_id(), "expected": 1, "seen": 1, "missing": 0, "moved": 0}
    shop.tell((stage.rack, "rack_counted", counted_again, at))
    [due] = shop.ask("count_all", shop.start + 30 * DAY).due
    assert due.values == {"places": 1, "days": None}  # the loose one was in no count yet
    shop.tell((loose, "seen", {"count": new_deed(), "tank_id": stage.tank}, at))
    assert shop.ask("count_all", at + 30 * DAY - SECOND).due == ()
    [due] = shop.ask("count_all", at + 30 * DAY).due
    assert due.values == {"places": 2, "days": 30}
