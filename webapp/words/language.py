"""Translations. A sentence is a whole with named places; nothing is glued from fragments."""

import gettext
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path

#: Turns an English sentence into the reader's language.
Translate = Callable[[str], str]
CATALOGUES = Path(__file__).parent / "translations"


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
