"""A tank's and a rack's tag: what a walk-in sees, and what staff see who scan it."""

from zoneinfo import ZoneInfo

import pytest

from tests.shop_client import Visitor
from webapp.services import binding, readings
from webapp.services.profiles import newest_profiles
from webapp.services.recording import new_deed


def code_of(stage, kind, place_id):
    with stage.database.reading() as session:
        return binding.find_target(session, kind, place_id).code


@pytest.fixture
def too_high(stage):
    """Two readings of alkalinity above what the mother bears, the first three days ago; and her upper limit."""
    with stage.database.reading() as session:
        limit = newest_profiles(session, stage.memory, 0)["zoanthus"].bands["alk"].limit_high
    for days in (3, 1):
        at = stage.later(days=-days)
        given = {"quantity": "alk", "value": limit + 2, "unit": "dkh", "method": "drop_kit"}
        with stage.database.saving() as session:
            readings.log_readings(session, stage.owner, new_deed(), stage.tank, [given], at)
    return limit


@pytest.mark.parametrize("kind", ["tank", "rack"])
def test_staff_who_scan_it_see_what_is_out_of_range_for_whom_and_since_when(stage, too_high, kind):
    code = code_of(stage, kind, stage.tank if kind == "tank" else stage.rack)
    staff = Visitor(stage).sign_in().open(f"/{code}")
    assert staff.path == f"/{kind}/{code}"
    said = staff.find(r'<section aria-label="For staff">(.*?)</section>').replace("\N{NO-BREAK SPACE}", " ")
    assert f"{too_high + 2:g} dKH" in said
    assert "button polyps" in said.lower() or "zoa" in said.lower()
    assert f"to {too_high:g} dKH" in said
    first = stage.later(days=-3).astimezone(ZoneInfo("Europe/Berlin"))
    assert f"since {first.day} " in said
    staff.open(staff.find(r'href="(/tanks/[0-9a-f]{32}/readings)"'))
    assert "Log readings" in staff.text


def test_a_walk_in_sees_its_water_and_not_the_shop_s_troubles(stage, too_high):
    walk_in = Visitor(stage, "public").open(f"/{code_of(stage, 'tank', stage.tank)}")
    assert "Its water" in walk_in.text
    assert "outside" not in walk_in.text
    assert "/tanks/" not in walk_in.page


def test_nothing_measured_is_said(stage):
    staff = Visitor(stage).sign_in().open(f"/{code_of(stage, 'tank', stage.tank)}")
    assert "Nothing was measured here yet." in staff.text
