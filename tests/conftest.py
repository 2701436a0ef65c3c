"""Shared by all tests: the guards, an open shop, PINs that are quick to check, templates compiled once a process."""

import gc
from functools import partial

import pytest
from cheroot.server import HTTPServer
from werkzeug.security import generate_password_hash

from tests.compiled import compile_once
from tests.stage import Stage
from webapp.services import people

pytest_plugins = ["tests.guards", "tests.tally"]
#: A hash that costs a thirtieth of the real one, whose cost tests.services.test_people checks.
QUICK_HASH = "scrypt:1024:8:1"


def pytest_configure(config: pytest.Config) -> None:
    """Before any test makes an app."""
    compile_once()
    people.generate_password_hash = partial(generate_password_hash, method=QUICK_HASH)
    HTTPServer.expiration_interval = 0.05  # seconds between looks at whether it should stop; tests stop many


def pytest_collection_finish() -> None:
    """What was loaded stays: looking through it for rubbish again and again would take a twelfth of the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(20_000, 20, 50)


@pytest.fixture
def stage(tmp_path):
    """A small invented shop in a database of its own."""
    made = Stage(tmp_path)
    yield made
    made.close()
