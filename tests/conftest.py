"""Shared by all tests: the guards, an open shop, and templates that are compiled once a process."""

import pytest
from cheroot.server import HTTPServer

from tests.compiled import compile_once
from tests.stage import Stage

pytest_plugins = ["tests.guards", "tests.tally"]


def pytest_configure(config: pytest.Config) -> None:
    """Before any test makes an app."""
    compile_once()
    HTTPServer.expiration_interval = 0.05  # seconds between looks at whether it should stop; tests stop many


@pytest.fixture
def stage(tmp_path):
    """A small invented shop in a database of its own."""
    made = Stage(tmp_path)
    yield made
    made.close()
