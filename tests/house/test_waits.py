"""Browser tests wait for what they say. Playwright's `wait_for_function` takes a promise itself for true, and what is
not true at once it evaluates in a way that the policy of our pages forbids: `until_true` is for that."""

from tests.house.project import ROOT


def test_nobody_waits_by_a_function():
    call = "wait_for_" + "function("
    assert [path.name for path in (ROOT / "tests").rglob("*.py") if call in path.read_text("utf-8")] == []
