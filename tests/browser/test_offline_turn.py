"""Somebody else takes over the phone without signal: by name within a shift, by a PIN that the shop alone can read."""

import pytest
from sqlalchemy import select

from tests.browser.offline import entries, reopen, until, until_page_is_kept, until_true, wait_until_empty
from tests.browser.panel import note
from tests.stage import NOW, PIN
from webapp.services import people
from webapp.storage.event import Event

pytestmark = pytest.mark.browser


def authors(stage):
    """{text of a note: by whom}."""
    with stage.database.reading() as session:
        rows = session.scalars(select(Event).where(Event.kind == "noted"))
        return {row.payload["text"]: row.author_name for row in rows}


def noted(page, text):
    note(page, text)
    page.wait_for_selector("text=Kept on this phone:")


def both_signed_in(phones, secure_shop):
    """A phone of Ines's (staff) and Noor's (owner), who is at work; the mother's panel was kept in Ines's time."""
    stage = secure_shop.stage
    with stage.database.saving() as session:
        people.add_person(session, "Ines", PIN, "staff", NOW)
    page = phones("Ines", f"/s/{stage.mother}")
    page.goto(f"{secure_shop.url}/sign-in?person=&next=/do")
    page.fill("[name=person]", "Noor")
    page.fill("[name=secret]", PIN)
    page.click("button:has-text('Sign in')")
    page.wait_for_url("**/do")
    until_true(page, "rackside.store.kept('people').then((kept) => kept?.people.length === 2)")
    until_page_is_kept(page, "/switch")
    return page


def test_each_deed_is_of_whoever_had_the_phone(secure_shop, phones):
    stage = secure_shop.stage
    page = both_signed_in(phones, secure_shop)
    panel, switch = f"{secure_shop.url}/s/{stage.mother}", f"{secure_shop.url}/switch"
    secure_shop.stop()
    page.goto(panel)  # kept in Ines's time, but Noor is at work
    noted(page, "as Noor")
    page.goto(switch)
    page.click("#turn-phone button:has-text('Ines')")
    page.wait_for_selector("text=Ines works here now.")
    page.goto(panel)
    page.wait_for_selector("text=Ines works on this phone, since there was no signal.")
    noted(page, "as Ines")
    page.goto(switch)
    page.click("#turn-phone button:has-text('Noor, with PIN')")
    page.fill("#turn-pin", PIN)
    page.click("text=Go on as Noor")
    page.wait_for_selector("text=Noor works here now.")
    page.goto(panel)
    noted(page, "as Noor again")
    assert PIN not in str(page.evaluate("Promise.all(['turns', 'people'].map((key) => rackside.store.kept(key)))"))
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    assert authors(stage) == {"as Noor": "Noor", "as Ines": "Ines", "as Noor again": "Noor"}
    assert page.evaluate("rackside.store.kept('turns')") == []
    reopen(page, panel)
    page.click("text=No longer")
    page.wait_for_selector("#outbox", state="hidden")


def test_what_was_done_with_a_wrong_pin_waits_for_a_person(secure_shop, phones):
    stage = secure_shop.stage
    page = both_signed_in(phones, secure_shop)
    secure_shop.stop()
    page.goto(f"{secure_shop.url}/switch")
    page.click("#turn-phone button:has-text('Ines')")
    page.wait_for_selector("text=Ines works here now.")
    page.click("#turn-phone button:has-text('Noor, with PIN')")
    page.fill("#turn-pin", "000123")
    page.click("text=Go on as Noor")
    page.wait_for_selector("text=Noor works here now.")
    page.goto(f"{secure_shop.url}/s/{stage.mother}")
    noted(page, "by whom?")
    secure_shop.start()
    page.click("text=Send now")
    until(page, lambda: [entry["state"] for entry in entries(page)] == ["refused"])
    reopen(page, f"{secure_shop.url}/outbox")
    page.wait_for_selector("text=The PIN given for Noor then was not right.")
    assert authors(stage) == {}
    page.click("text=Send it in my name")
    wait_until_empty(page)
    assert authors(stage) == {"by whom?": "Noor"}
