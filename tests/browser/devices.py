"""The browser that drives the tests, the two sizes of device that people hold up to it, and who is signed in on one."""

import re
import ssl
from contextlib import suppress
from http.cookiejar import CookieJar
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, HTTPSHandler, build_opener

from playwright.sync_api import BrowserContext, Error

from tests.stage import PIN

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


def be_signed_in(context: BrowserContext, url: str, name: str = "Noor") -> None:
    """As after the sign-in page, which has tests of its own: its form is sent without a browser, and its cookies are
    handed to the device."""
    jar = CookieJar()
    trusting = HTTPSHandler(context=ssl._create_unverified_context())
    opener = build_opener(HTTPCookieProcessor(jar), trusting)
    with opener.open(f"{url}/sign-in?person=&next=/healthz") as answer:
        page = answer.read().decode()
    token = re.search(r'name="csrf_token"[^>]*value="([^"]+)"', page)[1]
    given = urlencode({"csrf_token": token, "person": name, "secret": PIN}).encode()
    opener.addheaders = [("Referer", f"{url}/sign-in")]
    with opener.open(f"{url}/sign-in?person=&next=/healthz", given) as answer:
        assert answer.url == f"{url}/healthz"
    context.add_cookies([{"name": one.name, "value": one.value, "url": url, "httpOnly": True} for one in jar])
