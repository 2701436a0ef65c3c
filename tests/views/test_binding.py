"""The binding page, as staff and walk-ins meet it."""

import re

import pytest

from tests.shop_client import Visitor
from webapp.services import binding, updating
from webapp.services.recording import new_deed
from webapp.services.shop import load_shop, save_shop


@pytest.fixture
def blank(stage):
    with stage.database.saving() as session:
        return binding.make_blanks(session, stage.owner, new_deed(), 1)[0]


def test_a_blank_tag_is_kind_to_a_walk_in_and_a_binding_page_to_staff(stage, blank):
    walk_in = Visitor(stage, "public").open(f"/{blank}")
    assert walk_in.status == 200
    assert "still blank" in walk_in.text
    staff = Visitor(stage).sign_in().open(f"/{blank}")
    assert staff.path == f"/tag/{blank}"
    staff.open(f"/tag/{blank}?q=ember").send("/bind")
    assert "The tag is bound." in staff.text
    assert "Ember Ring" in Visitor(stage, "public").open(f"/{blank}").text


def test_staff_pages_of_tags_are_not_at_the_walk_ins_door(stage, blank):
    assert Visitor(stage, "public").open(f"/tag/{blank}").status == 404


def test_a_new_specimen_from_the_binding_page(stage, blank):
    staff = Visitor(stage).sign_in().open(f"/tag/{blank}/new")
    staff.send("/new", profile_key="zoanthus", name="Dusk", origin="own", rack=f"{stage.tank}:{stage.rack}", slot="C3")
    assert staff.status == 200, staff.text[:400]
    assert "Dusk" in Visitor(stage, "public").open(f"/{blank}").text


def test_rebinding_must_be_chosen(stage):
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    staff.open(f"/tag/{code}")
    assert "/bind" not in staff.page
    staff.open(f"/tag/{code}?rebind=1&q=S1").send("/bind")
    assert "The tag is bound." in staff.text
    assert re.search(r"Stands for S1", staff.text)


def test_a_wrong_replacement_comes_back_with_a_sentence(stage):
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    staff.open(f"/tag/{code}").send("/replace", by="1234567")
    assert staff.status == 422
    assert "not a whole code" in staff.text


@pytest.mark.parametrize(("days", "shown"), [(0, True), (30, True), (5, False)])
def test_a_sold_plugs_tag_tells_its_buyer_as_long_as_the_shop_wishes(stage, monkeypatch, days, shown):
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), sold_tag_days=days)
        updating.update(session, stage.owner, new_deed(), "sold", [stage.mother], {})
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    monkeypatch.setattr("webapp.views.card.now", lambda: stage.later(days=10))
    page = Visitor(stage, "public").open(f"/{code}")
    assert page.status == 200
    assert ("Ember Ring" in page.text) is shown
    assert ("went home with a buyer" in page.text) is not shown


def test_after_a_replacement_the_new_tag_s_page_opens_and_the_old_one_leads_there(stage, blank):
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    staff.open(f"/tag/{code}").send("/replace", by=blank.lower())
    assert staff.path == f"/tag/{blank}"
    assert "This tag is in use" in staff.text
    staff.open(f"/tag/{code}")
    assert "This tag is retired" in staff.text
    assert f"It carries {blank} now" in staff.text


def test_back_to_the_form_of_a_tag_that_was_bound_leads_to_the_tag(stage, blank):
    staff = Visitor(stage).sign_in().open(f"/tag/{blank}/new")
    staff.send("/new", profile_key="zoanthus", name="Dusk", origin="own", rack=f"{stage.tank}:{stage.rack}", slot="C3")
    assert staff.open(f"/tag/{blank}/new").path == f"/tag/{blank}"


def test_a_retired_tag_offers_a_new_label_for_what_it_stood_for(stage):
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    staff.open(f"/tag/{code}").send("/retire")
    staff.open(staff.find(r'href="(/labels\?id=[0-9a-f]{32})"'))
    assert "Ember Ring" in staff.text
    staff.send("/labels/tag")
    assert "Print 1 label" in staff.text
