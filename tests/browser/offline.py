"""A shop over https whose door can be stopped, started and made to lose answers; phones that trust its authority."""

import base64
import hashlib
import re
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from playwright.sync_api import Browser, BrowserContext, BrowserType, Error, Page

from tests.browser.devices import CHROMIUM, FLAGS, PATIENCE_MS, PHONE, be_signed_in
from tests.stage import Stage
from webapp import certificates, create_app
from webapp.config import Config
from webapp.serving import Listener, close, open_door
from webapp.views.assets import make_bundle


def free_port() -> int:
    """A port that nobody has now."""
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        return trial.getsockname()[1]


@dataclass
class SecureShop:
    """The stage's shop behind its own https door on one port, also over a restart."""

    stage: Stage
    held: certificates.Held
    port: int = field(default_factory=free_port)
    lose: int = 0  # so many answers of the door are lost after the commit
    posts: int = 0
    lost: int = 0
    app: Any = None
    _listener: Listener | None = None
    _thread: threading.Thread | None = None

    @property
    def url(self) -> str:
        """Without a slash at its end."""
        return f"https://localhost:{self.port}"

    def start(self) -> None:
        """Open the door."""
        if self.app is None:
            self.app = create_app(Config(self.stage.url, "a key for tests only"), self.stage.database)
            self.app.config.update(HTTPS_PORT=self.port, AUTHORITY=self.held)
            self._more_patience()
        self._listener = open_door(
            self._losing(self.app), "staff", "127.0.0.1", self.port, self.held.certificate, self.held.key
        )
        self._thread = threading.Thread(target=self._listener.server.serve, daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Close the door, as when the computer is switched off."""
        if self._listener is not None and self._thread is not None:
            close([self._listener])
            self._thread.join(10)
            self._listener = None

    def _more_patience(self) -> None:
        """A phone goes by what it keeps when the shop takes longer than this. Here that must mean that the shop is
        stopped, and not that this computer is busy."""
        bundles = self.app.extensions["rackside_assets"]
        for name, hurries in (("worker.js", 1), ("staff.js", 3)):
            short = re.compile(r"(?<=const PATIENCE_MS = )[234]\d{3}(?=;)|(?<=AbortSignal\.timeout\()\d+(?=\))")
            patient, found = short.subn("25000", bundles[name].body.decode())
            assert found == hurries, (name, found)
            bundles[name] = make_bundle(name, patient)

    def _losing(self, app: Any) -> Any:
        """The app, whose answers to the outbox are lost `lose` times: the work is done, the phone never hears of it."""

        def answer(environ: dict[str, Any], start_response: Any) -> Any:
            at_the_door = environ["PATH_INFO"] == "/outbox" and environ["REQUEST_METHOD"] == "POST"
            self.posts += at_the_door
            if not at_the_door or self.lose <= 0:
                return app(environ, start_response)
            self.lose -= 1
            self.lost += 1
            list(app(environ, lambda *_: None))
            start_response("503 Service Unavailable", [("Content-Type", "text/plain")])
            return [b"lost"]

        return answer


def pin_of(held: certificates.Held) -> str:
    """What tells a chromium to trust this one certificate and no other that it would not trust anyway."""
    leaf = x509.load_pem_x509_certificate(held.certificate.read_bytes())
    spki = leaf.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    return f"--ignore-certificate-errors-spki-list={base64.b64encode(hashlib.sha256(spki).digest()).decode()}"


def chromium(kind: BrowserType, held: certificates.Held, *more: str) -> Browser:
    """A chromium that trusts it."""
    return kind.launch(executable_path=CHROMIUM, args=[*FLAGS, pin_of(held), *more])


def signed_in(context: BrowserContext, shop: SecureShop, name: str = "Noor", path: str = "/stock") -> Page:
    """A page of somebody who just signed in, with the worker in control."""
    context.set_default_timeout(PATIENCE_MS)
    be_signed_in(context, shop.url, name)
    page = context.new_page()
    page.goto(shop.url + path)
    page.evaluate("navigator.serviceWorker.ready.then(() => 1)")
    until_true(page, "navigator.serviceWorker.controller !== null")
    if path != "/stock":
        until_page_is_kept(page, path)
    return page


def new_phone(browser: Browser) -> BrowserContext:
    """A phone of 360 by 740 with nothing on it."""
    return browser.new_context(**PHONE)


@contextmanager
def opened(folder: Path, held: certificates.Held) -> Iterator[SecureShop]:
    """The shop, open; closed afterwards."""
    shop = SecureShop(Stage(folder), held)
    shop.start()
    try:
        yield shop
    finally:
        shop.stop()
        shop.stage.close()


WAITING = """async () => (await indexedDB.databases()).some((one) => one.name === 'rackside')
  && new Promise((done, failed) => { const open = indexedDB.open('rackside'); open.onerror = failed;
  open.onsuccess = () => { const all = open.result.transaction('outbox').objectStore('outbox').getAll();
    all.onsuccess = () => { done(all.result); open.result.close(); }; }; })"""


def entries(page: Page) -> list[dict[str, Any]]:
    """What waits on the phone, read from its disk."""
    return page.evaluate(WAITING) or []


def reopen(page: Page, address: str = "") -> None:
    """Open the page anew; it may be on its way somewhere by itself, which comes first."""
    for _ in range(20):
        try:
            page.goto(address or page.url)
            return
        except Error:
            page.wait_for_timeout(200)
    raise AssertionError("the page does not come to rest")


def until(page: Page, condition: Any, seconds: float = PATIENCE_MS / 1000) -> None:
    """Until the condition holds, looked at twenty times a second. A page that is asked while it gives way to the next
    one cannot answer and is asked again."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        try:
            if condition():
                return
        except Error as error:
            if "context was destroyed" not in str(error):
                raise
        page.wait_for_timeout(50)
    raise AssertionError("it did not come to that in time")


def until_true(page: Page, script: str) -> None:
    """Until the script, or what it promises, is true. Playwright's `wait_for_function` takes a promise itself for true,
    and what is not true at once it asks again in a way that the policy of the pages forbids."""
    until(page, lambda: page.evaluate(script))


def until_page_is_kept(page: Page, path: str) -> None:
    """Until the phone opens that page without signal."""
    until_true(page, f"caches.open('rackside-pages').then((pages) => pages.match('{path}')).then(Boolean)")


def wait_until_empty(page: Page, timeout_ms: int = PATIENCE_MS) -> None:
    """Until everything is in the shop."""
    until(page, lambda: not entries(page), timeout_ms / 1000)
