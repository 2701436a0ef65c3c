"""The `.local` name over multicast DNS on loopback: asked for first, announced, taken back."""

import socket
import struct

import pytest
from zeroconf import Zeroconf

from webapp import announce

pytestmark = pytest.mark.long

LOOPBACK = ["127.0.0.1"]


@pytest.fixture
def neighbour():
    """Another computer on the same network, as far as multicast DNS can tell."""
    other = Zeroconf(interfaces=LOOPBACK)
    yield other
    other.close()


def _answers(name):
    """Ask for an A record with a query written by hand (RFC 1035, 4.1) to the multicast group (RFC 6762), no library.

    Returns the addresses in the answers to a one-shot query from a port other than 5353 (RFC 6762, 5.1).
    """
    question = b"".join(bytes([len(part)]) + part.encode() for part in name.split(".")) + b"\0"
    query = struct.pack("!6H", 7, 0, 1, 0, 0, 0) + question + struct.pack("!2H", 1, 1)
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as one:
        one.setsockopt(socket.IPPROTO_IP, socket.IP_MULTICAST_IF, socket.inet_aton("127.0.0.1"))
        one.bind(("127.0.0.1", 0))
        one.settimeout(1)
        one.sendto(query, ("224.0.0.251", 5353))
        try:
            answer = one.recv(9000)
        except TimeoutError:
            return []
    found, count = [], struct.unpack("!H", answer[6:8])[0]
    marker = struct.pack("!2H", 1, 1)
    at = answer.find(marker, 12 + len(question) + 4)
    while at >= 0 and len(found) < count:
        found.append(socket.inet_ntoa(answer[at + 10 : at + 14]))
        at = answer.find(marker, at + 14)
    return found


def test_a_free_name_is_announced_answers_in_either_case_and_is_taken_back():
    announced = announce.announce("CORALS.LOCAL", 8000, ["192.0.2.20"], LOOPBACK)
    try:
        assert announced.problem == ""
        assert _answers("corals.local") == ["192.0.2.20"]
        assert _answers("CORALS.LOCAL") == ["192.0.2.20"]
    finally:
        announced.close()
    assert _answers("corals.local") == []


def test_a_name_that_another_computer_answers_to_is_refused_with_its_address(neighbour):
    neighbour.register_service(announce._service("corals.local", 80, ["192.0.2.66"]))
    announced = announce.announce("CORALS.LOCAL", 8000, ["192.0.2.20"], LOOPBACK)
    announced.close()
    assert "CORALS.LOCAL is taken" in announced.problem
    assert "192.0.2.66" in announced.problem
    assert _answers("corals.local") == ["192.0.2.66"]


def test_a_name_that_this_computers_own_system_announces_is_left_to_it(neighbour):
    neighbour.register_service(announce._service("corals.local", 80, ["192.0.2.20"]))
    announced = announce.announce("CORALS.LOCAL", 8000, ["192.0.2.20"], LOOPBACK)
    announced.close()
    assert announced.problem == ""


@pytest.mark.parametrize("host", ["192.168.1.20", "SHOP.LAN", "SHOP"])
def test_only_local_names_are_announced(host):
    assert announce.announce(host, 80, ["192.0.2.20"], LOOPBACK) == announce.Announcement(host)


def test_a_computer_in_no_network_says_so():
    assert "in no network" in announce.announce("SHOP.LOCAL", 80, []).problem
