"""The label address: what it may be, what it warns of."""

import pytest

from webapp.errors import BadInput
from webapp.tags.address import LabelAddress


def test_the_address_is_written_as_labels_carry_it():
    assert LabelAddress("shop.local").url("7k3qxm4") == "http://SHOP.LOCAL/7K3QXM4"
    assert LabelAddress(" Shop.Local. ", 80).url("7K3QXM4") == "http://SHOP.LOCAL/7K3QXM4"
    assert LabelAddress("shop.local", 8000).url("7K3QXM4") == "http://SHOP.LOCAL:8000/7K3QXM4"


@pytest.mark.parametrize("host", ["shop.local", "A.LOCAL", "10.0.0.5", "reef.lan"])
def test_a_good_short_address_keeps_the_small_symbol(host):
    address = LabelAddress(host)
    assert (address.sample_symbol.version, address.sample_symbol.level) == (2, "Q")
    assert address.is_numeric or address.warnings == ()


@pytest.mark.parametrize(
    ("host", "port", "words"),
    [
        ("frags.local", None, ["version 3"]),
        ("192.168.1.20", None, ["Reserve the address", "version 3"]),
        ("shop.local", 8000, ["version 3", "port 8000"]),
        ("shop", None, ["one word"]),
        ("a.home.arpa", None, [".home.arpa", "version 3"]),
        ("reef.com", None, ["public internet"]),
        ("8.8.8.8", None, ["public internet"]),
        ("127.0.0.1", None, ["the phone itself"]),
        ("x.localhost", None, ["the phone itself"]),
    ],
)
def test_an_address_that_will_disappoint_says_so(host, port, words):
    warnings = LabelAddress(host, port).warnings
    for word in words:
        assert any(word in sentence for sentence in warnings), (word, warnings)


@pytest.mark.parametrize(
    ("host", "words"),
    [
        ("", "Enter the name"),
        ("http://shop.local/", "without http://"),
        ("shop.local:8000", "its own field"),
        ("fe80::1", "IPv6"),
        ("shop_1.local", "hyphens"),
        ("-shop.local", "hyphen"),
        ("shop..local", "each part"),
        ("my shop.local", "each part"),
        ("korallenladenmünchen.local", "letters A to Z"),
        ("192.168.1.300", "0 to 255"),
        ("192.168.1", "four numbers"),
        ("a" * 64 + ".local", "1 to 63"),
        (f"{'a' * 50}.{'b' * 10}.local", "60 at most"),
    ],
)
def test_a_host_that_no_label_can_carry_is_refused_with_a_reason(host, words):
    with pytest.raises(BadInput, match=words) as caught:
        LabelAddress(host)
    assert caught.value.field == "host"


@pytest.mark.parametrize("port", [0, -1, 65536])
def test_a_port_out_of_range_is_refused(port):
    with pytest.raises(BadInput, match="1 to 65535") as caught:
        LabelAddress("shop.local", port)
    assert caught.value.field == "port"
