"""A pest on Wednesday, through the pages: the finding, the marked tank, what is off sale, the looks, the end."""

import pytest

from tests.shop_client import Visitor


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


@pytest.fixture
def selling(staff, stage):
    staff.open(f"/s/{stage.mother}").send("/status", status__status="for_sale")
    return staff


def found(staff, stage, **typed):
    staff.open(f"/pests/new?tank={stage.tank}")
    return staff.send("/pests/new", **{"pest": "montipora_nudibranch"} | typed)


def on_sale(stage):
    return "Ember Ring" in Visitor(stage, "public").open("/for-sale").text


def test_the_rule_takes_the_whole_water_off_sale_and_says_so_nowhere_in_public(selling, stage):
    assert on_sale(stage)
    found(selling, stage)
    assert not on_sale(stage)
    code = selling.open(f"/s/{stage.mother}").find(r"data-code>([0-9A-Z]{7})<")
    assert "Montipora nudibranch in this water: off sale" in selling.text
    assert "Montipora nudibranch: this water is exposed" in selling.open(f"/tanks/{stage.tank}").text
    card = Visitor(stage, "public").open(f"/{code}")
    assert "not for sale just now" in card.text
    assert "nudibranch" not in card.text


def test_a_harmless_one_marks_the_tank_and_sale_goes_on(selling, stage):
    found(selling, stage, pest="vermetid")
    assert on_sale(stage)
    assert "vermetid snail: this water is exposed" in selling.open(f"/tanks/{stage.tank}").text


def test_what_it_was_seen_on_is_off_sale_until_a_look_says_otherwise(selling, stage):
    code = selling.open(f"/s/{stage.mother}").find(r"data-code>([0-9A-Z]{7})<")
    found(selling, stage, pest="vermetid", code=code)
    assert not on_sale(stage)
    selling.open(f"/s/{stage.mother}")
    assert "The last look saw a pest" in selling.text
    selling.send("/look", look__pest_free="y")
    assert on_sale(stage)


def test_the_exposure_list_follows_moves_and_the_finding_can_be_undone(selling, stage):
    found(selling, stage)
    finding = selling.path
    assert selling.text.count("Ember Ring") == 1
    selling.open(f"/s/{stage.mother}").send("/move", move__rack=stage.other_tank)
    selling.open(finding)
    assert "South since" in selling.text
    assert "this water is exposed" in selling.open(f"/tanks/{stage.other_tank}").text


def test_looks_treatment_and_the_end(selling, stage):
    found(selling, stage)
    selling.send("/treat", treatment="Picked by hand, dipped.")
    assert "Picked by hand, dipped." in selling.text
    selling.send("/clean")
    assert "Looks without a pest, 7 days apart: 1 of 2" in selling.text
    selling.send("/gone")
    assert "It counts as gone since" in selling.text
    assert on_sale(stage)
    selling.send("/undo/")
    assert not on_sale(stage)
    selling.send("/go_on")
    assert on_sale(stage)


def test_an_unknown_code_gets_a_sentence(staff, stage):
    found(staff, stage, code="ABC")
    assert staff.status == 422
    assert "is not a whole code" in staff.text
