"""Announces the shop's `.local` name by multicast DNS (RFC 6762), after asking whether somebody else has it.

zeroconf probes for the name of the service, not for the name of the host: without asking, two computers would both
answer to the same host name.
"""

import socket
from dataclasses import dataclass

from zeroconf import AddressResolverIPv4, InterfaceChoice, ServiceInfo, Zeroconf
from zeroconf import Error as ZeroconfError

ASK_FOR_MS = 1500


@dataclass(slots=True)
class Announcement:
    """What came of announcing. problem: a sentence for the shop, '' when all is well."""

    host: str
    problem: str = ""
    _zeroconf: Zeroconf | None = None

    def close(self) -> None:
        """Take the name back, so that phones forget it at once."""
        if self._zeroconf is not None:
            self._zeroconf.close()
            self._zeroconf = None


def announce(host: str, port: int, addresses: list[str], interfaces: list[str] | None = None) -> Announcement:
    """Announce host ('SHOP.LOCAL') at these IPv4 addresses, unless another computer answers to it.

    Never raises for what the network does: the outcome is in the answer. interfaces: only these own addresses speak
    (all, when None).
    """
    name = host.lower().rstrip(".")
    if not name.endswith(".local"):
        return Announcement(host)
    if not addresses:
        return Announcement(host, f"{host} was not announced: this computer is in no network.")
    try:
        zeroconf = Zeroconf(interfaces=interfaces or InterfaceChoice.All)
    except OSError as error:
        return Announcement(host, f"{host} could not be announced: {error.strerror or error}.")
    try:
        holders = who_answers(zeroconf, name)
        others = holders - set(addresses)
        if others:
            zeroconf.close()
            return Announcement(host, _taken(host, others))
        if holders:  # this computer's own name: its system announces it already
            zeroconf.close()
            return Announcement(host)
        zeroconf.register_service(_service(name, port, addresses))
    except (ZeroconfError, OSError) as error:
        zeroconf.close()
        return Announcement(host, f"{host} could not be announced: {error or type(error).__name__}.")
    return Announcement(host, "", zeroconf)


def who_answers(zeroconf: Zeroconf, name: str) -> set[str]:
    """The IPv4 addresses that answer to `name` ('shop.local') on this network now."""
    resolver = AddressResolverIPv4(f"{name}.")
    resolver.request(zeroconf, ASK_FOR_MS)
    return set(resolver.parsed_addresses())


def _taken(host: str, others: set[str]) -> str:
    return (
        f"{host} is taken: another computer at {', '.join(sorted(others))} answers to that name, so it was not "
        "announced here. Tags would lead there. Give that computer another name, or stop the other program."
    )


def _service(name: str, port: int, addresses: list[str]) -> ServiceInfo:
    return ServiceInfo(
        "_http._tcp.local.",
        f"Rackside at {name.removesuffix('.local')}._http._tcp.local.",
        addresses=[socket.inet_aton(address) for address in addresses],
        port=port,
        server=f"{name}.",
    )
