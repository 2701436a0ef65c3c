"""Runs the check of the table after the checks that fill it, and notes whether all of those were run."""

import pytest

WHOLE = pytest.StashKey[bool]()


def pytest_configure(config):
    config.stash[WHOLE] = not any("::" in argument for argument in config.args)


def pytest_deselected(items):
    if items:
        items[0].config.stash[WHOLE] = False


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items):
    items.sort(key=lambda item: item.path.name == "test_table.py")
