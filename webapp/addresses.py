"""What this computer is called on the shop's network."""

import ipaddress
import socket

import ifaddr

#: Bridges and tunnels of containers and virtual machines; no phone reaches these.
_INNER = ("docker", "br-", "veth", "virbr", "vboxnet", "vmnet", "tun", "tap", "wg", "lo")


def lan_addresses() -> list[str]:
    """The IPv4 addresses at which phones in the shop may reach this computer; private ones first, loopback left out."""
    found = {
        str(ip.ip)
        for adapter in ifaddr.get_adapters()
        if not adapter.nice_name.lower().startswith(_INNER)
        for ip in adapter.ips
        if ip.is_IPv4 and _is_reachable(str(ip.ip))
    }
    return sorted(found, key=lambda text: (not ipaddress.IPv4Address(text).is_private, ipaddress.IPv4Address(text)))


def own_names() -> set[str]:
    """Every host that means this computer itself, lower case: loopback, its addresses, its name, also in `.local`."""
    name = socket.gethostname().lower()
    plain = name.split(".")[0]
    return {"localhost", "127.0.0.1", "::1", name, plain, f"{plain}.local", *_all_addresses()}


def _all_addresses() -> set[str]:
    return {
        str(ip.ip) if ip.is_IPv4 else str(ip.ip[0]).split("%")[0].lower()
        for adapter in ifaddr.get_adapters()
        for ip in adapter.ips
    }


def _is_reachable(text: str) -> bool:
    address = ipaddress.IPv4Address(text)
    return not (address.is_loopback or address.is_link_local or address.is_unspecified)
