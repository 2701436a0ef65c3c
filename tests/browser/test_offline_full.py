"""A phone whose storage is full: chromium's own quota, not a stand-in."""

import io
import os

import pytest
from PIL import Image
from sqlalchemy import func, select

from tests.browser.offline import entries, new_phone, reopen, signed_in, until
from webapp.storage.event import Event
from webapp.storage.specimen import SpecimenRow

pytestmark = pytest.mark.browser
#: The app and its pages take about a third of it; the picture alone would take more than all.
ROOM_BYTES = 1_200_000
KEPT = "text=Kept on this phone:"
#: Beside what waits, until not even five hundred bytes find room.
FILL = """async (room) => { let number = 0; const { usage } = await navigator.storage.estimate();
  for (const bytes of [Math.max(4096, room - usage - 8000), 4096, 500]) for (;;) {
    try { await rackside.store.keep(`filler ${usage} ${number += 1}`, "x".repeat(bytes)); } catch { break; } } }"""
PUT = """async (name) => { const cache = await caches.open(name);
  for (let number = 0; number < 10; number += 1) {
    await cache.put(`/filler/${number}`, new Response("x".repeat(20000))); } }"""
CLEAR = """async (name) => { const cache = await caches.open(name);
  for (const one of await cache.keys()) await cache.delete(one); }"""
COUNT = "caches.open('rackside-pages').then((all) => all.keys()).then((all) => all.length)"
#: As many notes of so many letters as find room; resolves with how many did.
NOTES = """async ([subject, most, letters]) => { const { rackside } = window;
  for (let number = 0; number < most; number += 1) {
    const payload = { text: "n".repeat(letters), public: false };
    try { await rackside.addEvents([{ kind: "noted", subject_id: subject, payload }], rackside.newId(), "n"); }
    catch { return number; } }
  return most; }"""


def noise():
    """A picture that no compression makes small: more than a megabyte as the phone would keep it."""
    file = io.BytesIO()
    Image.frombytes("RGB", (1300, 1000), os.urandom(1300 * 1000 * 3)).save(file, "JPEG", quality=95)
    return {"name": "rack.jpg", "mimeType": "image/jpeg", "buffer": file.getvalue()}


def present(stage):
    with stage.database.reading() as session:
        row = session.get(SpecimenRow, stage.mother)
        notes = session.scalar(select(func.count()).select_from(Event).where(Event.kind == "noted"))
        return row.name, notes, row.photo_id is not None


def rename(page, name):
    page.evaluate("document.querySelector('#name').open = true; document.querySelector('[data-notice]')?.remove()")
    page.fill("[name=name-name]", name)
    page.click("#name button")


def test_a_full_phone_promises_nothing_it_cannot_keep_and_keeps_every_deed_that_fits(secure_shop, trusting):
    stage = secure_shop.stage
    context = new_phone(trusting)
    # Before anything is stored: chromium remembers for half a minute how much room there was.
    tools = context.new_cdp_session(context.new_page())
    tools.send("Storage.overrideQuotaForOrigin", {"origin": secure_shop.url, "quotaSize": ROOM_BYTES})
    page = signed_in(context, secure_shop, path=f"/s/{stage.mother}")
    secure_shop.stop()

    page.evaluate("document.querySelector('#photo').open = true")
    page.set_input_files("[name=photo-picture]", noise())
    page.click("#photo button")
    page.wait_for_selector("text=Not kept: the storage of this phone is full")
    assert entries(page) == []
    rename(page, "Ember Crown")  # what was refused must not count as if it were there
    page.wait_for_selector(KEPT)

    page.evaluate(PUT, "rackside-pages")
    pages = page.evaluate(COUNT)
    page.evaluate(FILL, ROOM_BYTES)
    # The oldest pages that were read make room for them.
    assert page.evaluate(NOTES, [stage.mother, 40, 200]) == 40
    assert len(entries(page)) == 1 + 40
    assert 0 < page.evaluate(COUNT) < pages

    page.evaluate(CLEAR, "rackside-pages")
    page.evaluate(PUT, "other things")
    page.evaluate(FILL, ROOM_BYTES)
    notes = 40 + page.evaluate(NOTES, [stage.mother, 100, 1])
    rename(page, "Ember Queen")
    page.wait_for_selector("text=Not kept: the storage of this phone is full")
    assert "Free some of it" in page.inner_text("[data-notice]")
    assert page.input_value("[name=name-name]") == "Ember Queen"
    assert len(entries(page)) == 1 + notes
    page.evaluate(CLEAR, "other things")  # the person does as told
    page.click("#name button")
    page.wait_for_selector(KEPT)

    secure_shop.start()
    page.click("#photo button")  # the picture is still in the form, and goes straight to the shop
    until(page, lambda: present(stage) == ("Ember Queen", notes, True))
    reopen(page)
    until(page, lambda: entries(page) == [])
    context.close()
