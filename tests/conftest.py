"""Shared by all tests: the guards, and an open shop."""

import pytest

from tests.stage import Stage

pytest_plugins = ["tests.guards"]


@pytest.fixture
def stage(tmp_path):
    """A small invented shop in a database of its own."""
    made = Stage(tmp_path)
    yield made
    made.close()
