"""The look: contrast, shapes, the strict content policy, and one style sheet and one script a page."""

import gettext
import re
from itertools import product

import pytest
from flask import Flask
from markupsafe import Markup

from webapp import beside
from webapp.fit.findings import ORDER
from webapp.views import assets, style

COLOUR = re.compile(r"--([\w-]+): (#[0-9a-f]{3,6});")
TEXT = ("ink", "soft", "link", "bad", "v-suits", "v-close", "v-unknown", "v-change", "v-nothere")
GROUNDS = ("page", "paper", "tint")


def style_app() -> Flask:
    """An app with nothing but the style page and what it needs."""
    made = Flask("webapp", template_folder=str(beside("templates")), static_folder=None)
    made.secret_key = "only in this test"
    made.config["STAFF_ON_PUBLIC_DOOR"] = True
    made.jinja_env.add_extension("jinja2.ext.i18n")
    made.jinja_env.install_gettext_translations(gettext.NullTranslations(), newstyle=True)
    made.jinja_env.filters["number"] = lambda value, decimals=1: f"{value:.{decimals}f}"
    made.jinja_env.globals.update(csrf_token=lambda: "token", shop_name="The Wet Corner", tr=str)
    made.register_blueprint(assets.bp)
    made.register_blueprint(style.bp)
    return made


@pytest.fixture
def app():
    return style_app()


@pytest.fixture
def page(app):
    return app.test_client().get("/style").text


def themes() -> dict[str, dict[str, str]]:
    """The tokens of the light theme and of the dark one, each with what it inherits."""
    text = (beside("static") / "css" / "tokens.css").read_text("utf-8")
    light, rest = text.split("@media (prefers-color-scheme: dark)", 1)
    dark = rest.split("@media", 1)[0]
    plain = dict(COLOUR.findall(light))
    return {"light": plain, "dark": plain | dict(COLOUR.findall(dark))}


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    r, g, b = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it, 1 to 21."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_formula_against_its_ends():
    # WCAG 2.2: contrast ratios range from 1 to 21. #767676 on white is the commonly cited lightest grey at 4.5 to 1.
    assert contrast("#000", "#fff") == pytest.approx(21)
    assert contrast("#fff", "#fff") == 1
    assert contrast("#777777", "#fff") < 4.5 <= contrast("#767676", "#fff")


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_text_has_seven_to_one_on_every_ground(theme):
    # WCAG 2.2, 1.4.6 Contrast (Enhanced)
    tokens = themes()[theme]
    poor = {
        (text, ground): round(contrast(tokens[text], tokens[ground]), 2)
        for text, ground in product(TEXT, GROUNDS)
        if contrast(tokens[text], tokens[ground]) < 7
    }
    assert not poor
    assert contrast(tokens["ink"], tokens["warn"]) >= 7
    assert all(
        contrast(tokens["v-on"], tokens[f"v-{v}"]) >= 7 for v in ("suits", "close", "unknown", "change", "nothere")
    )


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_outlines_of_controls_have_three_to_one(theme):
    # WCAG 2.2, 1.4.11 Non-text Contrast
    tokens = themes()[theme]
    assert all(contrast(tokens[line], tokens[ground]) >= 3 for line, ground in product(("edge", "focus"), GROUNDS))
    assert contrast(tokens["ink"], tokens["band"]) >= 3


def test_both_themes_are_the_tokens_and_nothing_else():
    """So what has its contrast in one theme has it in the other: a colour of its own is allowed only to what must not
    follow the theme, a symbol for scanners and outlines on a photo. Paper (sheet, print) has one theme."""
    own = [
        rule.split("{")[0].strip()
        for part in sorted({*assets.CSS_BUNDLES["staff"], *assets.CSS_BUNDLES["public"]} - {"tokens", "print"})
        for rule in (beside("static") / "css" / f"{part}.css").read_text("utf-8").splitlines()
        if re.search(r"#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(", rule.partition("{")[2])
    ]
    assert own and [one for one in own if not re.match(r"\.symbol svg|\.found-photo|\.tap-photo", one)] == []


def test_each_verdict_has_a_shape_and_a_word_of_its_own(app):
    with app.app_context():
        parts = app.jinja_env.get_template("_parts/verdict.html").module
        shapes = {re.sub(r"\s+", " ", str(parts.shape(code))) for code in ORDER}
        words = {str(parts.word(code)).strip() for code in ORDER}
    assert len(shapes) == len(words) == len(ORDER)


def test_nothing_on_the_page_breaks_the_strict_policy(page):
    # Content Security Policy Level 3: without 'unsafe-inline' these are not applied.
    assert not re.search(r"<[^>]+\sstyle=", page)
    assert not re.search(r"<[^>]+\son\w+=", page)
    assert "<style" not in page and not re.search(r"<script(?![^>]*\ssrc=)", page)


def test_one_style_sheet_and_one_script(page):
    assert page.count('rel="stylesheet"') == 1
    assert page.count("<script") == 1 and "<script defer" in page


def test_ids_are_unique_and_labels_find_their_fields(page):
    ids = re.findall(r'\sid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    named = set(re.findall(r'<label for="([^"]+)"', page)) | set(re.findall(r'href="#([^"]+)"', page))
    named |= {one for many in re.findall(r'aria-describedby="([^"]+)"', page) for one in many.split()}
    assert named <= set(ids)


def test_a_factor_line_says_in_words_what_it_draws(page):
    assert 'aria-label="Alkalinity: ideal 7.5 to 9.5 dKH, bears 6.5 to 12.0 dKH. Yours: 8.6 dKH."' in page


def test_what_is_typed_is_never_markup(app):
    with app.app_context():
        parts = app.jinja_env.get_template("_parts/forms.html").module
        drawn = parts.field("<b>", "f", '"><script>', "<i>", "<u>")
    assert isinstance(drawn, Markup) and "<script>" not in drawn
    assert all(f"&lt;{tag}&gt;" in drawn for tag in ("b", "i", "u"))


def test_a_field_in_error_is_tied_to_its_sentence(app):
    with app.app_context():
        parts = app.jinja_env.get_template("_parts/forms.html").module
        drawn = parts.measure("Alkalinity", "alk", "x", [("dkh", "dKH")], hint="As on the test", error="Not a number")
    assert 'aria-describedby="alk-hint alk-error"' in drawn and 'aria-invalid="true"' in drawn
    assert '<p class="error" id="alk-error">Not a number</p>' in drawn


def test_walk_ins_do_not_meet_it(app):
    app.config["STAFF_ON_PUBLIC_DOOR"] = False
    assert app.test_client().get("/style").status_code == 404
    assert app.test_client().get("/style", environ_overrides={"rackside.door": "staff"}).status_code == 200


def test_every_shared_part_stands_on_the_page(page):
    """The design page is the documentation of the look, so a part that is new must be shown there."""
    shown = {word for names in re.findall(r'class="([^"]*)"', page) for word in names.split()}
    parts = (beside("templates") / "_parts").glob("*.html")
    used = {
        word: part.name
        for part in parts
        for names in re.findall(r'class="([^"]*)"', part.read_text("utf-8"))
        for word in re.sub(r"\{[{%].*?[%}]\}\S*", " ", names).split()
        if re.fullmatch(r"[a-z][\w-]*[a-z]", word)
    }
    assert len(used) > 50
    assert {word: part for word, part in used.items() if word not in shown} == {}


def test_every_token_of_colour_stands_on_the_page(page):
    names = {name.removeprefix("v-") for name in themes()["light"]} - {"on"}
    told = {"unknown": "not_known", "change": "change_first", "nothere": "not_here"}
    assert {told.get(name, name) for name in names} <= set(re.findall(r'class="sw-(\w+)"', page))
