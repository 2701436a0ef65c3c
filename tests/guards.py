"""What holds for every test: no network but this computer's own, nothing skipped in CI, a file stays in one process."""

import ipaddress
import os
import socket
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import settings
from xdist.scheduler import LoadScopeScheduling

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
    """Close the network for this process; a busy computer must not fail a law for its slowness."""
    config.addinivalue_line("markers", "long: many trials or much waiting; left out by --quick")
    settings.register_profile("quick", deadline=None, max_examples=25)
    if not IN_CI:  # in CI hypothesis has a profile of its own: no deadline, the same examples each time
        settings.register_profile("rackside", deadline=None)
        settings.load_profile("rackside")
    for method in ("connect", "connect_ex", "sendto"):
        setattr(socket.socket, method, _guarded(method))


def pytest_itemcollected(item: pytest.Item) -> None:
    """What stands in tests/browser needs one."""
    if item.path.parent.name == "browser":
        item.add_marker("browser")


#: Folders whose files stay together: the reference checks fill one table, those of the demo share its long seeding.
TOGETHER = ("tests/reference", "tests/demo")


class ByFile(LoadScopeScheduling):
    """Hands whole files to the processes, in order; what stays together goes to one process."""

    def _split_scope(self, nodeid: str) -> str:
        file = nodeid.split("::", 1)[0]
        folder = file.rsplit("/", 1)[0]
        return folder if folder.endswith(TOGETHER) else file


def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> ByFile:
    """The scheduler of this suite."""
    return ByFile(config, log)


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
