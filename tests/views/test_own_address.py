"""The page of a refused form says under which address it is opened again."""

import io
import re

import pytest

from tests.shop_client import Visitor
from webapp.views.own_address import own_address


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


def told(staff):
    found = re.search(r'<meta name="own-address" content="([^"]*)">', staff.page)
    return found and found.group(1)


def test_a_page_that_can_be_opened_names_its_own_address(staff, stage):
    assert told(staff.open(f"/pests/new?tank={stage.tank}")) is None
    staff.send("/pests/new")
    assert (staff.status, told(staff)) == (422, f"/pests/new?tank={stage.tank}")


@pytest.mark.parametrize("deed", ["look", "dip"])
def test_a_refused_picture_leaves_the_rest_and_leads_back_to_the_page_of_the_form(staff, stage, deed):
    staff.open(f"/s/{stage.mother}")
    picture = {f"{deed}-picture": (io.BytesIO(b"just text"), "a.jpg")}
    typed = {"look": {"look-note": "a white rim"}, "dip": {"dip-dip": "iodine", "dip-fell_off": "a white worm"}}[deed]
    staff.send(f"/{deed}", files=picture, **typed)
    assert (staff.status, told(staff)) == (422, "")  # the browser knows where the form stood
    assert "not a picture" in staff.text
    assert 'value="a white' in staff.page


def test_what_was_read_from_a_photo_is_opened_by_no_address(staff, stage):
    with staff.app.test_request_context(f"/s/{stage.mother}/ruler", method="POST"):
        assert own_address() is None
    with staff.app.test_request_context(f"/s/{stage.mother}/look", method="POST"):
        assert own_address() == ""
