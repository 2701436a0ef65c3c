"""This computer's own addresses."""

import socket
from types import SimpleNamespace

from webapp import addresses


def adapter(name, *ips):
    return SimpleNamespace(
        nice_name=name,
        ips=[SimpleNamespace(ip=ip, is_IPv4=isinstance(ip, str)) for ip in ips],
    )


def test_only_what_a_phone_can_reach_is_offered_and_private_addresses_come_first(monkeypatch):
    found = [
        adapter("lo", "127.0.0.1", ("::1", 0, 0)),
        adapter("docker0", "172.17.0.1"),
        adapter("wlan0", "192.168.1.20", "169.254.3.4", ("fe80::1%wlan0", 0, 2)),
        adapter("eth0", "198.51.100.4", "10.0.0.5"),
    ]
    monkeypatch.setattr(addresses.ifaddr, "get_adapters", lambda: found)
    assert addresses.lan_addresses() == ["10.0.0.5", "192.168.1.20", "198.51.100.4"]
    assert {"192.168.1.20", "172.17.0.1", "fe80::1", "::1", "localhost"} <= addresses.own_names()


def test_the_name_of_this_computer_is_its_own():
    name = socket.gethostname().split(".")[0].lower()
    assert {name, f"{name}.local"} <= addresses.own_names()
