"""Card, form, verdict and sheet in both languages, light and dark: axe finds nothing, the keyboard alone is enough."""

import pytest

from tests.browser.conftest import PHONE, Shop
from tests.browser.keyboard import missed_by_tab
from tests.browser.offline import until_true
from tests.browser.sheets import one_of_each_kind
from tests.browser.test_pages import TANK, look
from webapp.words.language import LANGUAGES

PATHS = (
    "/{code}", "/{code}/fit", "/{code}/fit?all=1", "/{code}/answer?read=yes&" + TANK, "/{code}/sheet?" + TANK,
    "/sheets?code={code}&code={other}",
)  # fmt: skip


@pytest.fixture(scope="module")
def codes(seen_shop: Shop) -> dict[str, str]:
    found = list(one_of_each_kind(seen_shop.stage, ("sarcophyton", "acropora")).values())
    return {"code": found[0], "other": found[1]}


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_page_of_the_way_is_whole(seen_shop, browser, codes, language, theme):
    context = browser.new_context(**PHONE, locale=language, color_scheme=theme)
    page = context.new_page()
    for path in PATHS:
        look(page, seen_shop.url + path.format(**codes))
        assert page.get_attribute("html", "lang") == language
    context.close()


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_keyboard_alone_leads_from_the_card_to_the_sheet(seen_shop, browser, codes, language):
    """WCAG 2.2, 2.1.1 and 2.4.7: each step is reached by the tab key, focus is seen, and enter does it."""
    context = browser.new_context(
        viewport={"width": 1024, "height": 800}, locale=language, color_scheme="light" if language == "en" else "dark"
    )
    page = context.new_page()
    page.goto(f"{seen_shop.url}/{codes['code']}")
    reach(page, "a[data-fit-link]")
    page.keyboard.press("Enter")
    page.wait_for_url("**/fit*")
    assert missed_by_tab(page) == []
    page.reload()
    reach(page, "#temp")
    page.keyboard.type("25")
    reach(page, "main form button.wide:not([data-memory-fill])")
    page.keyboard.press("Enter")
    page.wait_for_url("**/answer?**")
    assert missed_by_tab(page) == []
    page.reload()
    reach(page, "main a[href*='/sheet?']")
    page.keyboard.press("Enter")
    page.wait_for_url("**/sheet?**")
    reach(page, "#paper")
    page.keyboard.press("Home")
    reach(page, "[data-print]")
    context.close()


def reach(page, selector: str, most: int = 160) -> None:
    """Press tab until the element has the focus, and see that it shows."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if page.evaluate("selector => document.activeElement.matches(selector)", selector):
            outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
            assert outline != "none"
            return
    raise AssertionError(f"{selector} is not reached by the keyboard on {page.url}")


def test_the_words_of_a_sheet_are_copied_where_the_phone_cannot_share(seen_shop, phone, codes):
    phone.goto(f"{seen_shop.url}/{codes['code']}/sheet?{TANK}")
    phone.evaluate("Object.defineProperty(navigator, 'share', {value: undefined})")
    phone.click("[data-share]")
    phone.wait_for_selector("[data-share-said]:has-text('Copied')")


def test_where_the_phone_can_share_it_is_handed_the_words(seen_shop, phone, codes):
    phone.goto(f"{seen_shop.url}/{codes['code']}/sheet?{TANK}")
    phone.evaluate("navigator.share = (given) => { window.handed = given; return Promise.resolve(); }")
    phone.click("[data-share]")
    until_true(phone, "Boolean(window.handed?.text)")
    assert codes["code"] in phone.evaluate("window.handed.text")
