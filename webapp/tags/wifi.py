"""The text of a QR symbol that joins a phone to the shop's Wi-Fi.

The form `WIFI:T:WPA;S:name;P:password;;` and its escapes are those of the open-source ZXing project's page 'Barcode
Contents', which phone cameras follow.
"""

import re

from webapp.errors import BadInput

_KEY = re.compile(r"[0-9A-Fa-f]{64}")  # IEEE 802.11: a passphrase of 8 to 63 characters, or the key in 64 digits
_SPECIAL = '\\;,:"'


def wifi_text(name: str, password: str = "", *, hidden: bool = False) -> str:
    """The join text. BadInput unless the name has 1 to 32 bytes and the password 8 to 63 characters, or none."""
    if not 1 <= len(name.encode()) <= 32:
        raise BadInput("A Wi-Fi name has 1 to 32 characters.", "name")
    phrase = 8 <= len(password) <= 63 and password.isascii() and password.isprintable()
    if password and not phrase and not _KEY.fullmatch(password):
        raise BadInput("A Wi-Fi password has 8 to 63 plain characters. Leave it empty for an open network.", "password")
    security = "WPA" if password else "nopass"
    fields = [f"T:{security}", f"S:{_escape(name)}"]
    if password:
        fields.append(f"P:{_escape(password)}")
    if hidden:
        fields.append("H:true")
    return "WIFI:" + ";".join(fields) + ";;"


def _escape(value: str) -> str:
    return "".join(f"\\{c}" if c in _SPECIAL else c for c in value)
