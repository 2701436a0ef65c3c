"""Staff at the rack without signal, in a real browser: what was done arrives exactly once, and nothing is lost."""

import io
from datetime import UTC, datetime

import pytest
from PIL import Image
from sqlalchemy import select

from tests.browser.ending import ending, online_twin, texts
from tests.browser.offline import entries, reopen, until, until_true, wait_until_empty
from tests.browser.panel import account, do, fill_outbox, kept, note
from tests.stage import NOW, PIN
from tests.tally import COUNTED
from webapp.services import devices, people
from webapp.storage.event import Event
from webapp.storage.specimen import SpecimenRow

pytestmark = [pytest.mark.browser, pytest.mark.usefixtures("deeds")]


def test_the_shop_stops_and_starts_in_mid_work(secure_shop, phones, tmp_path_factory):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    panel = page.url
    note(page, "one")
    until(page, lambda: texts(stage) == ["one"])
    page.wait_for_selector(".undo")
    secure_shop.stop()
    note(page, "two")
    page.wait_for_selector("text=Kept on this phone:")
    page.goto(panel)
    do(page, "price", {"price": "19.50"})
    kept(page, 2)
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    secure_shop.stop()
    reopen(page, panel)
    note(page, "three")
    page.wait_for_selector("text=Kept on this phone:")
    do(page, "name", {"name": "Ember Crown"})
    kept(page, 2)
    secure_shop.start()
    page.goto(panel)
    wait_until_empty(page)
    account(stage, ["one", "two", "three"])
    COUNTED["tried"] += 2
    with online_twin(tmp_path_factory) as twin:
        for text in ("one", "two"):
            twin.do("note", text=text)
        twin.do("price", price="19.50")
        twin.do("note", text="three")
        twin.do("name", name="Ember Crown")
        assert ending(stage) == ending(twin.stage)


def test_answers_lost_after_the_commit_are_asked_for_again_and_change_nothing(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    expected = []
    for number in range(6):
        secure_shop.lose = number % 3
        expected.append(f"note {number}")
        note(page, expected[-1])
        until(page, lambda: set(expected) <= set(texts(stage)))
        secure_shop.lose = 0
        reopen(page)
        wait_until_empty(page)
    assert secure_shop.lost >= 4
    account(stage, expected)


def test_five_hundred_deeds_wait_and_arrive_over_lost_answers(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    secure_shop.stop()
    fill_outbox(page, stage, 500)
    page.goto(page.url)
    page.wait_for_selector("text=500 deeds not sent yet")
    secure_shop.lose = 2
    secure_shop.start()
    for _ in range(3):
        page.evaluate("rackside.flush()")
    wait_until_empty(page, 60_000)
    account(stage, [f"n{number}" for number in range(500)])


def test_the_session_ended_meanwhile_sign_in_and_go_on(secure_shop, phones):
    stage = secure_shop.stage
    with stage.database.saving() as session:
        people.add_person(session, "Ines", PIN, "staff", NOW)
    page = phones("Ines", f"/s/{stage.mother}")
    secure_shop.stop()
    note(page, "by Ines")
    page.wait_for_selector("text=Kept on this phone:")
    with stage.database.saving() as session:
        people.set_secret(session, "Ines", "735102")
    secure_shop.start()
    page.click("text=Send now")
    page.wait_for_selector("text=Sign in again")
    assert len(entries(page)) == 1
    reopen(page, f"{secure_shop.url}/sign-in?next=/stock")
    page.fill("[name=person]", "Noor")
    page.fill("[name=secret]", PIN)
    page.click("button:has-text('Sign in')")
    page.wait_for_url("**/stock")
    wait_until_empty(page)
    account(stage, ["by Ines"])
    with stage.database.reading() as session:
        assert session.scalar(select(Event.author_name).where(Event.kind == "noted")) == "Ines"


FULL = """() => { IDBObjectStore.prototype.add = () => {
  throw new DOMException("full", "QuotaExceededError"); }; }"""


def test_with_the_storage_full_nothing_is_promised_and_nothing_typed_is_lost(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    page.evaluate(FULL)
    note(page, "straight to the shop")
    until(page, lambda: texts(stage) == ["straight to the shop"])
    reopen(page, f"{secure_shop.url}/s/{stage.mother}")
    secure_shop.stop()
    page.evaluate(FULL)
    note(page, "not kept")
    page.wait_for_selector("text=Not kept: the storage of this phone is full")
    assert page.input_value("[name=note-text]") == "not kept"
    assert entries(page) == []
    secure_shop.start()
    page.click("#note button")
    until(page, lambda: len(texts(stage)) == 2)
    page.wait_for_selector(".undo")  # the page of the shop itself has come
    account(stage, ["straight to the shop", "not kept"])


def test_what_the_shop_refuses_stays_until_a_person_settles_it(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    secure_shop.stop()
    page.evaluate(
        """(subject) => rackside.addEvents([{ kind: "noted", subject_id: subject, payload: { text: "lost cause" } }],
        rackside.newId(), "About a plug that is not here")""",
        "0" * 32,
    )
    note(page, "goes on")
    page.wait_for_selector("text=Kept on this phone:")
    secure_shop.start()
    page.click("text=Send now")
    until(page, lambda: texts(stage) == ["goes on"])
    page.wait_for_selector("text=1 deed needs you")
    reopen(page, f"{secure_shop.url}/outbox")
    page.wait_for_selector("text=There is no such specimen here.")
    posts = secure_shop.posts
    page.click("text=Try again")
    until(page, lambda: secure_shop.posts == posts + 1)
    until(page, lambda: [entry["state"] for entry in entries(page)] == ["refused"])
    page.click("text=Throw it away")
    assert len(entries(page)) == 1
    page.click("text=Yes, throw it away for good")
    page.wait_for_selector("text=Nothing waits")
    account(stage, ["goes on"])


def test_undoing_what_waits_undoes_it_whether_or_not_it_had_arrived(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    secure_shop.lose = 9
    do(page, "name", {"name": "A slip"})
    page.wait_for_selector("text=Kept on this phone:")
    assert ending(stage).present["name"] == "A slip"  # it had arrived, but the phone could not know
    page.click("[data-notice] >> text=Undo")
    page.wait_for_selector("text=Undone.")
    secure_shop.lose = 0
    reopen(page, page.url)
    wait_until_empty(page)
    assert ending(stage).present["name"] == "Ember Ring"
    COUNTED["tried"] += 2


def test_a_picture_is_made_small_on_the_phone_and_waits_too(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    secure_shop.stop()
    large = io.BytesIO()
    Image.effect_noise((4032, 3024), 40).convert("RGB").save(large, "JPEG", quality=80)
    page.evaluate("document.querySelector('#photo').open = true")
    file = {"name": "rack.jpg", "mimeType": "image/jpeg", "buffer": large.getvalue()}
    page.set_input_files("[name=photo-picture]", file)
    page.click("#photo button")
    kept(page)
    [entry] = entries(page)
    [sent] = entry["item"]["form"]["files"]
    size = page.evaluate("(data) => createImageBitmap(new Blob([Uint8Array.from(atob(data), (c) => c.charCodeAt(0))]))"
                         ".then((p) => [p.width, p.height])", sent["data"])  # fmt: skip
    assert size == [2016, 1512]
    assert len(sent["data"]) < len(large.getvalue())
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    with stage.database.reading() as session:
        assert session.get(SpecimenRow, stage.mother).photo_id
    COUNTED["tried"] += 1


def test_frags_cut_without_signal_get_their_codes_at_once_and_keep_them(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}/frag")
    until_true(page, "rackside.store.kept('codes').then((kept) => Boolean(kept) && Object.keys(kept).length > 1)")
    secure_shop.stop()
    page.select_option("[name=method]", "scalpel")
    page.fill("[name=pieces]", "3")
    page.click("button:has-text('Record the session')")
    page.wait_for_selector("text=Write on the plugs")
    shown = page.inner_text("[data-notice] p").split("order: ")[1].rstrip(".").split(", ")
    secure_shop.start()
    page.click("text=Send now")
    wait_until_empty(page)
    with stage.database.reading() as session:
        born = select(SpecimenRow).where(SpecimenRow.mother_id == stage.mother).order_by(SpecimenRow.slot)
        assert [row.code for row in session.scalars(born)] == shown
    COUNTED["tried"] += 1


def test_a_wrong_clock_is_told_on_the_page(secure_shop, phones):
    page = phones(path=f"/s/{secure_shop.stage.mother}")
    # The worker, whose clock is the right one, must not be the one that sends.
    page.context.add_init_script("Object.defineProperty(ServiceWorkerRegistration.prototype, 'sync', { value: null })")
    page.context.clock.install(time=datetime.now(UTC).timestamp() + 1500)
    page.goto(page.url)
    page.evaluate("rackside.addEvents([{ kind: 'noted', subject_id: '', payload: {} }], rackside.newId(), 'x')")
    page.evaluate("rackside.sendNow()")
    page.wait_for_selector("text=The clock of this device runs 25 min ahead of the shop's")
    with secure_shop.stage.database.reading() as session:
        assert devices.devices(session)[0].skew_s == pytest.approx(1500, abs=60)


def test_the_browser_itself_sends_what_waits_with_no_page_open(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    known = []
    tools = page.context.new_cdp_session(page)
    tools.on("ServiceWorker.workerRegistrationUpdated", lambda said: known.extend(said["registrations"]))
    tools.send("ServiceWorker.enable")
    until(page, lambda: known)
    secure_shop.stop()
    note(page, "from the pocket")
    page.wait_for_selector("text=Kept on this phone:")
    page.goto("about:blank")
    secure_shop.start()
    sync = {"origin": secure_shop.url, "tag": "rackside-outbox", "lastChance": False}
    tools.send("ServiceWorker.dispatchSyncEvent", sync | {"registrationId": known[0]["registrationId"]})
    until(page, lambda: texts(stage) == ["from the pocket"])
    account(stage, ["from the pocket"])
