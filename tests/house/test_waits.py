"""Browser tests wait for what they say: Playwright's `wait_for_function` takes a promise itself for true."""

import re

from tests.house.project import ROOT

PROMISED = re.compile(r"wait_for_function\((?:[^()]|\([^()]*\))*?(?:\.then\(|\basync\b|\bawait\b)")


def test_nobody_waits_for_a_promise_that_way():
    found = [path.name for path in (ROOT / "tests").rglob("*.py") if PROMISED.search(path.read_text("utf-8"))]
    assert found == []


def test_the_rule_bites():
    assert PROMISED.search("page.wait_for_" + "function(\"caches.open('a').then(Boolean)\")")
    assert not PROMISED.search("page.wait_for_" + "function(\"window.there\")\nasync def other(): pass")
