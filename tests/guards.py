"""What holds for every test: no network but this computer's own, nothing skipped in CI, a file stays in one process."""

import ipaddress
import os
import socket
from collections.abc import Iterator
from typing import Any

import pytest

IN_CI = os.environ.get("CI", "").lower() == "true"
#: Multicast DNS (RFC 6762); its tests bind to loopback only, so nothing of it leaves the computer.
MULTICAST_DNS = ("224.0.0.251", "ff02::fb")


class NetworkRefused(RuntimeError):
    """A test tried to reach another computer."""


def is_own(address: Any) -> bool:
    """Whether a socket address is on this computer: loopback, a path, or multicast DNS."""
    if not isinstance(address, tuple):
        return True
    host = str(address[0]).split("%")[0]
    if host in ("localhost", "", *MULTICAST_DNS):
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def _guarded(method: str) -> Any:
    plain = getattr(socket.socket, method)

    def guarded(self: socket.socket, *args: Any) -> Any:
        address = args[-1]
        if self.family in (socket.AF_INET, socket.AF_INET6) and not is_own(address):
            raise NetworkRefused(f"a test tried to reach {address!r}")
        return plain(self, *args)

    return guarded


def pytest_configure(config: pytest.Config) -> None:
    """Close the network for this process."""
    for method in ("connect", "connect_ex", "sendto"):
        setattr(socket.socket, method, _guarded(method))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Keep a file's tests in one process, and the reference checks together: they fill one table."""
    for item in items:
        folder = item.path.parent.name
        item.add_marker(pytest.mark.xdist_group("reference" if folder == "reference" else str(item.path)))


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Iterator[None]:
    """In CI a skipped test, or one expected to fail, is a failure."""
    report = yield
    return _no_skip(report)


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector: pytest.Collector) -> Iterator[None]:
    """In CI a file that skips itself is a failure."""
    report = yield
    return _no_skip(report)


def _no_skip(report: Any) -> Any:
    if IN_CI and (report.skipped or hasattr(report, "wasxfail")):
        report.longrepr = f"skipped or expected to fail, which CI does not accept: {report.longrepr}"
        report.outcome = "failed"
        if hasattr(report, "wasxfail"):
            del report.wasxfail
    return report
