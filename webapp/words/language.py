"""Languages and translations. A sentence is a whole with named places; nothing is glued from fragments.

The sentences in the code are English. Catalogues of other languages stand in `translations`: the .po files are edited,
the .mo files beside them are made from those by `python -m tests.words.catalogues`.
"""

import gettext
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

#: Turns an English sentence into the reader's language.
Translate = Callable[[str], str]
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
    return gettext.translation("rackside", CATALOGUES, [language], fallback=True)


def say(translate: Translate, sentence: str, **values: object) -> str:
    """The sentence in the reader's language with its places filled."""
    return translate(sentence) % values if values else translate(sentence)


def later(sentence: str) -> str:
    """Marks a sentence that is translated where it is used."""
    return sentence


#: The mark between units and tenths, as the catalogue gives it.
DECIMAL = later(".")


def local_number(translate: Translate, text: str) -> str:
    """A number written with a point, with the mark of the reader's language."""
    return text.replace(".", translate(DECIMAL))
