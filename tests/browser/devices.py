"""The browser that drives the tests, and the two sizes of device that people hold up to it."""

from contextlib import suppress

from playwright.sync_api import BrowserContext, Error

CHROMIUM = "/usr/bin/chromium"
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
#: Far more than anything takes here: a busy computer must not fail a test for its slowness.
PATIENCE_MS = 30_000
PHONE = {"viewport": {"width": 360, "height": 740}, "is_mobile": True, "has_touch": True, "device_scale_factor": 2}
DESK = {"viewport": {"width": 1280, "height": 800}}


def put_away(context: BrowserContext) -> None:
    """Close it, with nothing on its way: chromium may wait for ever for a page that is being opened as it closes."""
    for page in context.pages:
        with suppress(Error):
            page.goto("about:blank", timeout=10_000)
    context.close()
