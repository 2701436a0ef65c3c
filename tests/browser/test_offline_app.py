"""The staff's pages as an app: kept pages with their age, updates that ask, a phone that is ready, scanning, taps."""

import io

import pytest
from PIL import Image

from tests.browser.accessibility import broken_rules
from tests.browser.offline import SecureShop, entries, reopen, until, until_true, wait_until_empty
from tests.browser.panel import tap_at_once
from tests.stage import NOW, PIN
from webapp.services import fragging, people, updating
from webapp.services.recording import new_deed
from webapp.storage.event import Event
from webapp.storage.specimen import SpecimenRow
from webapp.tags.codes import new_code, parse_scan
from webapp.tags.symbol import make_symbol
from webapp.views.assets import make_bundle

pytestmark = pytest.mark.browser
SLOW_LIST = """const reached = fetch;
fetch = async (what, ...how) => {
  if (what === '/do/list') await new Promise((done) => setTimeout(done, 700));
  return reached(what, ...how);
}"""


def plugs(shop: SecureShop, count: int = 6, status: str = "healing") -> list[SpecimenRow]:
    """Frags of the mother on the first rack, in slots A2 and on, for 12.50."""
    stage = shop.stage
    with stage.database.saving() as session:
        said = fragging.FragSession(stage.mother, "scalpel", count, stage.rack, price_cents=1250)
        ids = fragging.frag(session, stage.owner, new_deed(), said)
    with stage.database.reading() as session:
        return [session.get(SpecimenRow, one) for one in ids]


def kinds(shop, specimen_id):
    with shop.stage.database.reading() as session:
        found = session.query(Event).filter(Event.subject_id == specimen_id).order_by(Event.seq)
        return [event.kind for event in found]


def at_slot(page, slot):
    page.evaluate("document.querySelector('#slots-fold').open = true")
    page.click(f"#slot-map .slot:has(b:text-is('{slot}'))")


def test_the_rack_one_works_at_opens_without_signal_with_its_age(secure_shop, phones):
    made = plugs(secure_shop)
    page = phones(path=f"/racks/{secure_shop.stage.rack}")
    wanted = [f"/s/{one.id}" for one in made] + ["/do", "/series", f"/tanks/{secure_shop.stage.tank}"]
    cards = [f"/{one.code}" for one in made]
    names = "(all) => all.map((one) => new URL(one.url).pathname)"
    kept = f"caches.open('rackside-pages').then((pages) => pages.keys()).then({names})"
    until(page, lambda: {*wanted, *cards} <= set(page.evaluate(kept)), 30)
    secure_shop.stop()
    for path in (*wanted, f"/racks/{secure_shop.stage.rack}"):
        page.goto(secure_shop.url + path)
        assert page.url.endswith(path)
        page.wait_for_selector("text=As kept on this phone just now")
    for path in cards:
        page.goto(secure_shop.url + path)
        page.wait_for_selector("text=As kept on this phone on")
    page.goto(f"{secure_shop.url}/stock?q=never+kept")
    page.wait_for_selector("text=What waits on this phone")


def test_an_update_asks_before_it_swaps_and_what_waits_stays(secure_shop, phones):
    page = phones(path=f"/s/{secure_shop.stage.mother}")
    secure_shop.stop()
    page.evaluate("document.querySelector('#name').open = true")
    page.fill("[name=name-name]", "Ember Crown")
    page.click("#name button")
    page.wait_for_selector("text=Kept on this phone:")
    before = page.evaluate("caches.keys()")
    bundles = secure_shop.app.extensions["rackside_assets"]
    bundles["worker.js"] = make_bundle("worker.js", bundles["worker.js"].body.decode() + "\n// newer\n")
    secure_shop.lose = 99  # in reach, but the door cannot take anything yet
    secure_shop.start()
    page.evaluate("navigator.serviceWorker.getRegistration().then((one) => one.update())")
    page.wait_for_selector("text=A new version is ready")
    assert page.evaluate("caches.keys()") != before  # the new shell is there, beside the old one
    assert set(before) <= set(page.evaluate("caches.keys()"))
    with page.expect_navigation():
        page.click("text=Use it now")
    assert len(entries(page)) == 1
    until(page, lambda: not {one for one in before if "shell" in one} & set(page.evaluate("caches.keys()")))
    secure_shop.lose = 0
    page.evaluate("rackside.sendNow().then(() => 1)")
    wait_until_empty(page)
    with secure_shop.stage.database.reading() as session:
        assert session.get(SpecimenRow, secure_shop.stage.mother).name == "Ember Crown"


def test_a_phone_that_clicked_the_warning_away_is_not_ready(secure_shop, browser):
    context = browser.new_context(ignore_https_errors=True)
    wary = context.new_page()
    wary.goto(f"{secure_shop.url}/ready")
    wary.wait_for_selector("text=Not ready yet.")
    assert "work without signal" in wary.inner_text("#verdict")
    context.close()


def test_a_browser_finds_nothing_that_keeps_it_from_installing(secure_shop, phones):
    page = phones(path="/do")
    tools = page.context.new_cdp_session(page)
    assert tools.send("Page.getAppManifest")["errors"] == []
    errors = tools.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [error["errorId"] for error in errors if error["errorId"] != "in-incognito"] == []
    manifest = page.evaluate("fetch('/manifest.webmanifest').then((answer) => answer.json())")
    assert {icon["sizes"] for icon in manifest["icons"]} == {"192x192", "512x512"}
    for shortcut in manifest["shortcuts"]:
        assert page.goto(secure_shop.url + shortcut["url"]).status == 200


CAMERA = """window.BarcodeDetector = class { static async getSupportedFormats() { return ["qr_code"]; }
  async detect() { return window.seen ? [{ rawValue: window.seen }] : []; } };
navigator.mediaDevices.getUserMedia = async () => document.createElement("canvas").captureStream(5);"""


def test_the_live_camera_reads_a_tag_and_the_next_deed_is_one_tap(secure_shop, phones):
    first, second = plugs(secure_shop, 2)
    page = phones(path="/stock")
    page.context.add_init_script(CAMERA)
    page.goto(f"{secure_shop.url}/do")
    page.click("#live-button")
    page.evaluate("(text) => { window.seen = text; }", f"http://SHOP.LOCAL/{first.code}")
    page.wait_for_selector(f"#found >> text={first.code}")
    page.click("#found >> text=Holds on, edges closed")
    page.wait_for_selector("text=Done: Holds on")
    until(page, lambda: "checked" in kinds(secure_shop, first.id))
    page.evaluate("(text) => { window.seen = text; }", f"http://elsewhere.example/{second.code}")
    page.wait_for_selector("text=That symbol is not a tag of this shop")
    assert first.code in page.inner_text("#found")


def test_without_a_live_camera_a_photo_is_read_by_the_shop(secure_shop, phones):
    [plug] = plugs(secure_shop, 1)
    page = phones(path="/do")
    assert page.is_hidden("#live-button")
    modules = make_symbol(f"http://SHOP.LOCAL/{plug.code}").modules
    picture = Image.new("L", (len(modules) + 8, len(modules) + 8), 255)
    for y, row in enumerate(modules):
        for x, dark in enumerate(row):
            picture.putpixel((x + 4, y + 4), 0 if dark else 255)
    photo = io.BytesIO()
    picture.resize((picture.width * 9, picture.height * 9), Image.NEAREST).convert("RGB").save(photo, "JPEG")
    page.wait_for_selector("text=plugs known")
    page.set_input_files("#photo", {"name": "tag.jpg", "mimeType": "image/jpeg", "buffer": photo.getvalue()})
    page.wait_for_selector(f"#found >> text={plug.code}")


def test_without_signal_three_characters_and_a_tap_find_it(secure_shop, phones):
    made = plugs(secure_shop)
    page = phones(path="/do")
    page.wait_for_selector("text=plugs known")
    secure_shop.stop()
    page.add_init_script(SLOW_LIST)  # a thumb may be faster than the list
    page.goto(f"{secure_shop.url}/do")
    page.fill("#code", made[3].code[:3].lower())
    page.click(f"#matches button:has-text('{made[3].code}')")
    page.click("#found >> text=Ready: for sale")
    page.wait_for_selector("text=Kept on this phone:")
    page.wait_for_selector("#found p:has-text('for sale')")
    secure_shop.start()
    page.goto(f"{secure_shop.url}/do")
    wait_until_empty(page)
    with secure_shop.stage.database.reading() as session:
        assert session.get(SpecimenRow, made[3].id).status == "for_sale"


def test_series_one_deed_chosen_once_then_tag_after_tag(secure_shop, phones):
    made = plugs(secure_shop)
    page = phones(path="/series")
    page.wait_for_selector("text=plugs known")
    at_slot(page, "A2")
    page.wait_for_selector("text=Choose the rack first")
    page.select_option("#series-rack", label="South, S1")
    secure_shop.stop()
    tap_at_once(page, "A2", "A3", "A4")
    page.wait_for_selector("text=3 done.")
    page.click("#series-done li:last-child button")
    page.wait_for_selector("text=2 done.")
    secure_shop.start()
    page.evaluate("rackside.sendNow()")
    wait_until_empty(page)
    with secure_shop.stage.database.reading() as session:
        rows = [session.get(SpecimenRow, one.id) for one in made[:3]]
    assert [(row.rack_id == secure_shop.stage.other_rack, row.slot) for row in rows] == [
        (False, "A2"), (True, "A2"), (True, "A3"),
    ]  # fmt: skip


#: deed -> taps after the scan (the plug is on the screen), the last of them done.
TAPS = {
    "ready for sale": ("healing", ["#found >> text=Ready: for sale"]),
    "holds on, edges closed": ("healing", ["#found >> text=Holds on, edges closed"]),
    "glued again": ("healing", ["#found >> text=Came loose, glued again"]),
    "open and well": ("healing", ["#found >> text=Open and well"]),
    "sell, with what to tell of a poisonous one": (
        "for_sale", ["#found >> text=To the till", "#talk", "#sale button:has-text('Sell')"],
    ),
    "back to healing": ("for_sale", ["#found >> text=Back to healing"]),
    "undo the last": ("healing", ["#found >> text=Open and well", "[data-notice] >> text=Undo"]),
    "move": ("healing", ["#found >> text=/^Move$/", "select:#move-rack", "#move button"]),
    "hold": ("for_sale", ["#found >> text=/^Hold$/", "type:#hold-word", "#hold button"]),
    "price": ("healing", ["#found >> text=/^Price$/", "type:#price-price", "#price button"]),
}


def test_the_ten_commonest_deeds_take_at_most_three_taps_after_the_scan(secure_shop, phones):
    made = plugs(secure_shop, len(TAPS))
    page = phones(path="/do")
    told = []
    for number, (deed, (status, taps)) in enumerate(TAPS.items()):
        with secure_shop.stage.database.saving() as session:
            owner, plug = secure_shop.stage.owner, made[number].id
            updating.update(session, owner, new_deed(), "status_set", [plug], {"status": status})
        before = len(kinds(secure_shop, made[number].id))
        reopen(page, f"{secure_shop.url}/do")  # the deed before may still be leading on
        page.wait_for_selector("text=plugs known")
        page.fill("#code", made[number].code)
        page.click("#matches button")
        for tap in taps:
            how, _, what = tap.rpartition(":") if tap.startswith(("select:", "type:")) else ("", "", tap)
            if how == "select":
                page.select_option("[name=move-rack]", label="South, S1")
            elif how == "type":
                field = what.removeprefix("#")
                page.fill(f"[name={field}]", "amber" if "word" in field else "9")
            else:
                page.click(what)
        wanted = before + (2 if deed.startswith("undo") else 1)
        until(page, lambda one=made[number].id, wanted=wanted: len(kinds(secure_shop, one)) == wanted)
        told.append((deed, len(taps)))
        assert len(taps) <= 3
    print("\ntaps after the scan: " + ", ".join(f"{deed} {count}" for deed, count in told))


def test_switching_person_takes_two_taps_and_the_history_says_who(secure_shop, phones):
    with secure_shop.stage.database.saving() as session:
        people.add_person(session, "Ines", PIN, "staff", NOW)
    page = phones("Ines", path=f"/s/{secure_shop.stage.mother}")
    page.goto(f"{secure_shop.url}/sign-in?person=&next=/do")
    page.fill("[name=person]", "Noor")
    page.fill("[name=secret]", PIN)
    page.click("button:has-text('Sign in')")
    page.wait_for_url("**/do")
    page.click(".rooms >> text=Noor")
    page.click("button:has-text('Ines')")
    page.wait_for_selector("text=Ines works here now.")
    page.click(".rooms >> text=Ines")
    page.click("text=Noor, with PIN")
    page.wait_for_selector("text=PIN or password")


def low_buttons(page):
    return page.evaluate(
        """[...document.querySelectorAll(".button:not(.small)")].filter((one) => one.checkVisibility())
        .map((one) => [one.textContent, Math.round(one.getBoundingClientRect().height)]).filter(([, px]) => px < 64)"""
    )


def test_every_page_of_it_is_accessible_and_fits_a_phone(secure_shop, phones):
    plugs(secure_shop, 3)
    page = phones(path="/stock")
    page.evaluate(
        """() => Promise.all(["waiting", "refused"].map((state) => rackside.store.add([{ id: rackside.newId(), state,
        reason: "Nobody was signed in on this device then.", label: "Move it", page: location.pathname,
        at: new Date().toISOString(), item: { kind: "noted", form: undefined } }])))"""
    )
    secure_shop.lose = 999
    for path in ("/do", "/series", "/outbox", "/ready", "/ca", "/switch", "/devices", "/people", "/sign-in?person="):
        page.goto(secure_shop.url + path)
        if page.locator("#outbox").count():
            page.wait_for_selector("#outbox >> text=1 deed needs you")
        if path in ("/do", "/series"):
            page.wait_for_selector("text=plugs known")
            if path == "/series":
                page.select_option("#series-rack", label="South, S1")
            at_slot(page, "A2")
            page.wait_for_selector("#found h2" if path == "/do" else "text=1 done.")
        if path == "/ready":
            until_true(page, "document.getElementById('verdict').textContent !== 'Looking…'")
        wide = page.evaluate("document.documentElement.scrollWidth") > 360
        assert (path, broken_rules(page), wide, low_buttons(page)) == (path, [], False, [])


def test_codes_are_read_in_the_page_as_the_shop_reads_them(secure_shop, phones):
    page = phones(path="/do")
    hosts = ["SHOP.LOCAL", "old.local"]
    codes = [new_code() for _ in range(60)]
    texts = [*codes, *(code[:6] + "0" for code in codes), *(f"http://shop.local/{code.lower()}" for code in codes[:9]),
             *(f"https://OLD.LOCAL:8443/{code}?x=1" for code in codes[:9]), f"http://elsewhere.example/{codes[0]}", "",
             codes[0].replace("1", "l").replace("0", "o"), f" {codes[1][:3]}-{codes[1][3:]} ", "ftp://a/x"]  # fmt: skip
    here = page.evaluate("([texts, hosts]) => texts.map((text) => rackside.codeIn(text, hosts))", [texts, hosts])
    assert here == [parse_scan(text, hosts).code or "" for text in texts]
