"""One dip over several: from Today or the stock, who stays dry and why, and one tap back. Also: a till that is full."""

import re
from datetime import timedelta

import pytest

from tests.services.today.making import Shop
from tests.shop_client import Visitor
from webapp.views import till

DAY = timedelta(days=1)


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


@pytest.fixture
def shop(stage):
    made = Shop(stage)
    made.start = stage.later(days=-20)
    return made


def ids_on(staff):
    return re.findall(r'name="id" value="([0-9a-f]{32})"', staff.page)


def chosen(staff):
    return re.findall(r'name="chosen" value="([0-9a-f]{32})" checked', staff.page)


def stock(staff, query):
    """The stock list without its form of search, so that the form of deeds is the first."""
    staff.open("/stock?" + query)
    staff.page = staff.page.split('role="search"', 1)[1]
    return staff


def test_one_deed_over_those_that_may_be_dipped(staff, shop):
    well = [shop.animal(status="quarantine", name=f"Well {number}") for number in range(2)]
    clam = shop.animal(status="quarantine", name="Clam", profile_key="tridacna_high_light")
    pale = shop.animal(status="quarantine", name="Pale")
    shop.tell((pale, "checked", {"colour": "bleached"}, shop.start + DAY))
    staff.open("/dip?" + "&".join(f"id={one}" for one in (*well, clam, pale)))
    assert chosen(staff) == well
    assert "This kind is not dipped" in staff.text
    assert "It is bleached: do not dip it." in staff.text
    staff.send("/dip", chosen=[*well, clam], dip="iodine", minutes="8")
    assert "Dipped: 2. Not dipped: Clam" in staff.text
    for one in well:
        assert "iodine dip" in staff.open(f"/s/{one}").text.split("History")[1]
    assert "iodine dip" not in staff.open(f"/s/{clam}").text.split("History")[1]
    staff.open(f"/s/{well[0]}").send("/undo/")
    assert "(undone)" in staff.open(f"/s/{well[1]}").text  # the deed was one over both


def test_nobody_left_to_dip_and_nobody_chosen_are_said_with_what_was_typed_kept(staff, shop):
    sold = shop.animal(name="Gone")
    shop.tell((sold, "sold", {"price_cents": 100}, shop.start + DAY))
    staff.open(f"/dip?id={sold}&id={'0' * 32}")
    assert "It is sold." in staff.text
    assert "It is not known here." in staff.text
    staff.send("/dip", dip="potassium", strength="2 mL in a litre")
    assert staff.status == 422
    assert "Choose at least one to dip." in staff.text
    staff.send("/dip", chosen=[sold], dip="potassium", strength="2 mL in a litre")
    assert staff.status == 422
    assert "None of those chosen may be dipped now" in staff.text
    assert "2 mL in a litre" in staff.page
    assert ids_on(staff) == [sold, "0" * 32]


def test_today_leads_to_all_that_are_due_and_the_stock_to_those_chosen(staff, shop):
    due = [shop.animal(status="quarantine", name="Acro", profile_key="acropora") for _ in range(2)]
    shop.tell(*((one, "dipped", {"dip": "iodine", "repeat": True}, shop.start) for one in due))
    staff.open("/today")
    staff.open(staff.find(r'href="(/dip\?id=[^"]+)">Dip all 2 together').replace("&amp;", "&"))
    assert sorted(ids_on(staff)) == sorted(due)
    stock(staff, "state=quarantine").send("/stock", chosen=due[:1], action="dip")
    assert ids_on(staff) == due[:1]
    assert "Choose in the stock who is to be dipped" in staff.open("/dip").text


def test_a_full_till_is_a_sentence_in_place_with_the_choice_kept(staff, shop, monkeypatch):
    monkeypatch.setattr(till, "MOST", 2)
    ids = [shop.animal(name=f"Plug {number}") for number in range(3)]
    stock(staff, "state=for_sale").send("/stock", chosen=ids, action="sell")
    assert staff.status == 422
    assert "At most 2 at once. Sell these first." in staff.text
    assert sorted(chosen(staff)) == sorted(ids)
    stock(staff, "state=for_sale").send("/stock", chosen=ids[:2], action="sell")
    assert "2 on the till" in staff.text
