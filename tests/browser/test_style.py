"""The style page in a real browser: accessibility, sizes of targets, reflow, behaviours, style sheets as parsed."""

import threading
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page
from werkzeug.serving import make_server

from tests.browser.accessibility import RULES, broken_rules
from tests.browser.conftest import follow
from tests.views.test_style import style_app
from webapp import beside
from webapp.views.assets import CSS_BUNDLES, joined_css

PHONE = {"width": 360, "height": 740}


@pytest.fixture(scope="module")
def address() -> Iterator[str]:
    server = make_server("127.0.0.1", 0, style_app(), threaded=True)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.port}/style"
    server.shutdown()
    server.server_close()


@pytest.fixture(scope="module")
def window(browser) -> Iterator[Page]:
    context = browser.new_context(viewport=PHONE)
    yield context.new_page()
    context.close()


@pytest.fixture
def page(window, address) -> Iterator[Page]:
    """The page as it is opened for the first time, on a phone in light colours."""
    window.set_viewport_size(PHONE)
    window.emulate_media(color_scheme="light", forced_colors="none")
    window.goto(address)
    yield window
    window.evaluate("localStorage.clear()")


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_no_accessibility_rule_is_broken(page, theme):
    page.emulate_media(color_scheme=theme)
    assert broken_rules(page, (*RULES, "wcag2aaa")) == []


#: What each drawing is read by: the part, and whether it is drawn with a line or filled.
MARKS = (
    (".line-drawing .limits", "stroke"), (".line-drawing .whisker", "stroke"), (".line-drawing .mark", "fill"),
    (".sparkline polyline", "stroke"), (".tank-view .glass", "stroke"), (".tank-view .edge", "stroke"),
    (".tank-view text", "fill"), (".verdict svg", "fill"),
)  # fmt: skip


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_forced_colours_take_no_mark_no_state_and_no_word_away(page, theme):
    """CSS Color Adjustment Module Level 1, 3: authors' colours give way to the reader's palette, but not inside
    drawings, and words get a plate in the palette's own ground. So drawings must name the palette themselves, states of
    slots must differ by their line, and what keeps its own ground must keep its own words."""
    page.emulate_media(color_scheme=theme, forced_colors="active")
    style = "([part, kind]) => getComputedStyle(document.querySelector(part))[kind]"
    ink, ground = (page.evaluate(style, ["body", kind]) for kind in ("color", "backgroundColor"))
    drawn = {part: page.evaluate(style, [part, kind]) for part, kind in MARKS}
    slots = [
        tuple(page.evaluate(style, [f".slot.{state}", kind]) for kind in ("borderTopStyle", "borderTopWidth"))
        for state in ("s-for_sale", "s-healing", "s-mother", "twice", "free")
    ]
    button = [
        page.evaluate(style, [".button:not(.quiet)", kind])
        for kind in ("color", "backgroundColor", "forcedColorAdjust")
    ]
    assert {ink, ground} == {"rgb(0, 0, 0)", "rgb(255, 255, 255)"}
    assert set(drawn.values()) == {ink}, drawn
    assert len(set(slots)) == len(slots)
    assert button == [ground, ink, "none"]


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_nothing_runs_off_the_side(page, address, width):
    # WCAG 2.2, 1.4.10 Reflow: 320 CSS pixels
    page.set_viewport_size({"width": width, "height": 740})
    page.goto(address)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_text_twice_as_large_still_fits(page):
    # WCAG 2.2, 1.4.4 Resize Text: 200 %
    page.evaluate("document.documentElement.style.fontSize = '36px'")
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


def test_targets_are_large_enough(page):
    # WCAG 2.2, 2.5.8 Target Size (Minimum): 24 CSS pixels
    sizes = page.evaluate(
        """[...document.querySelectorAll("a, button, input:not([type=hidden]), select, textarea, summary")]
        .filter((e) => e.checkVisibility() && !e.matches(".skip"))
        .map((e) => [e.outerHTML.slice(0, 90), e.getBoundingClientRect()])
        .map(([html, box]) => [html, Math.round(box.width), Math.round(box.height)])"""
    )
    assert len(sizes) > 40
    assert [one for one in sizes if min(one[1:]) < 24] == []


def test_primary_controls_fit_a_wet_thumb(page):
    heights = page.evaluate(
        """[...document.querySelectorAll(".button:not(.small), .chip")].filter((e) => e.checkVisibility())
        .map((e) => Math.round(e.getBoundingClientRect().height))"""
    )
    assert heights and min(heights) >= 64
    gap = page.evaluate("parseFloat(getComputedStyle(document.querySelector('.chips')).columnGap)")
    assert gap >= 12


@pytest.mark.parametrize("bundle", sorted(CSS_BUNDLES))
def test_the_browser_reads_the_same_rules_before_and_after_stripping(page, bundle):
    folder = beside("static")
    plain = "".join((folder / "css" / f"{name}.css").read_text("utf-8") for name in CSS_BUNDLES[bundle])
    parse = """(text) => { const sheet = new CSSStyleSheet(); sheet.replaceSync(text);
        return [...sheet.cssRules].map((rule) => rule.cssText)
        .map((text) => text.replaceAll(/(?<![\\d])0\\./g, ".").replaceAll(", ", ",")) }"""
    assert page.evaluate(parse, joined_css(CSS_BUNDLES[bundle], folder)) == page.evaluate(parse, plain)


def test_the_tank_is_remembered_on_the_phone_and_forgotten_on_request(page, address):
    page.fill("#alk", "7.9")
    page.select_option("#alk_unit", "ppm")
    page.check("[name=light][value=meter]", force=True)
    page.uncheck("[name=fish][value=tang]", force=True)
    follow(page, "text=Will it suit my tank?")
    assert page.evaluate("JSON.parse(localStorage['rackside.tank'])") == {
        "alk": ["7.9"], "alk_unit": ["ppm"], "light": ["meter"], "fish": ["shrimp"],
    }  # fmt: skip
    page.goto(address)
    page.click("[data-memory-fill]")
    assert page.input_value("#alk") == "7.9" and page.input_value("#alk_unit") == "ppm"
    assert page.is_checked("[name=light][value=meter]") and not page.is_checked("[name=fish][value=tang]")
    page.goto(address)
    page.click("[data-memory-clear]")
    assert page.evaluate("localStorage['rackside.tank']") is None


def test_a_form_is_sent_once(page):
    sent = page.evaluate(
        """() => { const form = document.querySelector("form.undo"); let sent = 0;
        document.addEventListener("submit", (e) => { if (!e.defaultPrevented) sent += 1; e.preventDefault() });
        const button = form.querySelector("button"); button.click(); button.click(); button.click(); return sent }"""
    )
    assert sent == 1


def test_a_count_stays_between_its_ends(page):
    minus, plus = page.locator("[data-step='-1']"), page.locator("[data-step='1']")
    for _ in range(7):
        minus.click(force=True)
    assert page.input_value("#pieces") == "1" and minus.get_attribute("aria-disabled") == "true"
    plus.click()
    assert page.input_value("#pieces") == "2" and minus.get_attribute("aria-disabled") == "false"


def test_errors_take_the_focus_and_lead_to_their_fields(page):
    assert page.evaluate("document.activeElement.id") == "errors"
    page.click("#errors a >> nth=0")
    assert page.evaluate("document.activeElement.id") == "error_alk"


def test_folded_parts_are_printed_and_folded_again(page):
    folded = "document.querySelectorAll('details:not([open])').length"
    before = page.evaluate(folded)
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    assert before > 0 and page.evaluate(folded) == 0
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert page.evaluate(folded) == before


def test_everything_can_be_read_and_sent_without_scripts(browser, address):
    context = browser.new_context(viewport=PHONE, java_script_enabled=False)
    page = context.new_page()
    page.goto(address)
    assert page.locator("[data-step]").first.is_hidden() and page.locator("[data-memory-offer]").is_hidden()
    follow(page, "text=Will it suit my tank?")
    assert "alk=&alk_unit=dkh&temp=&light=words&fish=tang&fish=shrimp" in page.url
    context.close()
