"""What a hurried tap could file wrongly is chosen by a person: no kind, pest, food, case or tank stands there already.

What the way to a form tells stands there: the tank it was opened from, the place of the mother, the tank of the bag.
"""

import re

import pytest

from tests.shop_client import Visitor


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


def chosen(staff, name):
    """What a select of the page says when nobody touches it."""
    options = staff.find(rf'<select class="input" id="{re.escape(name)}"[^>]*>(.*?)</select>')
    told = re.findall(r'<option value="([^"]*)"( selected)?', options)
    assert len(told) > 2, f"{name} offers no choice"
    return next((value for value, is_chosen in told if is_chosen), told[0][0])


def test_a_line_of_a_shipment(staff, stage):
    staff.open("/shipments/new").send("/shipments/new", supplier="a farm far away")
    assert chosen(staff, "line-profile_key") == chosen(staff, "line-origin") == ""
    staff.send("/line", line__name="Gold Tip", line__count="2")
    assert staff.status == 422
    assert "Choose one: kind." in staff.text and "Choose one: where they come from." in staff.text
    staff.send("/line", line__profile_key="zoanthus", line__origin="wild")
    staff.open(staff.find(r'href="([^"]+/lines/[0-9a-f]{32})"'))
    assert (chosen(staff, "edit-profile_key"), chosen(staff, "edit-origin")) == ("zoanthus", "wild")
    assert chosen(staff, "bag-tank") == chosen(staff, "contents-rack") == ""
    staff.send("/bag", bag__tank=stage.other_tank, bag__bag_temp_c="24")
    assert chosen(staff, "contents-rack") == stage.other_tank


def test_the_only_quarantine_tank_is_where_a_bag_goes(staff):
    staff.open("/tanks/new")
    assert chosen(staff, "purpose") == ""
    staff.send("/tanks/new", name="Quiet", purpose="quarantine")
    quiet = staff.path.removeprefix("/tanks/")
    staff.open("/shipments/new").send("/shipments/new", supplier="a farm far away")
    staff.send("/line", line__name="Ring", line__count="2", line__profile_key="zoanthus", line__origin="wild")
    assert chosen(staff.open(staff.find(r'href="([^"]+/lines/[0-9a-f]{32})"')), "bag-tank") == quiet


def test_a_pest_and_its_tank(staff, stage):
    staff.open("/pests/new")
    assert chosen(staff, "pest") == chosen(staff, "tank") == ""
    staff.send("/pests/new")
    assert staff.status == 422 and "Choose one: what was seen." in staff.text
    staff.open(f"/pests/new?tank={stage.other_tank}")
    assert (chosen(staff, "pest"), chosen(staff, "tank")) == ("", stage.other_tank)


def test_how_a_mother_is_cut_and_where_the_plugs_go(staff, stage):
    staff.open(f"/s/{stage.mother}/frag")
    assert (chosen(staff, "method"), chosen(staff, "rack")) == ("", stage.rack)
    staff.send("/frag", pieces="2")
    assert staff.status == 422 and "Choose one: how." in staff.text
    staff.send("/frag", method="scalpel")
    assert chosen(staff.open(f"/s/{stage.mother}/frag"), "method") == "scalpel"  # as she was cut last


def test_food_and_the_unit_of_a_dose(staff, stage):
    assert chosen(staff.open(f"/s/{stage.mother}"), "feed-food") == ""
    staff.open(f"/tanks/{stage.tank}")
    assert chosen(staff, "feed-food") == chosen(staff, "dose-unit") == ""
    staff.send("/tend/dose", dose__what="salts", dose__amount="10")
    assert staff.status == 422 and "Say whether that is mL or g." in staff.text
    assert "Dosed: salts, 10 g." in staff.send("/tend/dose", dose__unit="g").text
    staff.send("/tend/dose", dose__what="trace elements")
    assert "Dosed: trace elements." in staff.text


def test_the_state_of_several_at_once(staff):
    staff.open("/stock")
    assert chosen(staff, "status") == ""
    staff.open("/stock?all=1&sort=name").send("/stock?sort=name", action="status")


def test_the_rack_that_is_counted_by_eye(staff, stage):
    assert chosen(staff.open("/count"), "place-by-eye") == ""
    staff.send("/count/found")
    assert "Choose the rack or tank that is counted by eye." in staff.text
    assert chosen(staff.open(f"/count?place=rack:{stage.other_rack}"), "place-by-eye") == f"rack:{stage.other_rack}"
