"""The stock's pages: what is taken in is said by a person, never by whatever stands first in a list."""

import re

import pytest
from sqlalchemy import select

from tests.shop_client import Visitor
from webapp.services import binding, intake, stock
from webapp.services.recording import new_deed
from webapp.storage.specimen import SpecimenRow


def chosen(staff, name):
    """What a browser would send for a list that nobody touched."""
    options = staff.find(rf'<select class="input" id="{name}"[^>]*>(.*?)</select>')
    return re.findall(r'value="([^"]*)"( selected)?', options)[0][0], "selected" in options


@pytest.mark.parametrize("address", ["/stock/new", "/tag/{code}/new"])
def test_nothing_is_chosen_that_nobody_chose(stage, address):
    with stage.database.saving() as session:
        code = binding.make_blanks(session, stage.owner, new_deed(), 1)[0]
    staff = Visitor(stage).sign_in().open(address.format(code=code))
    for name in ("profile_key", "origin", "rack"):
        assert chosen(staff, name) == ("", False)
        assert re.search(rf'<select[^>]* id="{name}"[^>]* required', staff.page)
    staff.send("/new", name="In a hurry")
    assert staff.status == 422
    for words in ("Choose one: kind.", "Choose one: where it comes from.", "Choose one: where to."):
        assert words in staff.text
    staff.send("/new", profile_key="discosoma", origin="bought_in", rack=stage.tank)
    assert "In a hurry" in staff.find("<h1>(.*?)</h1>")
    assert "Disc" in staff.text


def test_all_on_a_page_are_chosen_by_a_link_and_only_for_one_deed(stage):
    with stage.database.saving() as session:
        place = {"tank_id": stage.tank, "rack_id": None, "slot": ""}
        given = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "healing"} | place
        intake.take_in(session, stage.owner, new_deed(), given, count=60)
    staff = Visitor(stage).sign_in().open("/stock?q=blue&sort=oldest")
    ticked = r'name="chosen" value="[0-9a-f]{32}" checked'
    assert not re.findall(ticked, staff.page)
    staff.open(staff.find(r'href="([^"]*)" data-tick').replace("&amp;", "&"))
    assert len(re.findall(ticked, staff.page)) == 50
    assert "Choose none" in staff.text
    assert "all=" not in staff.find(r'rel="next" href="([^"]*)"')
    staff.open("/stock?all=1&q=blue&sort=oldest").send("/stock?q=blue&sort=oldest", action="status", status="for_sale")
    assert "Done for 50 specimens." in staff.text
    assert not re.findall(ticked, staff.page)
    assert staff.path == "/stock?q=blue&sort=oldest"
    assert "10 specimens" in staff.open("/stock?state=healing").text
    assert "Choose none" not in staff.open("/stock?q=nothing+like+it&all=1").text


def test_several_take_the_free_slots_from_the_first_on(stage):
    """The mother stands in A1 of a rack of 4 rows of 10."""
    staff = Visitor(stage).sign_in().open(f"/racks/{stage.rack}")
    assert f'"/stock/new/{stage.rack}/A2"' in staff.page and f"/stock/new/{stage.rack}/A1\"" not in staff.page
    staff.open(f"/stock/new/{stage.rack}/A10")
    order = [staff.page.index(f'name="{name}"') for name in ("profile_key", "name", "origin", "count", "rack", "slot")]
    assert order == sorted(order)
    staff.send("/stock/new", profile_key="discosoma", name="Blue Disc", origin="own", count="3")
    with stage.database.reading() as session:
        rows = session.scalars(select(SpecimenRow).where(SpecimenRow.name == "Blue Disc"))
        assert sorted(row.slot for row in rows) == ["A10", "B1", "B2"]
    staff.open("/stock/new").send(
        "/stock/new", profile_key="discosoma", name="Too many", origin="own", count="9",
        rack=f"{stage.tank}:{stage.rack}", slot="d5",
    )  # fmt: skip
    assert staff.status == 422
    assert "N1 has 6 free slots from D5 on, and 9 need a place." in staff.text


def test_the_list_for_paper_holds_all_that_matches_and_the_page_says_which_part_it_shows(stage):
    """51 discs and the mother: 52 in the shop, 50 to a page."""
    plain = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale",
             "tank_id": stage.other_tank, "price_cents": 1500}  # fmt: skip
    with stage.database.saving() as session:
        intake.take_in(session, stage.owner, new_deed(), plain, 51)
    staff = Visitor(stage).sign_in().open("/stock")
    assert "1 to 50 of 52 specimens" in staff.text
    assert "51 to 52 of 52 specimens" in staff.open("/stock?page=2").text
    staff.open("/stock?page=2").open(staff.find(r'href="(/stock/paper[^"]*)"').replace("&amp;", "&"))
    assert (staff.page.count("Blue Disc"), staff.page.count("Ember Ring")) == (51, 1)
    assert "in the shop. 52 specimens." in staff.text
    staff.open("/stock/paper?state=for_sale&q=disc")
    assert "for sale, “disc”. 51 specimens." in staff.text and "Ember Ring" not in staff.page
    assert "Nothing matches." in staff.open("/stock/paper?q=nowhere").text


def test_a_list_too_long_for_paper_says_that_it_is_cut_off(stage, monkeypatch):
    monkeypatch.setattr(stock, "MOST_ON_PAPER", 3)
    plain = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "tank_id": stage.other_tank}
    with stage.database.saving() as session:
        intake.take_in(session, stage.owner, new_deed(), plain | {"status": "for_sale"}, 4)
    staff = Visitor(stage).sign_in().open("/stock/paper")
    assert "The first 3 of 5 specimens." in staff.text and staff.page.count('<tr role="row">') == 1 + 3
