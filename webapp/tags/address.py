"""The address printed on every label: `http://SHOP.LOCAL/7K3QXM4`. Chosen once, before the first print."""

import ipaddress
import re
from dataclasses import dataclass

from webapp.errors import BadInput
from webapp.tags.codes import CODE_LENGTH
from webapp.tags.symbol import Symbol, make_symbol

# Browsers exempt these from their warning about unencrypted pages; `.local` is RFC 6762, `.internal` was reserved by
# ICANN in 2024, `.test` is RFC 6761. `.home.arpa` (RFC 8375) is for home networks too, but was found to be treated as
# public by Chromium 156.
PRIVATE_ENDINGS = (".LOCAL", ".INTERNAL", ".LAN", ".TEST")
_NAME_PART = re.compile(r"[A-Z0-9]([A-Z0-9-]{0,61}[A-Z0-9])?")


@dataclass(frozen=True)
class LabelAddress:
    """Host and port that labels lead to. BadInput (field 'host' or 'port') when a label could not carry it."""

    host: str
    port: int | None = None

    def __post_init__(self) -> None:
        object.__setattr__(self, "host", _checked_host(self.host))
        object.__setattr__(self, "port", _checked_port(self.port))

    def url(self, code: str) -> str:
        """The text of the label's symbol: lower-case scheme, the rest in capitals, the port only where it is not 80."""
        port = f":{self.port}" if self.port else ""
        return f"http://{self.host}{port}/{code.upper()}"

    @property
    def carried(self) -> str:
        """How it is noted that a label carries this address: always with its port."""
        return f"{self.host}:{self.port or 80}"[:64]

    @property
    def notes(self) -> tuple[str, str]:
        """The notes of labels that lead here; one without a port tells only the host."""
        return self.carried, self.host

    @property
    def sample_symbol(self) -> Symbol:
        """A symbol of the version and level that every label of this address has."""
        return make_symbol(self.url("0" * CODE_LENGTH))

    @property
    def is_numeric(self) -> bool:
        """Whether the host is an IPv4 address."""
        return _is_numeric(self.host)

    @property
    def warnings(self) -> tuple[str, ...]:
        """What the shop should know before it prints this address, one sentence or two each; empty when all is well."""
        found = [_numeric_warning(self.host)] if self.is_numeric else [_name_warning(self.host)]
        symbol = self.sample_symbol
        if symbol.version > 2:
            found.append(
                f"This address needs a symbol of version {symbol.version}, {symbol.size} modules a side instead of "
                "25, so each label is larger or harder to read. A name of 10 characters or fewer, such as SHOP.LOCAL, "
                "without a port stays at 25."
            )
        if self.port:
            found.append(f"Labels will carry port {self.port}. They stop working when the app moves to another port.")
        return tuple(sentence for sentence in found if sentence)


def _checked_host(host: str) -> str:
    name = host.strip().rstrip(".").upper()
    if not name:
        raise BadInput("Enter the name that labels lead to, such as SHOP.LOCAL.", "host")
    if "/" in name or "@" in name or "?" in name:
        raise BadInput("Enter only the name, such as SHOP.LOCAL, without http:// and without slashes.", "host")
    if name.count(":") > 1 or "[" in name:
        raise BadInput("Labels cannot carry an IPv6 address. Use a name, or an address such as 192.168.1.20.", "host")
    if ":" in name:
        raise BadInput("Enter the port in its own field, the name without it.", "host")
    parts = name.split(".")
    if parts[-1].isdigit() and not _is_numeric(name):
        raise BadInput(f"'{host.strip()}' is not an address. It takes four numbers from 0 to 255.", "host")
    for part in parts:
        if not _NAME_PART.fullmatch(part):
            raise BadInput(
                f"'{host.strip()}' cannot be a name on the network: each part takes 1 to 63 letters A to Z, digits and "
                "hyphens, and neither begins nor ends with a hyphen.",
                "host",
            )
    if len(name) > 60:
        raise BadInput(f"This name has {len(name)} characters. A label takes 60 at most; 10 or fewer is best.", "host")
    return name


def _checked_port(port: int | None) -> int | None:
    if port is None or port == 80:
        return None
    if not 1 <= port <= 65535:
        raise BadInput("A port is a number from 1 to 65535. Leave it empty for port 80.", "port")
    return port


def _is_numeric(host: str) -> bool:
    try:
        ipaddress.IPv4Address(host)
    except ValueError:
        return False
    return True


def _numeric_warning(host: str) -> str:
    address = ipaddress.IPv4Address(host)
    if address.is_loopback or address.is_unspecified:
        return "A phone that opens this address looks for the shop on the phone itself. Use the computer's own address."
    if not address.is_private:
        return "This is an address of the public internet; phones on the shop's Wi-Fi may be led somewhere else."
    return "Labels stop opening if the router gives this computer another address. Reserve the address in the router."


def _name_warning(name: str) -> str:
    if "." not in name:
        return "A name of one word is not found by every phone. Add .LOCAL, or an ending that your router serves."
    if name.endswith(".LOCALHOST"):
        return "A phone that opens this name looks for the shop on the phone itself. Use a name that ends in .LOCAL."
    if name.endswith(".HOME.ARPA"):
        return "Browsers treat .home.arpa as a public name: phones may show a warning instead of the card. Use .LOCAL."
    if not name.endswith(PRIVATE_ENDINGS):
        return (
            "This looks like a name of the public internet: phones may warn about plain http or look for it "
            "outside the shop. Use a name that ends in .LOCAL unless you own this one and serve it over https."
        )
    return ""
