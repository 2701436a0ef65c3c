"""The stock's pages: what is taken in is said by a person, never by whatever stands first in a list."""

import re

import pytest

from tests.shop_client import Visitor
from webapp.services import binding, intake
from webapp.services.recording import new_deed


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
