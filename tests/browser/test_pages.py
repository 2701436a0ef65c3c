"""Every page at the size of a phone and of a desk: nothing runs off the side, axe finds nothing, no script error; on a
phone the keyboard reaches all of it, and text of twice the size fits."""

import re

import pytest

from tests.browser.accessibility import broken_rules
from tests.browser.conftest import PHONE, Shop, follow, sign_in
from tests.browser.keyboard import poor_stops
from webapp.services import fragging
from webapp.services.recording import NewEvent, new_deed, record
from webapp.services.tagging import live_code

TANK = (
    "temp=25&temp_unit=c&salinity=1.0264&salinity_unit=sg_25&alk=150&alk_unit=dkh&no3=5&po4=0.05&ca=300&mg=1300&volume=200"
    "&length=80&width=50&height=45&age=12&light_way=words&light_word=modest&flow_way=words&flow_word=gentle_sway"
    "&feeds=2&mate=butterflyfish&near1=acropora&near1_gap=4&space=20"
)
PUBLIC = (
    "/", "/hello", "/for-sale", "/find?code=nothing", "/suits", "/suits/answer?" + TANK, "/{frag}", "/{frag}/fit",
    "/{frag}/answer?" + TANK, "/{frag}/answer?temp=abc", "/{frag}/sheet?" + TANK, "/tank/{tank}", "/rack/{rack}",
    "/sign-in",
)  # fmt: skip
STAFF = (
    "/stock", "/stock/paper", "/stock/new", "/tanks", "/tanks/new", "/tanks/{tank_id}", "/tanks/{tank_id}/readings",
    "/tanks/{tank_id}/change",
    "/tanks/{tank_id}/racks/new", "/racks/{rack_id}", "/s/{mother}", "/s/{mother}/frag", "/labels?id={mother}",
    "/poster",
    "/settings", "/people",
)  # fmt: skip


@pytest.fixture(scope="module")
def names(seen_shop: Shop) -> dict[str, str]:
    """What stands for the names in braces; three frags, one for sale, one of a long name."""
    stage = seen_shop.stage
    with stage.database.saving() as session:
        said = fragging.FragSession(stage.mother, "scalpel", 3, stage.rack, price_cents=1250)
        ids = fragging.frag(session, stage.owner, new_deed(), said)
        record(session, stage.owner, [NewEvent("status_set", one, {"status": "for_sale"}) for one in ids[:2]])
        long_name = "Extraordinarily-Long-Strain-Name/with/slashes/and/no/spaces-at-all"
        record(session, stage.owner, [NewEvent("named", ids[1], {"name": long_name})])
        found = {
            "frag": live_code(session, ids[0]), "tank": live_code(session, stage.tank), "rack": live_code(session,
            stage.rack),
        }  # fmt: skip
    return found | {"tank_id": stage.tank, "rack_id": stage.rack, "mother": stage.mother}


#: axe passes over these where they break no name: a label may still lead to another field than its own.
REPEATED_IDS = "[...document.querySelectorAll('[id]')].map((e) => e.id).filter((id, at, ids) => ids.indexOf(id) < at)"

#: WCAG 2.2, 1.4.4: text of 200 % of what a browser starts with, here with all that folds unfolded.
TWICE_AS_LARGE = """() => {
  for (const fold of document.querySelectorAll("details")) fold.open = true;
  document.documentElement.style.fontSize = "36px";
  const wide = document.documentElement.scrollWidth;
  document.documentElement.style.fontSize = "";
  return wide;
}"""


def look(page, address: str) -> None:
    """Open a page and hold it to the promises."""
    trouble = []

    def hear(said) -> None:
        if said.type == "error" and "422" not in said.text and "404" not in said.text:
            trouble.append(said.text)

    def fail(error) -> None:
        trouble.append(str(error))

    page.on("pageerror", fail)
    page.on("console", hear)
    try:
        _hold(page, address)
    finally:
        page.remove_listener("pageerror", fail)
        page.remove_listener("console", hear)
    assert trouble == []


def _hold(page, address: str) -> None:
    answer = page.goto(address)
    assert answer is not None and answer.status in (200, 404, 422)
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"], (
        f"{address} runs off the side"
    )
    assert broken_rules(page) == []
    assert page.evaluate(REPEATED_IDS) == [], f"{address} has an id twice"
    if page.viewport_size == PHONE["viewport"]:
        assert poor_stops(page) == []
        assert page.evaluate(TWICE_AS_LARGE) <= page.viewport_size["width"], f"{address} runs off at 200 %"


@pytest.mark.parametrize("size", ["phone", "desk"])
@pytest.mark.parametrize("path", PUBLIC)
def test_a_walk_ins_page_is_whole(seen_shop, names, path, size, looking):
    look(looking[size], seen_shop.url + path.format(**names))


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_staff_pages_are_whole(seen_shop, names, size, request):
    page = request.getfixturevalue(size)
    sign_in(page, seen_shop)
    for path in STAFF:
        look(page, seen_shop.url + path.format(**names))


def test_an_empty_shop_is_set_up_on_a_phone(browser, tmp_path, phone):
    """From nothing: the first page asks for the owner, then a tank, a rack, a colony."""
    import threading

    from webapp import create_app
    from webapp.config import Config
    from webapp.serving import open_door
    from webapp.storage.migrating import upgrade

    url = f"sqlite:///{tmp_path}/empty.sqlite"
    upgrade(url)
    app = create_app(Config(url, "k", staff_on_public_door=True))
    listener = open_door(app, "public", "127.0.0.1", 0)
    thread = threading.Thread(target=listener.server.serve, daemon=True)
    thread.start()
    base = f"http://127.0.0.1:{listener.port}"
    try:
        phone.goto(base + "/")
        phone.wait_for_url("**/set-up")
        look(phone, base + "/set-up")
        phone.fill("#person", "Ida")
        phone.fill("#secret", "739164")
        phone.fill("#name", "First Light")
        phone.click("main form button.wide")
        phone.wait_for_url("**/tanks**")
        follow(phone, "a:has-text('Add a tank') >> nth=0")
        phone.fill("#name", "Only Tank")
        phone.select_option("[name=purpose]", "display")
        phone.click("main form button.wide")
        phone.wait_for_url(re.compile("/tanks/[0-9a-f]{32}"))
        follow(phone, "a:has-text('Add a rack') >> nth=0")
        phone.fill("#name", "R1")
        phone.fill("#rows", "3")
        phone.fill("#columns", "5")
        phone.click("main form button.wide")
        phone.wait_for_url(lambda url: "/racks/new" not in url)
        phone.goto(base + "/stock/new")
        phone.select_option("#profile_key", "discosoma")
        phone.fill("#name", "First Mushroom")
        phone.select_option("#origin", "bought_in")
        phone.select_option("#rack", label="Only Tank, R1")
        phone.click("main form button.wide")
        phone.wait_for_url("**/s/**")
        assert "First Mushroom" in phone.inner_text("h1")
    finally:
        listener.server.stop()
        thread.join(5)
        app.extensions["rackside"][0].close()


def test_the_card_stays_small_and_asks_for_one_sheet_and_one_script(seen_shop, names, phone):
    """At most 60 kB for the card without its photo: page, style sheet and script."""
    sizes: dict[str, int] = {}
    phone.on(
        "response",
        lambda answer: (
            sizes.update({answer.url: len(answer.body())})
            if "drawing" not in answer.url and "photo" not in answer.url
            else None
        ),
    )
    phone.goto(seen_shop.url + "/" + names["frag"], wait_until="networkidle")
    assert sum(sizes.values()) <= 60_000, sizes
    assert sum(url.endswith(".css") for url in sizes) == 1
    assert sum(url.endswith(".js") for url in sizes) <= 1


def test_a_walk_in_gets_from_the_card_to_the_verdict_and_back_without_scripts(seen_shop, names, phone_without_scripts):
    page = phone_without_scripts
    page.goto(f"{seen_shop.url}/{names['frag']}")
    follow(page, "text=Will it suit my tank?")
    page.fill("#temp", "25")
    page.fill("#salinity", "35")
    follow(page, "main form button.wide")
    assert "/answer?" in page.url
    assert page.inner_text(".answer h2").strip() == "Not known"
    page.go_back()
    assert page.input_value("#temp") == "25"


def test_the_phone_remembers_the_tank_for_the_next_tag(seen_shop, names, phone):
    """A form that was left blank is no tank."""
    phone.goto(f"{seen_shop.url}/{names['frag']}/fit")
    follow(phone, "main form button.wide >> nth=0")
    phone.wait_for_selector("text=Nothing was filled in")
    assert not phone.is_visible("[data-memory-fill]")
    phone.fill("#temp", "25.5")
    phone.click("main form button.wide")
    phone.wait_for_url("**/answer?**")
    phone.goto(f"{seen_shop.url}/suits")
    phone.click("[data-memory-fill]")
    assert phone.input_value("#temp") == "25.5"


def test_all_on_a_page_are_ticked_without_asking_the_shop_and_only_what_a_deed_needs_is_asked(seen_shop, names, phone):
    sign_in(phone, seen_shop)
    phone.goto(seen_shop.url + "/stock")
    link, boxes = phone.locator("[data-tick]"), phone.locator("[name=chosen]")
    link.tap()
    assert link.inner_text() == "Choose none"
    assert all(box.is_checked() for box in boxes.all()) and boxes.count() > 1
    boxes.nth(0).uncheck(force=True)
    assert link.inner_text().startswith("Choose all")
    assert phone.url.endswith("/stock")
    assert not phone.is_visible("#price")
    phone.select_option("#action", "price")
    assert phone.is_visible("#price") and not phone.is_visible("#rack")


def test_the_stock_list_is_a_list_on_paper_too(seen_shop, desk):
    sign_in(desk, seen_shop)
    desk.goto(f"{seen_shop.url}/stock")
    shown = desk.locator(".pick .item").count()
    desk.emulate_media(media="print")
    assert shown > 0 and desk.locator(".pick .item:visible").count() == shown
    assert desk.locator("input:visible, select:visible, button:visible").count() == 0
