"""The first page of an empty shop, as whoever opens it meets it."""

import re
from types import SimpleNamespace

import pytest

from tests.shop_client import Visitor
from webapp.services.readings import LOGGED
from webapp.storage.database import Database
from webapp.storage.migrating import upgrade


@pytest.fixture
def empty(tmp_path):
    """A database without anybody in it."""
    url = f"sqlite:///{tmp_path / 'empty.sqlite'}"
    upgrade(url)
    database = Database(url)
    shop = SimpleNamespace(url=url, database=database, at_close=[])
    yield shop
    for ending in shop.at_close:
        ending()
    database.close()


def test_an_empty_shop_begins_with_the_computers_own_time_zone_and_leads_to_the_first_tank(empty, monkeypatch):
    monkeypatch.setenv("TZ", ":Pacific/Auckland")
    owner = Visitor(empty).open("/set-up")
    assert '<option value="Pacific/Auckland" selected>' in owner.page
    units = owner.find(r"<summary>Units you usually type</summary>(.*?)</details>")
    assert len(re.findall("<select", units)) == len(LOGGED)
    assert "Temperature" in units and ">temp<" not in units
    owner.send("/set-up", person="Ida", secret="739164", name="First Light")
    assert owner.path == "/tanks"
    assert "Add a tank first" in owner.text
    assert '<option value="Pacific/Auckland" selected>' in owner.open("/settings").page
    owner.open("/tanks/new").send("/tanks/new", name="Only Tank", purpose="display")
    assert "Next: a rack in it, or what lives there." in owner.text
    assert Visitor(empty).open("/set-up").status == 404


def test_a_pin_that_is_too_short_keeps_what_was_typed(empty):
    owner = Visitor(empty).open("/set-up").send("/set-up", person="Ida", secret="12", name="First Light")
    assert owner.path == "/set-up" and 'value="First Light"' in owner.page and "6" in owner.text
