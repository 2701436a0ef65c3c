"""A real browser on a real shop: the app behind its own listener on loopback, Debian's chromium through Playwright."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from tests.browser import offline
from tests.browser.devices import CHROMIUM, DESK, FLAGS, PATIENCE_MS, PHONE, be_signed_in, put_away
from tests.stage import Stage
from webapp import certificates, create_app
from webapp.config import Config
from webapp.serving import open_door


@dataclass
class Shop:
    """A shop that serves. `url` has no slash at its end."""

    url: str
    stage: Stage


@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    """One chromium for the browser tests of a process. It ends with them: Playwright's event loop must not run on while
    other tests use theirs."""
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield running
        running.close()


@contextmanager
def serving(folder: Path) -> Iterator[Shop]:
    """The stage's shop on a free port of loopback; staff may sign in, as in the demo."""
    stage = Stage(folder)
    app = create_app(Config(stage.url, "a key for tests only", staff_on_public_door=True), stage.database)
    listener = open_door(app, "public", "127.0.0.1", 0)
    thread = threading.Thread(target=listener.server.serve, daemon=True)
    thread.start()
    try:
        yield Shop(f"http://127.0.0.1:{listener.port}", stage)
    finally:
        listener.server.stop()
        thread.join(5)
        stage.close()


@pytest.fixture
def shop(tmp_path) -> Iterator[Shop]:
    """A shop that serves."""
    with serving(tmp_path) as open_shop:
        yield open_shop


@pytest.fixture(scope="module")
def seen_shop(tmp_path_factory) -> Iterator[Shop]:
    """One shop for all tests of a file that only look at it."""
    with serving(tmp_path_factory.mktemp("seen")) as open_shop:
        yield open_shop


def _context(browser: Browser, size: dict, **more) -> BrowserContext:
    context = browser.new_context(**size, **more)
    context.set_default_timeout(PATIENCE_MS)
    return context


@pytest.fixture
def phone(browser: Browser) -> Iterator[Page]:
    """A phone of 360 by 740."""
    context = _context(browser, PHONE)
    yield context.new_page()
    put_away(context)


@pytest.fixture(scope="module")
def looking(browser: Browser) -> Iterator[dict[str, Page]]:
    """A phone and a desk for all tests of a file that only open pages and look."""
    contexts = {"phone": _context(browser, PHONE), "desk": _context(browser, DESK)}
    yield {name: context.new_page() for name, context in contexts.items()}
    for context in contexts.values():
        put_away(context)


@pytest.fixture
def phone_without_scripts(browser: Browser) -> Iterator[Page]:
    """The same phone with scripts off."""
    context = _context(browser, PHONE, java_script_enabled=False)
    yield context.new_page()
    put_away(context)


@pytest.fixture
def desk(browser: Browser) -> Iterator[Page]:
    """A desk of 1280 by 800."""
    context = _context(browser, DESK)
    yield context.new_page()
    put_away(context)


@pytest.fixture(scope="package")
def held(tmp_path_factory) -> certificates.Held:
    """An authority and a certificate for this computer."""
    return certificates.hold(tmp_path_factory.mktemp("authority"), ["localhost", "127.0.0.1"])


@pytest.fixture(scope="package")
def trusting(browser: Browser, held) -> Iterator[Browser]:
    """One chromium for a process that trusts the certificate."""
    started = offline.chromium(browser.browser_type, held)
    yield started
    started.close()


@pytest.fixture
def secure_shop(tmp_path, held) -> Iterator[offline.SecureShop]:
    """The stage's shop over https."""
    with offline.opened(tmp_path, held) as shop:
        yield shop


@pytest.fixture
def phones(trusting, secure_shop) -> Iterator:
    """`phones('Noor', '/do')`: a fresh phone on which that person is signed in, at that page."""
    contexts = []

    def take(name: str = "Noor", path: str = "/stock") -> Page:
        contexts.append(offline.new_phone(trusting))
        return offline.signed_in(contexts[-1], secure_shop, name, path)

    yield take
    for context in contexts:
        put_away(context)


def follow(page: Page, selector: str) -> None:
    """Press what leads to another page, or sends a form the plain way, and wait until that page is there: pages are
    read and opened only after it, since to open one while another is on its way ends both."""
    with page.expect_navigation():
        page.click(selector)


def sign_in(page: Page, shop: Shop) -> None:
    """The owner is signed in."""
    be_signed_in(page.context, shop.url)
