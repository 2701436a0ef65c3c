"""Holds: for how long, for whom, and of what."""

from datetime import timedelta

import pytest

from tests.shop_client import Visitor
from webapp.services import updating
from webapp.services.recording import new_deed


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


def test_a_hold_without_a_deposit_is_short_and_with_one_longer(staff, stage, plugs):
    one = next(iter(plugs))
    staff.open(f"/s/{one}").send("/hold", hold__word="pearl", hold__hours="168")
    assert staff.status == 422
    assert "at most 72 hours" in staff.text
    staff.send("/hold", hold__word="pearl", hold__hours="168", hold__deposit="5")
    assert staff.status == 200
    assert "deposit € 5.00" in staff.open("/holds").text
    staff.send("/holds/release").send("/undo/")
    assert "“pearl”" in staff.text


def test_the_length_of_holds_is_measured_to_the_hour(stage, plugs):
    from webapp.errors import BadInput

    one, now = next(iter(plugs)), stage.later()
    with stage.database.saving() as session:
        updating.hold(session, stage.owner, new_deed(), one, "pearl", now + timedelta(hours=72), now)
        with pytest.raises(BadInput):
            updating.hold(session, stage.owner, new_deed(), one, "pearl", now + timedelta(hours=72, minutes=1), now)


def test_one_that_is_held_for_another_or_gone_is_not_held(staff, plugs):
    first, second, _third = plugs
    staff.open(f"/s/{first}").send("/hold", hold__word="owl", hold__hours="24")
    assert "On hold" in staff.text
    staff.send("/hold", hold__word="fox", hold__hours="24")
    assert staff.status == 422 and "on hold for another buyer. Release that hold first." in staff.text
    before = staff.open(f"/s/{second}").page
    staff.send("/lose", lose__cause="unknown")
    staff.page = before
    staff.send("/hold", hold__word="fox", hold__hours="24")
    assert staff.status == 422 and "Blue Disc is not here any more." in staff.text
