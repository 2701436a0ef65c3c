"""Fixtures of the shop over https and of phones that trust it."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from tests.browser import offline
from tests.browser.conftest import put_away
from webapp import certificates


@pytest.fixture(scope="module")
def held(tmp_path_factory) -> certificates.Held:
    """An authority and a certificate for this computer."""
    return certificates.hold(tmp_path_factory.mktemp("authority"), ["localhost", "127.0.0.1"])


@pytest.fixture(scope="module")
def trusting(browser: Browser, held) -> Iterator[Browser]:
    """A chromium that trusts the certificate."""
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
