"""Undo leads back to the page it was asked on, or to the list when what that page showed is gone with it."""

import pytest

from tests.shop_client import Visitor


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


@pytest.mark.parametrize(("page", "typed", "listed"), [
    ("/shipments/new", {"supplier": "a farm"}, "/shipments"), ("/pests/new", {"pest": "other"}, "/pests"),
])  # fmt: skip
def test_what_was_begun_and_undone_leaves_its_list(staff, stage, page, typed, listed):
    more = {"tank": stage.tank} if page == "/pests/new" else {}
    staff.open(page).send(page, **typed, **more)
    assert staff.path.startswith(f"{listed}/")
    staff.send("/undo/")
    assert (staff.status, staff.path) == (200, listed)
    assert "Undone." in staff.text
    staff.send("/undo/")  # and the undo is undone: it is there again
    assert len(staff.find(rf'href="{listed}/([0-9a-f]{{32}})"')) == 32


def test_what_was_changed_and_undone_stays_on_its_page(staff, stage):
    for page, name in ((f"/tanks/{stage.tank}", "North"), (f"/racks/{stage.rack}", "N1")):
        staff.open(f"{page}/change").send("/change", name="Slip of the thumb")
        assert "Slip of the thumb" in staff.text
        staff.send("/undo/")
        assert (staff.status, staff.path) == (200, page)
        assert f"<h1>{name}</h1>" in staff.page


def test_a_form_of_a_tank_that_lacks_something_is_refused_as_all_others_are(staff, stage):
    for page in (f"/tanks/{stage.tank}/change", f"/tanks/{stage.tank}/racks/new", f"/racks/{stage.rack}/change"):
        staff.open(page).send("", name=" ")
        assert staff.status == 422 and "Fill in: name." in staff.text
