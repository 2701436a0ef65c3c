"""Languages and translations. A sentence is a whole with named places; nothing is glued from fragments.

The sentences in the code are English. Catalogues of other languages stand in `translations`: the .po files are edited,
the .mo files beside them are made from those by `python -m tests.words.catalogues`.
"""

import gettext
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from webapp.words.unbroken import Unbroken

#: Turns an English sentence into the reader's language.
Translate = Callable[[str], str]
#: A place for a number that may have a fraction: %(size)g, %(area).1f.
_FRACTION = re.compile(r"%\(\w+\)\.?\d*[fg]")
CATALOGUES = Path(__file__).parent / "translations"


@dataclass(frozen=True, slots=True)
class Language:
    """One language: its BCP 47 tag, what it calls itself, which way it is written ('ltr' or 'rtl')."""

    key: str
    own_name: str
    direction: str = "ltr"


LANGUAGES = {"en": Language("en", "English"), "de": Language("de", "Deutsch")}
#: The language of the code, and of staff pages.
SOURCE = "en"


@lru_cache
def catalogue(language: str) -> gettext.NullTranslations:
    """The catalogue of a language ('en' has none: the sentences in the code are English)."""
    return Unbroken(gettext.translation("rackside", CATALOGUES, [language], fallback=True))


def say(translate: Translate, sentence: str, **values: object) -> str:
    """The sentence in the reader's language with its places filled, fractions with the reader's decimal mark."""
    text = translate(sentence)
    if not values:
        return text
    if translate(DECIMAL) != DECIMAL and _has_fractions(text):
        text = _FRACTION.sub(lambda place: local_number(translate, place[0] % values).replace("%", "%%"), text)
    return text % values


@lru_cache(4000)
def _has_fractions(text: str) -> bool:
    return _FRACTION.search(text) is not None


def later(sentence: str) -> str:
    """Marks a sentence that is translated where it is used."""
    return sentence


#: The mark between units and tenths, as the catalogue gives it.
DECIMAL = later(".")


def local_number(translate: Translate, text: str) -> str:
    """A number written with a point, with the mark of the reader's language."""
    return text.replace(".", translate(DECIMAL))
