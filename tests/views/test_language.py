"""The language of a page: asked by the browser, chosen by the reader, or for one page; staff pages are English."""

import pytest

from tests.shop_client import Visitor
from webapp.services.tagging import live_code

TANK = "temp=25.5&temp_unit=c&salinity=35&salinity_unit=ppt&alk=8.2&alk_unit=dkh&no3=10&po4=0.05&volume=200&age=12"


@pytest.fixture
def code(stage) -> str:
    with stage.database.reading() as session:
        return live_code(session, stage.mother)


@pytest.fixture
def walk_in(stage) -> Visitor:
    return Visitor(stage, "public")


def test_a_browser_that_asks_for_german_gets_it_said_and_marked(walk_in, code):
    page = walk_in.open(f"/{code}", **{"Accept-Language": "de-AT,de;q=0.9,en;q=0.5"})
    assert '<html lang="de" dir="ltr">' in page.page
    assert "Passt es in mein Becken?" in page.text
    assert "Accept-Language" in page.headers["Vary"]
    assert "Cookie" in page.headers["Vary"]


def test_a_language_that_nobody_translated_is_answered_in_english(walk_in, code):
    assert '<html lang="en"' in walk_in.open(f"/{code}", **{"Accept-Language": "fi"}).page


def test_the_switch_is_a_link_that_is_remembered_and_comes_back(walk_in, code):
    switch = walk_in.open(f"/{code}?x=1").find(r'href="(/language/de[^"]*)"').replace("&amp;", "&")
    page = walk_in.open(switch)
    assert page.path == f"/{code}?x=1"
    assert '<html lang="de"' in page.page
    assert '<html lang="de"' in walk_in.open("/", **{"Accept-Language": "en"}).page
    assert '<html lang="en"' in walk_in.open("/?lang=en").page, "one page in another language"
    assert '<html lang="de"' in walk_in.open("/").page, "and the choice stays"


@pytest.mark.parametrize("target", ["//elsewhere.example/", "https://elsewhere.example/", "/\\elsewhere.example"])
def test_the_switch_never_leads_elsewhere(walk_in, target):
    assert walk_in.open("/language/de", next=target).path == "/"
    assert walk_in.open(f"/language/de?next={target}").path == "/"


def test_a_language_we_do_not_speak_is_no_choice(walk_in):
    assert walk_in.open("/language/xx").status == 404


def test_a_card_is_kept_for_its_language_alone(walk_in, code):
    """RFC 9110, 8.8.3: two representations that differ must not share a strong entity tag."""
    english = walk_in.open(f"/{code}", **{"Accept-Language": "en"}).headers["ETag"]
    german = walk_in.open(f"/{code}", **{"Accept-Language": "de"})
    assert german.headers["ETag"] != english
    again = walk_in.open(f"/{code}", **{"Accept-Language": "de", "If-None-Match": english})
    assert again.status == 200


def test_staff_pages_are_english_whatever_the_browser_asks(stage):
    staff = Visitor(stage).sign_in()
    assert '<html lang="en"' in staff.open("/stock", **{"Accept-Language": "de"}).page


def test_numbers_of_an_answer_have_the_mark_of_the_language(walk_in, code):
    page = walk_in.open(f"/{code}/answer?{TANK}&read=yes&lang=de")
    assert "25,5 °C" in page.text
    assert "25.5 °C" not in page.text


ENGLISH = {
    "the", "and", "your", "it", "with", "of", "this", "is", "you", "not", "water", "light", "Your", "day", "days",
    "head", "heads", "here", "used", "at",
}  # fmt: skip


@pytest.mark.parametrize("path", ["", "/fit", "/answer?" + TANK + "&read=yes", "/sheet?" + TANK, "/handling"])
def test_a_german_page_holds_no_english_sentence(walk_in, code, path):
    """Common English words that are no German words, names of people or Latin: none is left in the page."""
    page = walk_in.open(f"/{code}{path}", **{"Accept-Language": "de"})
    assert page.status == 200
    words = set(page.text.replace(".", " ").replace(",", " ").replace(":", " ").split())
    assert not words & ENGLISH
