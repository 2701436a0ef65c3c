"""The buttons of Today: each does one thing, says so, and is undone with one tap."""

from datetime import timedelta

import pytest

from tests.services.today.making import Shop
from tests.services.today.test_animals import healed
from tests.shop_client import Visitor

DAY = timedelta(days=1)


@pytest.fixture
def shop(stage):
    """A shop whose story ends about now."""
    made = Shop(stage)
    made.start = stage.later(days=-34, hours=-2)
    return made


def unwell(shop):
    one = shop.animal()
    shop.tell((one, "checked", {"slime": True}, shop.start + DAY))
    return one


def clean(shop):
    one = shop.animal(status="quarantine")
    look = {"pest_free": True, "open": True, "bitten": False, "holds": True}
    shop.tell((one, "checked", look, shop.start + 20 * DAY), (one, "checked", look, shop.start + 33 * DAY))
    return one


def stands(shop):
    return shop.animal(at=shop.start - 40 * DAY, price_cents=1500)


#: rule -> what is made, and what the state is afterwards.
CASES = {
    "off_sale": (unwell, "kept by the shop"),
    "loose_check": (lambda shop: shop.frags(shop.stage.mother, 1, shop.start)[0], "healing"),
    "inspect": (lambda shop: shop.animal(status="quarantine"), "in quarantine"),
    "ready": (lambda shop: healed(shop, shop.stage, 5)[0], "for sale"),
    "release": (clean, "healing"),
    "price_review": (stands, "for sale"),
}


@pytest.mark.parametrize("rule", CASES)
def test_one_tap_does_it_and_one_takes_it_back(shop, stage, rule):
    make, state = CASES[rule]
    one = make(shop)
    staff = Visitor(stage).sign_in()
    assert f"/s/{one}" in staff.open(f"/today/{rule}").page
    staff.send(f"/today/{rule}")
    assert "Undo" in staff.text
    assert f"/s/{one}" not in staff.open(f"/today/{rule}").page
    assert state in staff.open(f"/s/{one}").text
    staff.open(f"/today/{rule}")
    assert "Nothing is on this list any more." in staff.text


def test_fed_now(shop, stage):
    shop.animal(profile_key="discosoma")
    staff = Visitor(stage).sign_in()
    staff.open("/today/feed").send("/today/feed")
    assert "Feeding noted." in staff.text
    assert "Nothing is on this list" in staff.open("/today/feed").text


def test_a_list_of_its_own_goes_on_with_the_next_and_today_stays_today(shop, stage):
    first, second = unwell(shop), unwell(shop)
    staff = Visitor(stage).sign_in().open("/today/off_sale").send("/today/off_sale", target=first)
    assert staff.path == "/today/off_sale" and f"/s/{second}" in staff.page and f"/s/{first}" not in staff.page
    staff.open("/today").send("/today/off_sale")
    assert staff.path == "/today"


def test_undo_brings_it_back_onto_the_list(shop, stage):
    one = unwell(shop)
    staff = Visitor(stage).sign_in().open("/today").send("/today/off_sale").send("/undo/")
    assert f"/s/{one}" in staff.page


def test_a_list_that_does_not_exist_and_a_button_that_does_not(stage):
    staff = Visitor(stage).sign_in()
    assert staff.open("/today/nothing").status == 404
    shop = Shop(stage)
    unwell(shop)
    staff.open("/today")
    staff.page = staff.page.replace("/today/off_sale", "/today/missing")
    assert staff.send("/today/missing").status == 404


def test_every_rule_has_a_heading_and_an_address(stage):
    from webapp.services.today.page import RULES
    from webapp.words.today import TITLE

    assert set(RULES) == set(TITLE)
    staff = Visitor(stage).sign_in()
    for rule in RULES:
        assert staff.open(f"/today/{rule}").status == 200, rule


def test_a_walk_in_has_no_today(stage):
    assert Visitor(stage, "public").open("/today").status == 404


def test_several_from_the_stock_go_to_the_till(stage):
    shop = Shop(stage)
    ids = [shop.animal(price_cents=500), shop.animal(price_cents=700)]
    staff = Visitor(stage).sign_in().open("/stock")
    search = staff.page.index("</form>", staff.page.index('role="search"'))
    staff.page = staff.page[search:].replace('<option value="sell">', '<option value="sell" selected>')
    staff.send("/stock", chosen=ids)
    assert staff.path == "/till"
    assert "2 on the till, € 12.00" in staff.text
