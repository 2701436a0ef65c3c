"""Tags on a phone of 360 by 740: labels in few taps, counting and measuring by photo, with scripts and without."""

import io
import os
import re
from pathlib import Path
from random import Random

import pytest
from PIL import Image
from playwright.sync_api import Page

from tests.browser.accessibility import broken_rules
from tests.browser.conftest import Shop, sign_in
from tests.browser.offline import until_true
from tests.browser.test_pages import look
from tests.tags.synthetic_ruler import make_view
from webapp.services import binding, fragging, places
from webapp.services.recording import NewEvent, new_deed, record
from webapp.services.tagging import live_code
from webapp.storage.specimen import RulerPhoto, SpecimenRow
from webapp.tags.labels import to_png
from webapp.tags.page import Label
from webapp.tags.pieces import PLUG_SQUARE_20

MOST_TAPS = 10
SHOTS = os.environ.get("RACKSIDE_TEST_SHOTS", "")


class Hand:
    """Counts the taps of a person who fills a form: one to reach a field or press a button; typing is no tap."""

    def __init__(self, page: Page):
        self.page, self.taps = page, 0

    def tap(self, selector: str) -> None:
        """Press something."""
        self.page.locator(selector).first.tap()
        self.taps += 1

    def type(self, selector: str, text: str) -> None:
        """Reach a field and type."""
        self.tap(selector)
        self.page.locator(selector).first.fill(text)


def shot(page: Page, name: str) -> None:
    """A picture of the page for whoever wants to look."""
    if SHOTS:
        page.screenshot(path=str(Path(SHOTS) / f"{name}.png"), full_page=True)


@pytest.fixture
def codes(shop: Shop) -> list[str]:
    """Codes of the mother and of seven frags on rack N1."""
    return frag_seven(shop)


@pytest.fixture(scope="module")
def seen_codes(seen_shop: Shop) -> list[str]:
    """The same in the shop that is only looked at."""
    return frag_seven(seen_shop)


def frag_seven(shop: Shop) -> list[str]:
    """Cut seven frags of the mother onto rack N1; the codes of all eight."""
    stage = shop.stage
    with stage.database.saving() as session:
        said = fragging.FragSession(stage.mother, "scalpel", 7, stage.rack, price_cents=1250)
        ids = fragging.frag(session, stage.owner, new_deed(), said)
        return [live_code(session, one) for one in (stage.mother, *ids)]


def rack_photo(path: Path, codes: list[str], hosts=("SHOP.LOCAL",)) -> Path:
    """A flat photo of tags."""
    picture = Image.new("RGB", (1700, 900), (64, 70, 66))
    for number, code in enumerate(codes):
        host = hosts[number % len(hosts)]
        tag = Image.open(io.BytesIO(to_png(Label(code, f"http://{host}/{code}"), PLUG_SQUARE_20, 300))).convert("RGB")
        turned = tag.rotate(7 * (number % 5) - 14, fillcolor=(230, 230, 230))
        picture.paste(turned, (60 + number % 6 * 270, 60 + number // 6 * 280))
    picture.save(path, "JPEG", quality=88)
    return path


def ruler_photo(shop: Shop, path: Path):
    """A photo of the mother's tag, and the view it was taken from."""
    view = make_view(Random(21), 18, 14, size=(2400, 1800))
    code = view.symbol.text[-7:]
    with shop.stage.database.saving() as session:
        record(session, shop.stage.owner, [NewEvent("tag_made", code)])
        binding.bind(session, shop.stage.owner, new_deed(), code, "specimen", shop.stage.mother)
        printed = {"host": "SHOP.LOCAL", "side_mm": view.side_mm}
        record(session, shop.stage.owner, [NewEvent("printed", code, printed)])
    Image.fromarray(view.luma).convert("RGB").save(path, "JPEG", quality=90)
    return view


def test_forty_plugs_are_labelled_in_under_ten_taps(shop, phone):
    """From the mother's page: the frag session, forty plugs, the PDF."""
    with shop.stage.database.saving() as session:
        given = {"tank_id": shop.stage.tank, "name": "N2", "rows": 5, "columns": 10}
        places.add_rack(session, shop.stage.owner, new_deed(), given)
    sign_in(phone, shop)
    phone.goto(f"{shop.url}/s/{shop.stage.mother}")
    hand = Hand(phone)
    hand.tap("a:has-text('Frag it')")
    hand.tap("#method")
    phone.locator("#method").select_option("scalpel")
    hand.taps += 1  # the line of the list
    hand.type("#pieces", "40")
    hand.tap("#rack")
    lines = phone.locator("#rack option").all_inner_texts()
    phone.locator("#rack").select_option(label=next(line for line in lines if "N2" in line))
    hand.taps += 1  # the line of the list
    hand.tap("main form button:has-text('Record')")
    phone.wait_for_url("**/labels*")
    assert "Print 40 labels" in phone.locator("h1").inner_text()
    shot(phone, "labels-40")
    with phone.expect_download() as coming:
        hand.tap("button:has-text('Make the PDF')")
    data = Path(coming.value.path()).read_bytes()
    assert data.startswith(b"%PDF")
    assert hand.taps < MOST_TAPS
    print(f"taps from the frag session to the PDF: {hand.taps}")


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_rack_is_counted_by_photo(shop, codes, tmp_path, scripts, request):
    page = request.getfixturevalue("phone" if scripts else "phone_without_scripts")
    sign_in(page, shop)
    page.goto(f"{shop.url}/racks/{shop.stage.rack}")
    page.locator("a:has-text('Count by photo')").tap()
    page.set_input_files("#photo", rack_photo(tmp_path / "a.jpg", codes[:5]))
    page.locator("button:has-text('Read every tag')").tap()
    page.wait_for_selector("text=5 of 8 seen")
    page.set_input_files("#photo", rack_photo(tmp_path / "b.jpg", codes[4:7]))
    page.locator("button:has-text('Add it')").tap()
    page.wait_for_selector("text=7 of 8 seen")
    if scripts:
        shot(page, "count")
    page.locator("button:has-text('Keep this count')").tap()
    page.wait_for_selector("text=7 seen, 1 not seen, 0 moved here")


def test_a_walk_in_scans_by_photo_and_sees_numbers_on_several(seen_shop, seen_codes, tmp_path, phone):
    codes = seen_codes
    phone.goto(seen_shop.url)
    phone.locator("a:has-text('Scan by photo')").tap()
    phone.set_input_files("#photo", rack_photo(tmp_path / "a.jpg", codes[:4], ("SHOP.LOCAL", "OTHER.LOCAL")))
    phone.locator("button:has-text('Read the tag')").tap()
    phone.wait_for_selector("text=2 tags in this photo")
    shot(phone, "scan-two")
    look_here(phone)
    phone.locator(f"a[href='/{codes[0]}']").tap()
    phone.wait_for_selector("text=Ember Ring")


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_an_animal_is_measured_with_its_tag(shop, tmp_path, scripts, request):
    page = request.getfixturevalue("phone" if scripts else "phone_without_scripts")
    view = ruler_photo(shop, tmp_path / "m.jpg")
    sign_in(page, shop)
    page.goto(f"{shop.url}/s/{shop.stage.mother}/ruler")
    page.set_input_files("#photo", tmp_path / "m.jpg")
    page.locator("button:has-text('Find the tag')").tap()
    page.wait_for_url(re.compile("/ruler/[0-9a-f]{32}$"))
    homography, width = kept_ruler(shop, page.url[-32:])
    for number, (x, y) in enumerate(((-15, 8), (15, 8)), 1):
        u, v, w = (sum(row[i] * one for i, one in enumerate((x, y, 1))) for row in homography)
        scale = 320 / width
        page.locator("input[type=image]").tap(position={"x": u / w * scale, "y": v / w * scale})
        until_true(page, f"document.querySelectorAll('.tap-photo circle').length === {number}")
    if not scripts:
        page.locator("button:has-text('Work it out')").tap()
    page.wait_for_selector("text=give or take")  # by itself where scripts run
    if scripts:
        keys_set_a_point_and_it_is_taken_back(page)
        page.locator("label:has-text('Area')").tap()
        page.wait_for_selector("button:has-text('Keep')", state="detached")  # what it said does not stand any more
        page.locator("label:has-text('Length')").tap()
        page.wait_for_selector("text=give or take")
    shot(page, f"ruler-{scripts}")
    if scripts:  # axe is a script itself
        look_here(page)
    length = float(re.search(r"([\d.]+) mm", page.locator("[role=status] b").first.inner_text())[1])
    assert abs(length - 30) < 2
    page.locator("button:has-text('Keep')").tap()
    page.wait_for_selector("text=kept with its photo")
    with shop.stage.database.reading() as session:
        assert session.get(SpecimenRow, shop.stage.mother).size_mm == pytest.approx(length, abs=0.2)
    assert view.side_mm == 12.5


def keys_set_a_point_and_it_is_taken_back(page: Page) -> None:
    """WCAG 2.2, 2.1.1: by keyboard too. From the middle of the picture, two steps to the right and one down."""
    image = page.locator("input[type=image]")
    middle = image.evaluate("(e) => [e.width / 2, e.height / 2]")
    for key in ("ArrowRight", "ArrowRight", "ArrowDown", "Enter"):
        image.press(key)
    until_true(page, "document.querySelectorAll('.tap-photo circle').length === 3")
    point = page.locator(".tap-photo circle").last.evaluate("(e) => [e.cx.baseVal.value, e.cy.baseVal.value]")
    assert point == pytest.approx([middle[0] + 16, middle[1] + 8], abs=0.2)
    page.locator("button:has-text('One tap back')").tap()
    until_true(page, "document.querySelectorAll('.tap-photo circle').length === 2")
    page.wait_for_selector("text=give or take")


def kept_ruler(shop: Shop, ruler_id: str):
    """The homography that the shop keeps, and the width of its picture."""
    with shop.stage.database.reading() as session:
        row = session.get(RulerPhoto, ruler_id)
        return row.ruler["homography"], row.width


def look_here(page: Page) -> None:
    """Hold the page that is open to the promises of every page."""
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"]
    assert broken_rules(page) == []


def test_a_batch_shows_progress_and_ends_in_a_file(shop, phone):
    sign_in(phone, shop)
    phone.goto(f"{shop.url}/tags")
    phone.fill("#count", "120")
    phone.locator("button:has-text('Make blank tags')").tap()
    phone.wait_for_selector("text=Print 120 labels")
    phone.locator("button:has-text('Make the PDF')").tap()
    phone.wait_for_url("**/labels/jobs/*")
    shot(phone, "job")
    phone.wait_for_selector("text=The labels are ready", timeout=60_000)
    look_here(phone)
    with phone.expect_download() as coming:
        phone.locator("button:has-text('Get the PDF')").tap()
    assert Path(coming.value.path()).read_bytes().startswith(b"%PDF")


def test_the_picture_of_a_sheet_follows_what_is_typed(seen_shop, desk):
    sign_in(desk, seen_shop)
    desk.goto(f"{seen_shop.url}/labels/sheets/edit?copy=a4-5x13")
    desk.fill("#columns", "3")
    desk.wait_for_selector("[data-picture] svg[aria-label^='3 columns']")
    desk.fill("#left_mm", "300")
    desk.wait_for_selector("[data-picture] >> text=of a page of 210 mm")
    shot(desk, "sheet-form")


PAGES = (
    "/scan", "/tags", "/tags/help", "/labels/old", "/labels/sheets", "/labels/sheets/edit?copy=a4-disc-25", "/count",
    "/stocktake", "/stocktake/" + "c" * 32, "/tag/{blank}", "/tag/{code}", "/tag/{code}?rebind=1", "/tag/{blank}/new",
    "/s/{mother}/ruler", "/count/found?place=rack:{rack}&codes={code}", "/tank/{tank_code}", "/labels?id={bare}",
    "/labels?code={blank}", "/labels?id={mother}&sheet=a4-placard",
)  # fmt: skip


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_pages_about_tags_are_whole(seen_shop, seen_codes, size, request):
    page, stage = request.getfixturevalue(size), seen_shop.stage
    sign_in(page, seen_shop)
    with stage.database.saving() as session:
        (blank,) = binding.make_blanks(session, stage.owner, new_deed(), 1)
        tank_code = binding.find_target(session, "tank", stage.tank).code
        said = fragging.FragSession(stage.mother, "scalpel", 1, stage.rack)
        (bare,) = fragging.frag(session, stage.owner, new_deed(), said)
        binding.free(session, stage.owner, new_deed(), live_code(session, bare))
    names = {"blank": blank, "code": seen_codes[0], "mother": stage.mother, "rack": stage.rack, "bare": bare}
    for path in PAGES:
        address = path.format(**names, tank_code=tank_code)
        look(page, seen_shop.url + address)
        if size == "phone":
            shot(page, "page-" + re.sub(r"\W+", "-", path).strip("-"))
