"""Insight and Today show first what matters; the rest stands on the same page behind a tap."""

from datetime import timedelta

from tests.services.today.making import Shop
from tests.shop_client import Visitor
from webapp.science.survival import kaplan_meier
from webapp.science.units import QUANTITIES
from webapp.services.insight import Survival
from webapp.services.today.page import CAN_WAIT, RULES
from webapp.storage.base import new_id
from webapp.views.insight import FEW, _apart


def curve(key, count, died):
    """Of `count` animals followed for 30 days `died` died on the tenth."""
    return Survival(key, key, kaplan_meier([10.0] * died + [30.0] * (count - died), [n < died for n in range(count)]))


def test_the_kinds_that_die_most_are_drawn_first_and_those_without_a_death_stand_behind():
    """1 of 10 leaves 90 %, 2 of 5 leave 60 %, 3 of 10 leave 70 %."""
    curves = [curve("none", 40, 0), curve("one", 10, 1), curve("two", 5, 2), curve("three", 10, 3)]
    found = _apart(curves)
    assert [one.key for one in found["curves"]] == ["two", "three", "one"]
    assert [one.key for one in found["others"]] == ["none"]
    many = _apart([curve(str(died), 20, died) for died in range(1, 9)])
    assert [one.key for one in many["curves"]] == ["8", "7", "6", "5"][:FEW]
    assert [one.key for one in many["others"]] == ["1", "2", "3", "4"]
    assert _apart([curves[0]]) == {"curves": [], "others": [curves[0]]}


def test_what_can_wait_stands_behind_a_tap_on_today(stage):
    assert set(RULES) >= CAN_WAIT
    shop = Shop(stage)
    shop.start = stage.later(days=-34)
    ill, dear = shop.animal(), shop.animal(at=shop.start - timedelta(days=40), price_cents=1500)
    shop.tell((ill, "checked", {"slime": True}, shop.start + timedelta(days=1)))
    page = Visitor(stage).sign_in().open("/today").page
    now, later = page.split("When there is time</h2>")
    assert f"/s/{ill}" in now and f"/s/{dear}" not in now
    assert f"/s/{dear}" in later
    assert '<details><summary><h3 id="rule-price_review">' in later


def test_of_many_runs_it_is_said_how_many_drift_by_chance(stage):
    """The interval leaves out the truth once in twenty: 1 of 20 runs. Of fewer than 20 nothing is said."""
    shop = Shop(stage)
    start, usual = stage.later(days=-10), {"temp": 25, "salinity": 35, "alk": 8, "ca": 420, "mg": 1300, "ph": 8.1,
                                           "no3": 5, "po4": 0.05, "ammonia": 0.1, "nitrite": 0.1}  # fmt: skip
    told = "20 were looked at: about 1 of them would seem to drift by chance alone, 1 in 20."
    for tank in (stage.tank, stage.other_tank):
        assert told not in Visitor(stage).sign_in().open("/insight/growth").text
        shop.tell(*(
            (new_id(), "reading", {"tank_id": tank, "quantity": quantity, "value": value * (1 + 0.01 * (day % 2)),
                                   "unit": QUANTITIES[quantity].canonical_unit}, start + timedelta(days=day))
            for quantity, value in usual.items() for day in range(3)
        ))  # fmt: skip
    assert told in Visitor(stage).sign_in().open("/insight/growth").text
