"""The short way: at most six questions for any kind, and all others one tap away."""

import pytest

from tests.shop_client import Visitor
from tests.words.making import KINDS
from webapp.services import updating
from webapp.services.recording import new_deed
from webapp.services.tagging import live_code
from webapp.views.fit_short import BOXES, MOST, holds_all, six_for, still_blank


@pytest.fixture
def page(stage) -> Visitor:
    with stage.database.reading() as session:
        code = live_code(session, stage.mother)
    return Visitor(stage, "public").open(f"/{code}/fit")


@pytest.mark.parametrize("key", KINDS)
def test_at_most_six_are_asked_and_warmth_and_salt_always(key):
    six = six_for(KINDS[key])
    assert len(six) <= MOST
    assert {"temp", "salinity"} <= set(six)
    assert ("rock" in six) == KINDS[key].toxic


def test_a_kind_that_lives_by_food_is_asked_about_food_not_light():
    assert "feeding" in six_for(KINDS["tubastraea"])
    assert "light" not in six_for(KINDS["tubastraea"])


def test_a_stony_coral_is_asked_for_alkalinity():
    assert "alk" in six_for(KINDS["acropora"])


def test_the_form_opens_short_and_the_rest_is_one_tap_away(page):
    assert 'name="near1"' not in page.page
    assert page.page.count("<label for=") + page.page.count("<legend>") <= MOST
    whole = page.open(page.path + "?all=1&temp=25")
    assert 'name="near1"' in whole.page
    assert 'name="temp" value="25"' in whole.page


def test_what_the_short_form_has_no_box_for_opens_the_whole_one(page):
    assert 'name="near1"' in page.open(page.path.split("?")[0] + "?temp=25&ca=400").page
    assert 'name="near1"' not in page.open(page.path.split("?")[0] + "?temp=25&temp_unit=c&light_way=words").page


def test_the_answer_says_what_is_still_missing_and_what_it_would_settle(page):
    answer = page.send("/answer", temp="25", salinity="35", salinity_unit="ppt", read="yes")
    assert "What would settle most" in answer.text
    assert "Still needed" in answer.text


def test_every_question_has_its_boxes():
    assert all(BOXES.values())
    assert not holds_all(("temp",), {"temp": "25", "light_way": "lux", "lux": "9000"})
    assert holds_all(("temp", "light"), {"temp": "25", "light_way": "words", "light_word": "dim", "po4": " "})


def test_a_form_that_was_left_blank_says_so_and_keeps_the_rock(page):
    page.send("/answer", rock="keep")
    assert "/fit?empty=1" in page.path
    assert "Nothing was filled in" in page.text
    assert 'name="near1"' not in page.page
    assert 'value="keep" selected' in page.page
    assert "Nothing was filled in" in page.open("/suits").send("/suits/answer").text


def test_a_slip_on_the_short_form_comes_back_on_the_short_form(page):
    page.send("/answer", temp="25,5", salinity="abc")
    assert page.status == 422
    assert 'name="near1"' not in page.page
    assert page.text.count("'abc' is not a number") == 2  # at the top, and beside the box
    assert 'value="25,5"' in page.page and 'value="abc"' in page.page


def test_what_is_still_missing_is_asked_beside_the_answer(page):
    """A kind that needs more than the six: the rest is a question or two away, with what was said before."""
    six = {"temp": "25", "salinity": "35", "salinity_unit": "ppt", "light_word": "modest", "no3": "10", "age": "24"}
    answer = page.send("/answer", **six)
    assert "Still needed" in answer.text and "Say what is missing here" in answer.text
    assert 'name="flow_word"' in answer.page and 'name="temp" value="25"' in answer.page
    again = answer.send("/answer", flow_word="gentle_sway")
    said = again.find(r'href="[^"]*/fit\?([^"]*)"')
    assert "temp=25" in said and "flow_word=gentle_sway" in said and "light_word=modest" in said
    assert "Still needed" not in again.text and "Say what is missing here" not in again.text


def test_what_most_kinds_still_need_is_asked_beside_what_suits(stage):
    with stage.database.saving() as session:
        updating.update(session, stage.owner, new_deed(), "status_set", [stage.mother], {"status": "for_sale"})
    page = Visitor(stage, "public").open("/suits").send("/suits/answer", temp="25", salinity="35")
    assert "Say what is missing here" in page.text
    more = page.send("/suits/answer", age="24", no3="10", light_word="modest")
    said = more.find(r'href="/suits\?([^"]*)"')
    assert "temp=25" in said and "age=24" in said
    assert "/handling" in more.find(r'<a href="([^"]*)">First: how to handle it safely')  # it may carry palytoxin


def test_what_was_said_another_way_is_not_asked_again():
    given = {"light_way": "lux", "lux": "9000", "flow_way": "words", "po4_unit": "ppb_p", "no3": "5"}
    assert still_blank(("light", "tankmates", "no3", "po4", "flow", "age", "ca"), given) == ("po4", "flow", "age")
