"""What a new buyer and a sceptical expert tried through the pages, and what became of it."""

import re
from html import unescape
from urllib.parse import urlencode

import pytest

from tests.views.test_fit_page import ACAN, BLANK, GOOD, ask, shelf  # noqa: F401

ANEMONE, MUSHROOM, STAGHORN, FLOWERPOT = "entacmaea_quadricolor", "discosoma", "acropora", "goniopora"


def links(page: str, question: str) -> list[str]:
    section = re.search(rf'<section class="question" id="ask-{question}">.*?</section>', page, re.DOTALL)[0]
    return [unescape(link) for link in re.findall(r'href="([^"]*/answer[^"]*)"', section)]


def tap(shelf, question: str) -> str:  # noqa: F811
    """Take the first offer of a question; the page after it."""
    visitor, _ = shelf
    visitor.open(links(visitor.page, question)[0])
    return visitor.page


@pytest.mark.parametrize(
    ("question", "typed"),
    [
        ("temp", {"temp": "78"}),
        ("salinity", {"salinity": "1.025"}),
        ("salinity", {"salinity": "35", "salinity_unit": "sg_25"}),
        ("salinity", {"salinity": "1.25", "salinity_unit": "sg_25"}),
        ("salinity", {"salinity": "53"}),
        ("salinity", {"salinity": "1026"}),
        ("alk", {"alk": "150"}),
        ("alk", {"alk": "2.8"}),
        ("alk", {"alk": "2500"}),
        ("alk", {"alk": "20"}),
        ("ca", {"ca": "1060"}),
        ("mg", {"mg": "5300"}),
        ("po4", {"po4": "30"}),
        ("light", {"par": "9000"}),
        ("summer", {"summer": "80"}),
        ("summer", {"temp": "78", "temp_unit": "f", "summer": "27"}),
        ("volume", {"volume": "66"}),
        ("volume", {"length": "40", "width": "20", "height": "20"}),
        ("volume", {"length_unit": "in"}),
    ],
)
def test_a_number_in_the_wrong_unit_is_asked_about_and_one_tap_settles_it(shelf, question, typed):  # noqa: F811
    ask(shelf, ACAN, typed)
    assert f'id="ask-{question}"' in shelf[0].page
    assert f'id="ask-{question}"' not in tap(shelf, question), shelf[0].path


def test_an_answer_is_not_green_without_saying_what_it_leaves_out(shelf):  # noqa: F811
    whole, _ = ask(shelf, MUSHROOM, {"mate": BLANK, "no_near": BLANK, "salinity": "32", "summer": BLANK})
    assert whole == "suits"
    assert "Not said, so not in this answer, yet able to turn it: corals near it and its tankmates" in shelf[0].text
    whole, _ = ask(shelf, ACAN, {"ca": "1060"})
    assert whole == "suits" and "Not in this answer until its question is answered: calcium" in shelf[0].text


def test_an_anemone_is_not_sold_before_the_pump_intakes_are_spoken_of(shelf):  # noqa: F811
    typed = {"par": "200", "light_depth": "25", "flow_word": "waves_steadily"}
    assert ask(shelf, ANEMONE, typed)[0] == "not_known"
    assert ask(shelf, ANEMONE, typed | {"open_pumps": "no"})[0] == "suits"
    assert ask(shelf, ANEMONE, typed | {"open_pumps": "yes"})[0] == "change_first"


@pytest.mark.parametrize("reading", ["0", "0.5"])
def test_a_colour_card_that_cannot_see_is_no_miss_among_three(shelf, reading):  # noqa: F811
    typed = {"no3": reading, "no3_by": "colour_card", "po4": "0", "po4_by": "colour_card", "alk": "10.5",
             "flow_word": "bent_over", "par": "300", "light_depth": "10", "swing_alk": "0.2"}  # fmt: skip
    whole, factors = ask(shelf, STAGHORN, typed)
    assert factors["Nitrate"] == factors["Phosphate"] == "not_known" and factors["Alkalinity"] == "close"
    assert whole == "not_known"


@pytest.mark.parametrize(
    ("box", "typed", "sentence"),
    [
        ("alk", {"alk": "abc"}, "'abc' is not a number"),
        ("alk", {"alk": "8..5"}, "is not a number"),
        ("temp", {"temp": "-5"}, "cannot be less than zero"),
        ("space", {"space": "-2"}, "Give a number from 0 to 1000"),
        ("no3", {"no3": "1e9"}, "Give a number from 0 to 10000000"),
        ("no3", {"no3": "nan"}, "is not a number"),
        ("watts", {"light_way": "fixture", "lamp": "led_white"}, "Give the watts of one lamp"),
        ("no_mates", {"no_mates": "yes"}, "You said both"),
        ("no_near", {"no_near": "yes", "near1": "galaxea"}, "You said both"),
    ],
)
def test_what_cannot_be_read_is_said_at_its_box_and_nothing_is_lost(shelf, box, typed, sentence):  # noqa: F811
    visitor, codes = shelf
    visitor.open(f"/{codes[ACAN]}/fit").send("/answer", **{k: v for k, v in (GOOD | typed).items() if v})
    assert visitor.status == 422
    assert sentence in visitor.text and f'href="#{box}"' in visitor.page
    assert 'value="1320"' in visitor.page


@pytest.mark.parametrize(
    "typed",
    [
        {"light_way": "words", "light_word": "bright"},
        {"flow_word": "wild"},
        {"flow_way": "pumps", "pump1": "2000", "pump1_kind": "turbine"},
        {"light_way": "fixture", "lamp": "sun", "watts": "20"},
        {"light_way": "lux", "lux": "3000", "lux_colour": "pink"},
        {"volume": "1", "length": BLANK, "width": BLANK, "height": BLANK},
        {"height": "400", "volume": BLANK},
        {"temp_unit": "kelvin", "temp": "298"},
        {"length": "3", "width": "2", "height": "1", "volume": BLANK},
        {"light_hours": "24"},
        {"light_way": "meter", "par": "0", "light_depth": "0"},
        {"salinity": "0"},
        {"mate": "unicorn"},
        {"near1": "unicorn", "near1_gap": "5"},
        {"summer": "5"},
        {"feeds": "6.5"},
        {"meant": "alk:2.8:dkh", "alk": "2.8"},
    ],
)
def test_odd_and_forged_addresses_are_answered_with_a_sentence(shelf, typed):  # noqa: F811
    visitor, codes = shelf
    filled = {name: value for name, value in (GOOD | typed).items() if value is not BLANK}
    visitor.open(f"/{codes[ACAN]}/answer?{urlencode(filled)}")
    assert visitor.status in (200, 422)
    assert "None" not in visitor.text and "Traceback" not in visitor.text


def test_commas_and_spaces_of_other_keyboards_are_read(shelf):  # noqa: F811
    assert ask(shelf, ACAN, {"alk": "8,5", "ca": "4 25", "po4": "0,05"})[0] == "suits"


def test_heat_in_summer_is_told_in_the_buyers_unit(shelf):  # noqa: F811
    assert ask(shelf, ACAN, {"temp": "78", "temp_unit": "f", "summer": "86"})[1]["Summer heat"] == "change_first"
    assert "86 °F" in shelf[0].text and "82.4 °F" in shelf[0].text


def test_nobody_buys_a_chiller_for_a_mushroom_that_bears_the_heat(shelf):  # noqa: F811
    assert ask(shelf, MUSHROOM, {"salinity": "32", "summer": "27"})[1]["Summer heat"] == "close"
    assert "chiller" not in shelf[0].text
    assert ask(shelf, FLOWERPOT, {"summer": "27.5"})[1]["Summer heat"] == "close"
    assert "chiller" in shelf[0].text


def test_what_is_asked_is_asked_on_the_way_round_too(shelf):  # noqa: F811
    visitor, _ = shelf
    visitor.open("/suits/answer?temp=78&temp_unit=c&salinity=35&salinity_unit=ppt")
    assert "Did you mean 78 °F" in visitor.text
    assert "You typed" not in re.sub(r"\s+", " ", tap(shelf, "temp"))
    assert visitor.path.startswith("/suits/answer") and visitor.status == 200
