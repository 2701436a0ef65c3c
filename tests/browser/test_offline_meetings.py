"""Two that meet at the shop's door: two phones at the same plug, two pages of one phone. All arrives, each once."""

import pytest

from tests.browser.ending import ending, online_twin, texts
from tests.browser.offline import wait_until_empty
from tests.browser.panel import account, do, fill_outbox, kept
from tests.stage import NOW, PIN
from tests.tally import COUNTED
from webapp.services import people

pytestmark = [pytest.mark.browser, pytest.mark.usefixtures("deeds")]


def test_two_pages_that_send_at_once_without_a_lock_record_everything_once(secure_shop, phones):
    stage = secure_shop.stage
    page = phones(path=f"/s/{stage.mother}")
    page.context.add_init_script("Object.defineProperty(navigator, 'locks', { value: undefined })")
    secure_shop.stop()
    other = page.context.new_page()
    for tab in (page, other):
        tab.goto(page.url)
    fill_outbox(page, stage, 40)
    secure_shop.start()
    running = [tab.evaluate_handle("({ done: rackside.flush() })") for tab in (page, other)]
    for handle in running:
        handle.evaluate("(held) => held.done")
    wait_until_empty(page)
    account(stage, [f"n{number}" for number in range(40)])


def turns(stage):
    """What two people do at one plug, one after the other: who, which drawer, what is typed there."""
    there = f"{stage.other_tank}:{stage.other_rack}"
    return [
        ("Noor", "note", {"text": "turn 0"}),
        ("Ines", "price", {"price": "11"}),
        ("Noor", "name", {"name": "Ember Crown"}),
        ("Ines", "move", {"rack": there, "slot": "B2"}),
        ("Noor", "status", {"status": "for_sale"}),
        ("Ines", "hold", {"word": "fern", "hours": "24"}),
        ("Noor", "price", {"price": "13.50", "reason": "a new head"}),
        ("Ines", "note", {"text": "turn 1"}),
    ]


def test_two_phones_at_one_plug_end_as_if_both_had_had_signal(secure_shop, phones, tmp_path_factory):
    stage = secure_shop.stage
    with online_twin(tmp_path_factory) as twin:
        for shop in (stage, twin.stage):
            with shop.database.saving() as session:
                people.add_person(session, "Ines", PIN, "staff", NOW)
        for who, deed, typed in turns(twin.stage):
            twin.do(deed, who, **typed)
        at_once = ending(twin.stage)
    pages = {who: phones(who, f"/s/{stage.mother}") for who in ("Noor", "Ines")}
    secure_shop.stop()
    for number, (who, deed, typed) in enumerate(turns(stage)):
        do(pages[who], deed, typed)
        kept(pages[who], number // 2 + 1)
    secure_shop.start()
    for who in ("Ines", "Noor"):  # who did the last deed tells it first
        secure_shop.lose = 1
        pages[who].click("text=Send now")
        pages[who].wait_for_timeout(300)
        pages[who].evaluate("rackside.sendNow()")
        wait_until_empty(pages[who])
    account(stage, ["turn 0", "turn 1"])
    COUNTED["tried"] += 6
    assert secure_shop.lost == 2
    assert texts(stage) == ["turn 0", "turn 1"]
    assert ending(stage) == at_once
