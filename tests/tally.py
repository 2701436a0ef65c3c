"""Deeds done without signal: how many were tried, lost, recorded twice. Told at the end of a run; two must be 0."""

from collections import Counter
from collections.abc import Iterator

import pytest

COUNTED: Counter[str] = Counter()


@pytest.fixture
def deeds(record_property) -> Iterator[None]:
    """What a test adds to COUNTED is told at the end, whichever process ran it."""
    before = Counter(COUNTED)
    yield
    record_property("deeds", dict(COUNTED - before))


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """The counts of all tests that count."""
    found: Counter[str] = Counter()
    for report in (one for reports in terminalreporter.stats.values() for one in reports):
        if getattr(report, "when", "") == "teardown":
            for name, counted in report.user_properties:
                if name == "deeds":
                    found.update(counted)
    if found:
        told = f"{found['tried']} deeds tried, {found['lost']} lost, {found['twice']} recorded twice"
        terminalreporter.write_line(f"without signal: {told}")
