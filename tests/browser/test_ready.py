"""The page that says whether a phone is ready asks the browser itself: its promise of storage, worker and trust."""

import pytest

from tests.browser.devices import CHROMIUM, FLAGS, PHONE
from tests.browser.offline import pin_of, until

pytestmark = pytest.mark.browser


@pytest.fixture
def lasting(browser, held, tmp_path):
    """A page of a browser with a profile of its own on the disk: only such a one promises storage."""
    flags = [*FLAGS, pin_of(held)]
    context = browser.browser_type.launch_persistent_context(
        tmp_path / "profile", executable_path=CHROMIUM, args=flags, **PHONE
    )
    yield context.new_page()
    context.close()


def said(page, check):
    return page.inner_text(f"[data-check='{check}'] [data-said]")


def test_the_promise_of_storage_is_the_browsers_own(secure_shop, lasting):
    lasting.goto(f"{secure_shop.url}/ready")
    lasting.wait_for_selector("text=Not ready yet. Missing: storage.")
    assert said(lasting, "storage").startswith("not promised yet")
    assert lasting.evaluate("navigator.storage.persisted()") is False
    tools = lasting.context.new_cdp_session(lasting)  # what a browser decides by itself once the app is kept
    tools.send("Browser.grantPermissions", {"origin": secure_shop.url, "permissions": ["durableStorage"]})
    lasting.click("#look-again")
    lasting.wait_for_selector("text=This phone is ready.")
    assert said(lasting, "storage") == "yes"
    assert lasting.evaluate("navigator.storage.persisted()") is True


def test_a_profile_that_is_thrown_away_promises_nothing_and_the_page_says_so(secure_shop, phones):
    page = phones(path="/do")
    page.goto(f"{secure_shop.url}/ready")
    page.wait_for_selector("text=Not ready yet. Missing: storage.")
    until(page, lambda: said(page, "worker") == "yes")
    secure_shop.stop()
    page.goto(f"{secure_shop.url}/do")  # what the worker's line promises
    page.wait_for_selector("text=As kept on this phone")
