"""Care sheets on paper, printed by chromium: one page a side, nothing under 9 pt or lost, in longer and mirrored text.

The kinds printed here are those with the most text, found by measuring; `python -m tests.browser.sheets` prints all 81.
"""

import pytest

from tests.browser import pseudo, sheets
from tests.browser.pseudo import speaking_pseudo
from tests.browser.sheets import FULL_TANK, ORDINARY_TANK, one_of_each_kind, printed
from webapp.views import sheet_made
from webapp.views.sheet_layout import PAPERS, sides
from webapp.words.language import LANGUAGES
from webapp.words.take_home import TITLES

#: Those that fill an A5 side most when longer (`python -m tests.browser.sheets xa`), and the one with the least.
LONG = ("acropora", "catalaphyllia")
SHORT = "gorgonian_nonphotosynthetic"


@pytest.fixture(scope="module")
def codes(seen_shop):
    return one_of_each_kind(seen_shop.stage, (*LONG, SHORT))


@pytest.mark.parametrize("language", [*LANGUAGES, "xa", "xb"])
def test_every_side_is_one_page_and_nothing_is_too_small_or_lost(seen_shop, desk, codes, language, monkeypatch):
    """xa: every sheet 40 % longer; xb: in letters written from right to left."""
    speaking_pseudo(monkeypatch)
    for paper in sheets.PAPERS:
        for code in codes.values():
            found = printed(desk, f"{seen_shop.url}/{code}/sheet?lang={language}&paper={paper}&from=14:00&{FULL_TANK}")
            assert found.pages == found.sides, (paper, code)
            assert found.smallest_pt >= 8.99
            assert found.lost == 0


def test_the_fullest_sheet_is_one_page_and_grown_longer_too(seen_shop, desk, codes, monkeypatch):
    speaking_pseudo(monkeypatch)
    for paper, language, tank in (
        ("a4", "de", FULL_TANK), ("letter", "xa", FULL_TANK), ("a5", "en", FULL_TANK), ("a5", "de", FULL_TANK),
        ("a5", "xb", FULL_TANK), ("a5", "xa", ORDINARY_TANK), ("a5", "xa", FULL_TANK),
    ):  # fmt: skip
        for code in codes.values():
            found = printed(desk, f"{seen_shop.url}/{code}/sheet?lang={language}&paper={paper}&from=14:00&{tank}")
            assert (found.pages, found.sides) == (1, 1), (paper, language, code)


def test_what_moves_to_another_side_is_named_and_nothing_is_dropped(seen_shop, desk, codes, monkeypatch):
    """In a language twice as long as English, as nothing shorter fills an A5 side."""
    monkeypatch.setattr(pseudo, "GROWTH", 1.0)
    speaking_pseudo(monkeypatch)
    address = f"{seen_shop.url}/{codes[LONG[0]]}/sheet?lang=xa&from=14:00&{FULL_TANK}"
    desk.goto(f"{address}&paper=a4")
    all_titles = set(desk.locator(".take-home h3").all_inner_texts())
    desk.goto(f"{address}&paper=a5")
    titles = desk.locator(".take-home h3").all_inner_texts()
    first = desk.locator(".side").first.locator("h3").all_inner_texts()
    moved = desk.locator(".moved").inner_text()
    assert len(titles) == len(set(titles))
    assert set(titles) == all_titles
    assert len(titles) == len(TITLES)
    assert [title for title in titles if title not in first] != []
    assert all(title in moved for title in titles if title not in first)
    staying = desk.locator(".side").first.locator(".s-caution, .s-hours, .s-changes")
    assert staying.count() == 3, "what is dangerous and comes first stays"


def test_a_mirrored_sheet_runs_from_right_to_left(seen_shop, desk, codes, monkeypatch):
    speaking_pseudo(monkeypatch)
    desk.goto(f"{seen_shop.url}/{codes[SHORT]}/sheet?lang=xb&{FULL_TANK}")
    assert desk.evaluate("getComputedStyle(document.querySelector('.take-home')).direction") == "rtl"
    table = desk.locator(".take-home thead th")
    assert table.nth(0).bounding_box()["x"] > table.nth(1).bounding_box()["x"]


def test_a_roll_is_one_length_as_long_as_its_text_without_scripts(seen_shop, browser, codes):
    """The page of a roll is 80 mm wide and ends where its text does: within 30 mm."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    found = printed(page, f"{seen_shop.url}/{codes[SHORT]}/sheet?paper=roll&from=14:00&{FULL_TANK}")
    assert found.pages == 1
    width, height = found.page_mm
    assert width == pytest.approx(80, abs=0.5)
    page.emulate_media(media="print")
    text_mm = page.locator(".p-roll").bounding_box()["height"] * 25.4 / 96
    assert text_mm < height < text_mm + 30
    context.close()


def test_heights_are_worked_out_as_the_browser_sets_them(seen_shop, desk, codes, monkeypatch):
    """Never lower than chromium sets it in a font of Arial's widths, and the first side at most 6 % higher."""
    speaking_pseudo(monkeypatch)
    worked_out = []
    monkeypatch.setattr(sheet_made, "sides", lambda *given: worked_out.extend(found := sides(*given)) or found)
    for paper, language in (("a4", "de"), ("letter", "xa"), ("a5", "en")):
        for code in codes.values():
            worked_out.clear()
            desk.goto(f"{seen_shop.url}/{code}/sheet?lang={language}&paper={paper}&from=14:00&{FULL_TANK}")
            desk.emulate_media(media="print")
            desk.locator(".take-home").evaluate("(sheet, mm) => sheet.style.width = mm + 'mm'", PAPERS[paper].width)
            high = [one.bounding_box()["height"] for one in desk.locator(".side").all()]
            desk.emulate_media(media="screen")
            set_mm = [css_px * 25.4 / 96 for css_px in high]
            assert all(mm <= side.high for mm, side in zip(set_mm, worked_out, strict=True)), (paper, language, code)
            assert worked_out[0].high <= 1.06 * set_mm[0], "what fills a side is measured, not guessed"


def test_several_animals_are_on_as_many_pages_as_meant(seen_shop, desk, codes):
    several = "&".join(f"code={code}" for code in codes.values())
    for paper in sheets.PAPERS:
        found = printed(desk, f"{seen_shop.url}/sheets?{several}&paper={paper}&from=14:00&{FULL_TANK}")
        assert found.pages == found.sides, paper
        assert found.smallest_pt >= 8.99
        assert found.lost == 0
