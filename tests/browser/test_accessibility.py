"""The check of every page for accessibility is itself seen to bite."""

import pytest

from tests.browser.accessibility import RULES, broken_rules
from tests.browser.keyboard import missed_by_tab, poor_stops

PAGE = "<!doctype html><html lang=en><title>A page</title><main><h1>A page</h1>{}</main></html>"


@pytest.fixture
def phone(looking):
    return looking["phone"]


@pytest.mark.parametrize(
    ("part", "rule"),
    [
        ("<img src='data:,'>", "image-alt"),  # WCAG 2.2, 1.1.1
        ("<input>", "label"),  # 1.3.1, 4.1.2
        ("<p style='color: #aaa; background: #fff'>Pale</p>", "color-contrast"),  # 1.4.3
        ("<button style='width: 9px; height: 9px; padding: 0'>+</button> " * 2, "target-size"),  # 2.5.8
        ("<h4>Too deep</h4>", "heading-order"),  # good practice
    ],
)
def test_what_breaks_a_rule_is_named(phone, part, rule):
    phone.set_content(PAGE.format(part))
    assert [line.split(":")[0] for line in broken_rules(phone)].count(rule) >= 1


def test_a_page_that_is_well_breaks_none(phone):
    phone.set_content(PAGE.format("<p>Well.</p>"))
    assert broken_rules(phone) == []


def test_the_strictest_contrast_is_asked_for_where_it_is_promised(phone):
    """4.6:1, which passes 1.4.3 (4.5:1) and breaks 1.4.6 (7:1)."""
    phone.set_content(PAGE.format("<p style='color: #757575; background: #fff'>Grey</p>"))
    assert broken_rules(phone) == []
    assert "color-contrast-enhanced" in broken_rules(phone, (*RULES, "wcag2aaa"))[0]


@pytest.mark.parametrize(
    ("part", "said"),
    [
        ("<style>a:focus { outline: none }</style><a href='#'>Unseen</a>", "focus is not seen"),  # 2.4.7
        ("<a href='#' tabindex=2>First</a>", "out of order"),  # 2.4.3
        (
            "<a href='#'>Under</a><b style='position: fixed; inset: 0; background: #fff'>A bar</b>",
            "lies under a bar",
        ),  # 2.4.11
    ],
)
def test_what_the_keyboard_cannot_use_is_named(phone, part, said):
    phone.set_content(PAGE.format(part))
    assert [line.split(":")[0] for line in poor_stops(phone)] == [said]


def test_a_stop_that_tab_does_not_reach_is_named(phone):
    """2.1.1 and 2.1.2: a script that keeps the focus, and a control that is led past."""
    one = "<button>One</button><button>Two</button><button>Three</button>"
    phone.set_content(PAGE.format(one))
    assert missed_by_tab(phone) == [] == poor_stops(phone)
    phone.set_content(PAGE.format(one))
    phone.evaluate("document.querySelector('button').addEventListener('keydown', (event) => event.preventDefault())")
    assert [line[:25] for line in missed_by_tab(phone)] == ["not reached: <button>Two<", "not reached: <button>Thre"]
