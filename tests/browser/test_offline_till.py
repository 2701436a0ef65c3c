"""The till without signal: put on it, priced and sold by what the phone knows; the sale arrives exactly once."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser.offline import entries, reopen, until, until_page_is_kept, until_true, wait_until_empty
from webapp.services import intake, updating
from webapp.services.recording import NewEvent, new_deed, record
from webapp.storage.event import Event
from webapp.storage.sale import SaleRow
from webapp.storage.specimen import SpecimenRow

pytestmark = pytest.mark.browser
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
DISC = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale", "price_cents": 1250}


@pytest.fixture
def discs(secure_shop):
    """Four mushrooms for sale at 12.50."""
    stage = secure_shop.stage
    with stage.database.saving() as session:
        place = {"tank_id": stage.tank, "rack_id": stage.rack, "slot": ""}
        ids = intake.take_in(session, stage.owner, new_deed(), DISC | place, 4)
    with stage.database.reading() as session:
        return [session.get(SpecimenRow, one) for one in ids]


def put(page, *codes):
    page.fill("#code", " ".join(codes))
    page.click("text=Put it on the till")


def sales(shop):
    with shop.stage.database.reading() as session:
        return session.query(SaleRow).order_by(SaleRow.number).all()


def known_stock(page):
    until_true(page, "rackside.store.kept('list').then((kept) => Boolean(kept?.packed.stops))")


def test_a_sale_without_signal_is_one_sale_however_often_it_is_sent(secure_shop, phones, discs):
    page = phones(path="/till")
    put(page, discs[0].code)
    page.wait_for_selector("text=1 on the till")
    known_stock(page)
    secure_shop.stop()
    put(page, discs[1].code[:6].lower())
    page.wait_for_selector("text=2 on the till, €25.00 by their tags")
    page.goto(f"{secure_shop.url}/till")  # the page and the list are on the phone
    page.wait_for_selector("text=2 on the till, €25.00 by their tags")
    page.fill(f"[name=price-{discs[1].id}]", "10")
    page.click("#till-phone >> button:has-text('Sell')")
    page.wait_for_selector("text=Say why it differs")
    page.fill(f"[name=reason-{discs[1].id}]", "two together")
    reason = f"rackside.till.read().then((till) => till.typed['reason-{discs[1].id}'])"
    until(page, lambda: page.evaluate(reason) == "two together")
    page.goto(f"{secure_shop.url}/till")
    assert page.input_value(f"[name=price-{discs[1].id}]") == "10"
    page.click("#till-phone >> button:has-text('Sell')")
    page.wait_for_selector("text=Kept on this phone: Sell Blue Disc, Blue Disc.")
    page.wait_for_selector("#till-phone >> text=Nothing is on the till")
    put(page, discs[0].code)
    page.wait_for_selector("text=Blue Disc is sold already")
    page.click("button:has-text('Take it off the till')")
    page.wait_for_selector("#till-phone >> text=Nothing is on the till")
    secure_shop.lose = 2
    secure_shop.start()
    for _ in range(3):
        page.evaluate("rackside.flush()")
    wait_until_empty(page)
    [sale] = sales(secure_shop)
    assert [(line["specimen_id"], line["price_cents"], line["reason"]) for line in sale.lines] == [
        (discs[0].id, 1250, ""), (discs[1].id, 1000, "two together"),
    ]  # fmt: skip
    page.goto(f"{secure_shop.url}/till")
    page.wait_for_selector("#till-shop >> text=Nothing is on the till")


def test_what_was_put_on_without_signal_is_on_the_shops_till_afterwards(secure_shop, phones, discs):
    page = phones(path="/till")
    put(page, discs[0].code, discs[1].code)
    page.wait_for_selector("text=2 on the till")
    known_stock(page)
    secure_shop.stop()
    page.click(f"[aria-labelledby=off] button:has-text('{discs[0].code}')")
    page.wait_for_selector("#till-phone >> text=1 on the till")
    put(page, discs[2].code)
    page.wait_for_selector("#till-phone >> text=2 on the till")
    secure_shop.start()
    page.goto(f"{secure_shop.url}/till")
    here = "(all) => all.map((one) => one.value)"  # two before the phone has told the shop, and two others after
    until(page, lambda: set(page.eval_on_selector_all("#sale [name=specimen_id]", here)) == {discs[1].id, discs[2].id})


def test_the_phone_asks_what_the_shop_would_ask(secure_shop, phones, discs):
    stage = secure_shop.stage
    with stage.database.saving() as session:
        updating.hold(session, stage.owner, new_deed(), discs[0].id, "pearl", stage.later(hours=20), stage.later())
        record(session, stage.owner, [NewEvent("status_set", discs[1].id, {"status": "quarantine"})])
        mother = session.get(SpecimenRow, stage.mother).code
    page = phones(path="/till")
    known_stock(page)
    secure_shop.stop()
    put(page, discs[0].code, discs[1].code, mother)
    page.wait_for_selector("text=is in quarantine")
    page.wait_for_selector("text=Gloves and eye protection")
    for sentence, settle in (
        ("Ask for the claim word", lambda: page.fill(f"[name=word-{discs[0].id}]", "Pearl")),
        ("is in quarantine", lambda: page.click(f"[data-id='{discs[1].id}'] >> text=Take it off")),
        ("Tell the buyer how to handle", lambda: page.click("#phone-talk")),
    ):
        page.click("#till-phone >> button:has-text('Sell')")
        page.wait_for_selector(f"[data-notice] >> text={sentence}")
        settle()
    page.wait_for_timeout(200)
    page.click("#till-phone >> button:has-text('Sell')")
    page.wait_for_selector("text=Kept on this phone:")
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    [sale] = sales(secure_shop)
    assert (sale.talk, len(sale.lines)) == (True, 2)


def test_a_sale_that_has_happened_is_kept_though_the_shop_would_have_stopped_it(secure_shop, phones, discs):
    stage = secure_shop.stage
    page = phones(path="/till")
    known_stock(page)
    secure_shop.stop()
    put(page, discs[0].code, discs[1].code)
    page.wait_for_selector("text=2 on the till")
    page.click("#till-phone >> button:has-text('Sell')")
    page.wait_for_selector("text=Kept on this phone:")
    with stage.database.saving() as session:  # meanwhile, at the shop
        record(session, stage.owner, [NewEvent("status_set", discs[0].id, {"status": "quarantine"}),
                                      NewEvent("sold", discs[1].id, {"price_cents": 1250})])  # fmt: skip
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    with stage.database.reading() as session:
        assert len(session.get(SpecimenRow, discs[1].id).conflicts) == 1
        [note] = session.query(Event).filter_by(kind="noted", subject_id=discs[0].id)
        assert note.payload["text"].startswith("Sold without signal. Blue Disc is in quarantine.")
    assert len(sales(secure_shop)) == 1


def test_undoing_a_sale_that_waits_puts_all_of_it_back(secure_shop, phones, discs):
    page = phones(path="/till")
    known_stock(page)
    secure_shop.stop()
    put(page, discs[0].code)
    page.wait_for_selector("text=1 on the till")
    page.click("#till-phone >> button:has-text('Sell')")
    page.click("[data-notice] >> text=Undo")
    page.wait_for_selector("text=Undone.")
    assert len(entries(page)) == 2
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    with secure_shop.stage.database.reading() as session:
        until(page, lambda: session.get(SpecimenRow, discs[0].id).status == "for_sale")
    assert sales(secure_shop) == []


def test_what_is_sold_says_so_without_signal_and_can_come_back(secure_shop, phones, discs):
    stage = secure_shop.stage
    with stage.database.saving() as session:
        record(session, stage.owner, [NewEvent("sold", discs[0].id, {"price_cents": 1250})])
    page = phones(path="/do")
    page.wait_for_selector("text=plugs known")
    page.goto(f"{secure_shop.url}/till")
    known_stock(page)
    secure_shop.stop()
    put(page, discs[0].code)
    page.wait_for_selector(f"text=Blue Disc {discs[0].code} is sold already, as far as this phone knows.")
    page.goto(f"{secure_shop.url}/do")
    page.wait_for_selector("text=plugs known")
    page.fill("#code", discs[0].code)
    page.press("#code", "Enter")
    page.wait_for_selector(f"#found >> text={discs[0].code} · not here any more · sold")
    page.click("#found >> text=Came back: into quarantine")
    page.wait_for_selector("text=Kept on this phone:")
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    with stage.database.reading() as session:
        assert session.get(SpecimenRow, discs[0].id).status == "quarantine"


def found(page, code):
    page.fill("#code", code)
    page.click("#matches button")


def test_one_tap_sells_after_a_scan_and_what_may_not_or_needs_words_goes_another_way(secure_shop, phones, discs):
    stage = secure_shop.stage
    with stage.database.saving() as session:
        updating.update(session, stage.owner, new_deed(), "status_set", [stage.mother], {"status": "for_sale"})
        record(session, stage.owner, [NewEvent("checked", discs[1].id, {"slime": True})])
        mother = session.get(SpecimenRow, stage.mother).code
    page = phones(path="/till")
    known_stock(page)
    page.goto(f"{secure_shop.url}/do")
    page.wait_for_selector("text=plugs known")
    secure_shop.stop()
    found(page, discs[1].code)
    page.wait_for_selector("#found >> text=Take it off sale.")
    assert page.locator("#found >> text=Sell for").count() == page.locator("#found >> text=To the till").count() == 0
    found(page, mother)
    assert page.locator("#found >> text=Sell for").count() == 0
    page.click("#found >> text=To the till")  # where what to tell the buyer stands
    page.wait_for_selector("#till-phone >> text=Gloves and eye protection")
    page.goto(f"{secure_shop.url}/do")
    page.wait_for_selector("text=plugs known")
    found(page, discs[0].code)
    page.click("#found >> text=Sell for €12.50")
    page.wait_for_selector("text=Kept on this phone:")
    secure_shop.start()
    reopen(page, f"{secure_shop.url}/till")
    page.wait_for_selector("#till-shop >> text=1 on the till")
    wait_until_empty(page)
    with stage.database.reading() as session:
        assert session.get(SpecimenRow, discs[0].id).status == "sold"


def test_a_plug_goes_to_the_till_from_its_own_page_without_signal(secure_shop, phones, discs):
    page = phones(path="/till")
    known_stock(page)
    page.goto(f"{secure_shop.url}/s/{discs[0].id}")
    until_page_is_kept(page, "/till")
    secure_shop.stop()
    page.click("button:has-text('To the till')")
    page.wait_for_selector("#till-phone >> text=1 on the till")


def test_what_the_phone_draws_itself_is_accessible(secure_shop, phones, discs):
    with secure_shop.stage.database.reading() as session:
        mother = session.get(SpecimenRow, secure_shop.stage.mother).code
    page = phones(path="/till")
    known_stock(page)
    until_page_is_kept(page, "/switch")
    secure_shop.stop()
    put(page, discs[0].code, mother)
    page.wait_for_selector("text=2 on the till")
    till = Axe().run(page, options={"runOnly": RULES}).response["violations"]
    page.goto(f"{secure_shop.url}/switch")
    page.wait_for_selector("#turn-phone")
    switch = Axe().run(page, options={"runOnly": RULES}).response["violations"]
    assert [(rule["id"], rule["nodes"][0]["html"][:200]) for rule in (*till, *switch)] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
