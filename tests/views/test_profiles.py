"""The owner changes a range, sees first what that changes, and goes back."""

import pytest

from tests.shop_client import Visitor
from tests.stage import PIN
from webapp.services import people
from webapp.services.readings import log_readings
from webapp.services.recording import new_deed


@pytest.fixture
def owner(stage):
    """The stage's mother colony of zoanthids lives at 29 ppt, below what they bear (30)."""
    visitor = _signed_in(stage, "Noor", PIN)
    water = [{"quantity": "salinity", "value": 29.0, "unit": "ppt", "method": ""}]
    with stage.database.saving() as session:
        log_readings(session, stage.owner, new_deed(), stage.tank, water)
    return visitor


def _signed_in(stage, person, pin):
    return Visitor(stage).open("/sign-in?next=/kinds").send("/sign-in", person=person, secret=pin)


def _change(owner, **typed):
    edges = {"limit_low": "28", "ideal_low": "29", "ideal_high": "36", "limit_high": "38"}
    new = {**edges, "reason": "two years at 29 here"}
    return owner.open("/kinds/zoanthus/salinity").send("/kinds/zoanthus/salinity", **{**new, **typed})


def test_the_list_leads_to_every_range(owner):
    owner.open("/settings")
    assert "/kinds" in owner.page
    assert "1 here" in owner.open("/kinds").text
    page = owner.open("/kinds/zoanthus")
    assert "Revision 1: as it came with the program" in page.text and "/kinds/zoanthus/par" in page.page


def test_a_change_is_shown_before_it_is_kept(owner):
    _change(owner)
    assert "beyond its limits 1 → 0" in owner.text and "ideal 0 → 1" in owner.text
    assert "An ordinary mixed tank" in owner.text
    assert "Revision 1 holds now" in owner.open("/kinds/zoanthus").text


def test_it_becomes_revision_2_on_the_shops_own_authority_and_the_way_back_is_revision_3(owner):
    _change(owner).send("/kinds/zoanthus/salinity", do="save")
    assert "Revision 2 holds now" in owner.text
    assert "this shop's own: two years at 29 here" in owner.text
    assert "Revision 2 by Noor: two years at 29 here" in owner.text
    owner.send("/kinds/zoanthus/back/1")
    assert "Revision 3 holds now" in owner.text and "back to revision 1" in owner.text
    assert "32–36 ppt" in owner.text


def test_a_change_in_the_ideal_changes_what_a_buyer_is_told(owner):
    _change(owner, ideal_high="33", limit_high="34").send("/kinds/zoanthus/salinity", do="save")
    code = owner.open("/kinds").open("/stock").find(r"\b([0-9A-Z]{7})\b")
    answer = owner.open(f"/{code}/answer?salinity=36.9&salinity_unit=ppt&salinity_by=laboratory")
    assert "more than it bears: at most 34" in answer.text


def test_what_cannot_be_is_said_and_nothing_is_kept(owner):
    for typed, sentence in (
        ({"reason": ""}, "Say why"),
        ({"limit_low": "31"}, "must rise in this order"),
        ({"ideal_high": "lots"}, "is not a number"),
        ({"limit_low": "nan"}, "not"),
        ({"limit_low": "30", "ideal_low": "32"}, "as it stands"),
    ):
        _change(owner, **typed)
        assert owner.status == 422 and sentence in owner.text, typed
    assert "Revision 1 holds now" in owner.open("/kinds/zoanthus").text


def test_a_preview_of_an_older_revision_saves_nothing(owner):
    stale = _change(owner).page
    _change(owner).send("/kinds/zoanthus/salinity", do="save")
    owner.page, owner.path = stale, "/kinds/zoanthus/salinity"
    owner.send("/kinds/zoanthus/salinity", do="save", limit_low="27")
    assert "What this would change" in owner.text
    assert "Revision 2 holds now" in owner.open("/kinds/zoanthus").text


def test_only_an_owner_may(stage):
    with stage.database.saving() as session:
        people.add_person(session, "Ida", "739164", "staff", stage.later())
    assert _signed_in(stage, "Ida", "739164").status == 403
    assert Visitor(stage, "public").open("/kinds").status == 404


def test_unknown_kinds_and_factors_are_said(owner):
    assert owner.open("/kinds/unicorn").status == 404
    assert owner.open("/kinds/zoanthus/luck").status == 404
