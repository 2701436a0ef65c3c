"""Tag codes: six random symbols and a check symbol, and what a scanned or typed text says.

The check symbol follows the Luhn mod N algorithm, the extension of Luhn's method (US patent 2 950 048; ISO/IEC 7812-1
annex B for N = 10) to any even number N of symbols. It finds every single wrong symbol, and every swap of two
neighbours but that of the first with the last symbol of the alphabet (0 with Z).
"""

import re
import secrets
import unicodedata
from collections.abc import Collection
from dataclasses import dataclass
from random import Random

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # no I, L, O, U: they look like 1, 0 and V
RANDOM_SYMBOLS = 6
CODE_LENGTH = RANDOM_SYMBOLS + 1

_LOOKALIKES = str.maketrans("ILO", "110")
_LONGEST_TEXT = 2048  # no symbol that a phone reads off a tag holds more
_ADDRESS = re.compile(
    r"(?:(?P<scheme>https?)://)?(?P<host>[A-Za-z0-9.-]+)(?::[0-9]{1,5})?/(?P<path>[^?#\\@]*)(?:[?#].*)?", re.IGNORECASE
)
_SCHEME = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*://")


@dataclass(frozen=True)
class Scan:
    """What a text says: a valid `code`, or why there is none.

    `problem` is None, 'not_ours' (an address of another host, never followed), 'bad_check' (seven symbols that do not
    belong together: misread or mistyped) or 'not_a_code'.
    """

    code: str | None
    problem: str | None = None


def check_symbol(body: str, alphabet: str = ALPHABET) -> str:
    """The Luhn mod N check symbol of `body` over `alphabet` (N even). ValueError for a symbol outside the alphabet."""
    n = len(alphabet)
    total = 0
    for place, symbol in enumerate(reversed(body)):
        value = alphabet.index(symbol) * (2 if place % 2 == 0 else 1)
        total += value // n + value % n
    return alphabet[-total % n]


def new_code(random: Random = secrets.SystemRandom()) -> str:  # noqa: B008 - one stateless source for the process
    """A fresh code: one of 32**6 = 1.07e9. Whether it is taken already is for the caller to see."""
    body = "".join(random.choice(ALPHABET) for _ in range(RANDOM_SYMBOLS))
    return body + check_symbol(body)


def normalise(text: str) -> str:
    """The text as a code is written: capitals, no spaces or hyphens, I and L read as 1, O as 0."""
    kept = (c for c in unicodedata.normalize("NFKC", text) if unicodedata.category(c) not in ("Zs", "Pd", "Cc", "Cf"))
    return "".join(kept).upper().translate(_LOOKALIKES)


def is_valid(code: str) -> bool:
    """Whether `code`, exactly as written, is seven symbols of the alphabet whose check symbol agrees."""
    return _looks_like_code(code) and check_symbol(code[:-1]) == code[-1]


def parse_scan(text: str, hosts: Collection[str]) -> Scan:
    """Read a scanned or typed text. `hosts` are the shop's present and former host names, in any case, without port.

    Accepts a bare code or an http(s) address of one of the hosts, with or without port, closing slash or query.
    """
    text = text.strip()
    if len(text) > _LONGEST_TEXT:
        return Scan(None, "not_a_code")
    address = _ADDRESS.fullmatch(text)
    if address:
        ours = {host.lower().rstrip(".") for host in hosts}
        if address["host"].lower().rstrip(".") not in ours:
            return Scan(None, "not_ours")
        return _read_code(address["path"].rstrip("/"))
    if _SCHEME.match(text):
        return Scan(None, "not_ours")
    return _read_code(text)


def _read_code(text: str) -> Scan:
    code = normalise(text)
    if not _looks_like_code(code):
        return Scan(None, "not_a_code")
    return Scan(code) if is_valid(code) else Scan(None, "bad_check")


def _looks_like_code(code: str) -> bool:
    return len(code) == CODE_LENGTH and all(symbol in ALPHABET for symbol in code)
