"""What goes straight to the shop: photos that it reads wait for a person, settings that were typed are put back."""

import io
from datetime import UTC, datetime

import pytest
from PIL import Image

from tests.browser.offline import entries, reopen, until, until_page_is_kept, wait_until_empty
from webapp.services import intake
from webapp.services.recording import new_deed
from webapp.services.thresholds import own_values
from webapp.storage.event import Event
from webapp.storage.specimen import SpecimenRow
from webapp.tags.symbol import make_symbol

pytestmark = pytest.mark.browser


@pytest.fixture
def discs(secure_shop):
    """Three mushrooms on the first rack."""
    stage = secure_shop.stage
    given = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale", "slot": "",
             "tank_id": stage.tank, "rack_id": stage.rack}  # fmt: skip
    with stage.database.saving() as session:
        ids = intake.take_in(session, stage.owner, new_deed(), given, 3)
    with stage.database.reading() as session:
        return [session.get(SpecimenRow, one) for one in ids]


def photo_of(*codes):
    """A sharp picture of tags side by side, 9 pixels a module."""
    symbols = [make_symbol(f"http://SHOP.LOCAL/{code}").modules for code in codes]
    side = len(symbols[0]) + 8
    picture = Image.new("L", (side * len(symbols), side), 255)
    for number, modules in enumerate(symbols):
        for y, row in enumerate(modules):
            for x, dark in enumerate(row):
                picture.putpixel((number * side + x + 4, y + 4), 0 if dark else 255)
    file = io.BytesIO()
    picture.resize((picture.width * 9, picture.height * 9), Image.NEAREST).convert("RGB").save(file, "JPEG")
    return {"name": "rack.jpg", "mimeType": "image/jpeg", "buffer": file.getvalue()}


def seen(shop):
    with shop.stage.database.reading() as session:
        return {event.subject_id: event for event in session.query(Event).filter_by(kind="seen")}


def take(page, *codes):
    page.set_input_files("#photo", photo_of(*codes))
    page.click("text=Read every tag")
    page.wait_for_selector("text=Kept on this phone: Photo of a rack")


def test_two_photos_of_a_rack_wait_and_are_one_count_for_the_moment_they_were_taken(secure_shop, phones, discs):
    page = phones(path="/count")
    secure_shop.stop()
    before = datetime.now(UTC)
    page.select_option("#place", label="North, N1: 4")
    take(page, discs[0].code)
    page.select_option("#place", label="North, N1: 4")
    take(page, discs[1].code)
    after = datetime.now(UTC)
    page.wait_for_selector("text=2 photos to be read by the shop and confirmed by you")
    page.goto(f"{secure_shop.url}/outbox")
    page.click("text=Let the shop read it now >> nth=0")
    page.wait_for_selector("text=The photo stays on this phone")
    secure_shop.start()
    page.click("text=Let the shop read it now >> nth=0")
    page.wait_for_url("**/count/found**")
    page.wait_for_selector("text=1 of 4 seen")
    assert seen(secure_shop) == {}
    page.click("text=Add the photo of just now")
    page.wait_for_selector("text=2 of 4 seen")
    assert len(entries(page)) == 2  # until it is confirmed
    secure_shop.stop()
    page.click("text=Keep this count")
    page.wait_for_selector("text=Kept on this phone:")
    assert [entry["state"] for entry in entries(page)] == ["waiting"]
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    found = seen(secure_shop)
    assert set(found) == {discs[0].id, discs[1].id}
    assert all(before <= event.occurred_at <= after for event in found.values())


def test_thresholds_typed_while_the_shop_is_out_of_reach_are_put_back(secure_shop, phones):
    page = phones(path="/stock")
    page.goto(f"{secure_shop.url}/settings/thresholds")
    field = page.locator("#thresholds input[type=text]").first
    key = field.get_attribute("name")
    wanted = f"{float(field.input_value()) + 1:g}"
    secure_shop.stop()
    field.fill(wanted)
    page.click("text=Save the thresholds")
    page.wait_for_selector("text=what you typed is still here")
    secure_shop.start()
    page.goto(f"{secure_shop.url}/settings/thresholds")
    page.wait_for_selector("text=did not reach the shop. It is back in the form")
    assert page.input_value(f"[name={key}]") == wanted
    page.click("text=Save the thresholds")
    page.wait_for_selector("text=Thresholds saved.")
    with secure_shop.stage.database.reading() as session:
        until(page, lambda: own_values(session).get(key) == float(wanted))
    reopen(page, f"{secure_shop.url}/settings/thresholds")
    page.wait_for_timeout(300)
    assert page.locator("text=did not reach the shop").count() == 0


def present(stage):
    with stage.database.reading() as session:
        row = session.get(SpecimenRow, stage.mother)
        return row.slot, row.price_cents


def test_what_was_refused_is_opened_put_right_and_goes_when_the_shop_has_it_so(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    page.context.add_init_script("delete ServiceWorkerRegistration.prototype.sync")  # nobody but the page sends
    page.goto(page.url)
    secure_shop.stop()
    page.evaluate("for (const one of ['#move', '#price']) document.querySelector(one).open = true")
    page.select_option("[name=move-rack]", label="South, S1")
    page.fill("[name=move-slot]", "Z9")
    page.click("#move button")  # waits as its form
    page.wait_for_selector("text=Kept on this phone: Move")
    page.fill("[name=price-price]", "-5")
    page.click("#price button")  # waits as an event
    page.wait_for_selector("text=Kept on this phone: Set the price")
    secure_shop.start()
    page.goto(f"{secure_shop.url}/outbox")
    page.wait_for_selector("text=2 deeds need you")  # else the page still shifts under the thumb
    page.click("text=Open it and put it right >> nth=0")
    page.wait_for_selector("text=was not taken: S1 has no slot Z9")
    assert page.input_value("[name=move-slot]") == "Z9"
    assert page.input_value("[name=move-rack]").endswith(stage.other_rack)
    page.fill("[name=move-slot]", "B2")
    page.click("#move button")
    until(page, lambda: present(stage) == ("B2", None))
    until(page, lambda: [entry["state"] for entry in entries(page)] == ["refused"])
    reopen(page, f"{secure_shop.url}/outbox")
    page.click("text=Open it and put it right")
    page.wait_for_selector("text=was not taken:")
    assert page.input_value("[name=price-price]") == "-5"
    page.fill("[name=price-price]", "-4")
    page.click("#price button")
    page.wait_for_selector("[data-notice].error >> text=Not taken:")
    secure_shop.stop()
    page.fill("[name=price-price]", "19")
    page.click("#price button")
    page.wait_for_selector("text=Kept on this phone:")
    until(page, lambda: [entry["state"] for entry in entries(page)] == ["refused", "waiting"])  # the try before is gone
    page.goto(f"{secure_shop.url}/outbox")
    page.wait_for_selector("text=You put it right; that waits")
    secure_shop.start()
    page.click("#send")
    wait_until_empty(page)
    assert present(stage) == ("B2", 1900)


def test_pages_that_were_seen_open_without_signal_and_a_filtered_list_is_not_passed_off_as_another(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path="/stock")
    paths = ["/today", "/holds", "/shipments/new", "/pests/new", "/stocktake", "/sales", f"/racks/{stage.rack}/change",
             "/tanks/new", f"/s/{stage.mother}/ruler", "/stock"]  # fmt: skip
    for path in paths:
        page.goto(secure_shop.url + path)
        until_page_is_kept(page, path)
    page.goto(f"{secure_shop.url}/count?place=rack:{stage.other_rack}")
    assert page.input_value("#place") == f"rack:{stage.other_rack}"
    until_page_is_kept(page, "/count")
    secure_shop.stop()
    for path in paths:
        page.goto(secure_shop.url + path)
        page.wait_for_selector("text=As kept on this phone just now")
    page.goto(f"{secure_shop.url}/stock?state=sold")
    page.wait_for_selector("text=What waits on this phone")
    for question, place in (("", ""), (f"?place=rack:{stage.rack}", f"rack:{stage.rack}")):
        page.goto(f"{secure_shop.url}/count{question}")  # the one seen last asked for another rack
        assert page.input_value("#place") == place
    page.goto(f"{secure_shop.url}/pests/new")
    page.select_option("[name=tank]", index=1)
    page.select_option("[name=pest]", index=1)
    page.click("text=Note the finding")
    page.wait_for_selector("text=Kept on this phone: Note the finding")
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    with stage.database.reading() as session:
        assert session.query(Event).filter_by(kind="pest_found").count() == 1
