"""Before any talk of a sale: the page on handling what can hurt a person."""

import pytest
from sqlalchemy import select

from tests.shop_client import Visitor
from webapp.storage.specimen import SpecimenRow


@pytest.fixture
def buyer(stage):
    visitor = Visitor(stage, "public")
    with stage.database.reading() as session:
        visitor.code = session.scalar(select(SpecimenRow.code).where(SpecimenRow.id == stage.mother))
    return visitor


def test_it_is_linked_before_anything_else_on_card_form_and_answer(buyer):
    for path, mark in (("", "/fit"), ("/fit", "<form"), ("/answer?temp=25", 'class="answer')):
        page = buyer.open(f"/{buyer.code}{path}").page
        assert buyer.status == 200
        assert 0 < page.find(f"/{buyer.code}/handling") < page.find(mark), path


def test_it_says_what_never_to_do_what_to_wear_and_what_to_say_when_ill(buyer):
    text = buyer.open(f"/{buyer.code}/handling").text
    for said in ("Never boil it", "scrub", "gloves", "goggles", "one part household bleach", "nine parts",
                 "possible palytoxin", "which hour", "seven to eight hours",
                 "Local rules and your doctor"):  # fmt: skip
        assert said in text, said


@pytest.mark.parametrize("plan", ["boil", "clean"])
def test_a_plan_that_can_hurt_comes_before_the_answer(buyer, plan):
    buyer.open(f"/{buyer.code}/answer?temp=25&temp_unit=c&rock={plan}")
    assert buyer.path.startswith(f"/{buyer.code}/handling")
    assert "Do not." in buyer.text
    onward = buyer.find(r'href="([^"]*read=yes[^"]*)"').replace("&amp;", "&")
    buyer.open(onward)
    assert "/answer" in buyer.path and "temp=25" in buyer.path and "25" in buyer.text


def test_a_plan_that_can_hurt_is_answered_though_nothing_was_said_of_the_tank(buyer):
    buyer.open(f"/{buyer.code}/answer?temp=&temp_unit=c&rock=boil")
    assert buyer.path.startswith(f"/{buyer.code}/handling")
    assert "Do not." in buyer.text
    buyer.open(buyer.find(r'href="([^"]*read=yes[^"]*)"').replace("&amp;", "&"))
    assert "Nothing was filled in" in buyer.text


def test_a_plan_that_hurts_nobody_goes_straight_to_the_answer(buyer):
    assert "/answer" in buyer.open(f"/{buyer.code}/answer?temp=25&rock=keep").path
    assert "/answer" in buyer.open(f"/{buyer.code}/answer?temp=25&rock=nonsense").path


def test_the_form_asks_what_becomes_of_the_rock(buyer):
    assert 'name="rock"' in buyer.open(f"/{buyer.code}/fit").page
    assert 'name="rock"' not in buyer.open("/suits").page
