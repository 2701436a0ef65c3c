"""Insight and Today show first what matters; the rest stands on the same page behind a tap."""

from datetime import timedelta

from tests.services.today.making import Shop
from tests.shop_client import Visitor
from webapp.science.survival import kaplan_meier
from webapp.services.insight import Survival
from webapp.services.today.page import CAN_WAIT, RULES
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
