"""Two languages nobody speaks: English 40 % longer with marked letters, and English in letters that run to the left.

40 % is of a whole sheet, numbers and names with it, which do not grow: sentences grow by half for that.
"""

import gettext
import re

import pytest

from webapp.words import language
from webapp.words.language import LANGUAGES, Language
from webapp.words.unbroken import Unbroken

_PLACE = re.compile(r"(%\(\w+\)[.\d]*[a-z]|%%)")
_MARKED = str.maketrans("aeiouyAEIOUcnsz", "áéíóúýÁÉÍÓÚçñšž")
_RIGHT_TO_LEFT = str.maketrans("abcdefghijklmnopqrstuvwxyz", "אבגדהוזחטיכלמנסעפצקרשתאבגד")
GROWTH = 0.505


def longer(text: str) -> str:
    """The text with marked letters and further words, GROWTH of what is written outside its places; these stay."""
    parts = _PLACE.split(text)
    written = len("".join(parts[::2]).strip())
    marked = "".join(part if number % 2 else part.translate(_MARKED) for number, part in enumerate(parts))
    more, words = round(GROWTH * written), []
    while more > 0:
        words.append("lorem"[: max(1, more - 1)])
        more -= len(words[-1]) + 1
    return f"{marked} {' '.join(words)}" if words else marked


def mirrored(text: str) -> str:
    """The text in letters of a script that is written from right to left; places stay."""
    parts = _PLACE.split(text)
    return "".join(part if number % 2 else part.lower().translate(_RIGHT_TO_LEFT) for number, part in enumerate(parts))


class Pseudo(gettext.NullTranslations):
    """A catalogue that makes its translations up."""

    def __init__(self, make) -> None:
        super().__init__()
        self._make = make

    def gettext(self, message: str) -> str:
        return self._make(message) if message != "." else message

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self._make(msgid1 if n == 1 else msgid2)


def speaking_pseudo(monkeypatch: pytest.MonkeyPatch) -> None:
    """Teach the program 'xa' (longer) and 'xb' (mirrored) for the time of a test."""
    made = {"xa": Unbroken(Pseudo(longer)), "xb": Unbroken(Pseudo(mirrored))}
    real = language.catalogue
    monkeypatch.setitem(LANGUAGES, "xa", Language("xa", "Longer"))
    monkeypatch.setitem(LANGUAGES, "xb", Language("xb", "Mirrored", "rtl"))
    monkeypatch.setattr(language, "catalogue", lambda key: made.get(key) or real(key))
