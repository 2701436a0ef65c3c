"""A specimen's page as staff use it without signal, and what came of it."""

from typing import Any

from playwright.sync_api import Page

from tests.browser.ending import texts
from tests.browser.offline import entries, until
from tests.stage import Stage
from tests.tally import COUNTED

FILL = """async ({ subject, count }) => { const { rackside } = window;
  for (let number = 0; number < count; number += 1) {
    const payload = { text: `n${number}`, public: false };
    await rackside.addEvents([{ kind: "noted", subject_id: subject, payload }], rackside.newId(), `n${number}`); } }"""


AT_ONCE = """(slots) => { for (const slot of slots)
  [...document.querySelectorAll("#slot-map .slot")].find((one) => one.firstChild.textContent === slot).click(); }"""


def tap_at_once(page: Page, *slots: str) -> None:
    """Tap slots of the map, faster than a disk answers."""
    page.evaluate(AT_ONCE, list(slots))


def fill_outbox(page: Page, stage: Stage, count: int) -> None:
    """Notes n0, n1, … about the mother wait on the phone."""
    page.evaluate(FILL, {"subject": stage.mother, "count": count})


def do(page: Page, deed: str, typed: dict[str, Any]) -> None:
    """Open a drawer of the page, fill it, send it."""
    page.evaluate(f"document.querySelector('#{deed}').open = true")
    for name, value in typed.items():
        field = page.locator(f"[name={deed}-{name}]")
        if field.evaluate("(one) => one.tagName") == "SELECT":
            field.select_option(value)
        else:
            field.fill(value)
    page.click(f"#{deed} form button:not([type=button])")


def note(page: Page, text: str) -> None:
    """Keep a note."""
    do(page, "note", {"text": text})


def kept(page: Page, count: int = 1) -> None:
    """Until so many wait on the phone."""
    until(page, lambda: len(entries(page)) == count)


def account(stage: Stage, expected: list[str]) -> None:
    """Count what was tried, lost and doubled; every note must be there once."""
    found = texts(stage)
    COUNTED["tried"] += len(expected)
    COUNTED["lost"] += len(set(expected) - set(found))
    COUNTED["twice"] += len(found) - len(set(found))
    assert sorted(found) == sorted(expected)
