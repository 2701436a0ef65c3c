"""Sentences with named places, and the two ways in which one code may have several: by number, and by case."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from webapp.words.speaker import Speaker

Places = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Plural:
    """`one` where the value named `by` is 1, else `many`."""

    one: str
    many: str
    by: str


@dataclass(frozen=True, slots=True)
class Cases:
    """One sentence for each case; `case` tells which from the values."""

    case: Callable[[Mapping[str, Any]], str]
    sentences: Mapping[str, "Sentence"]


Sentence = str | Plural | Cases


def case_of(name: str) -> Callable[[Mapping[str, Any]], str]:
    """The case that a value itself names."""
    return lambda values: str(values[name])


def filled(sentence: Sentence, values: Mapping[str, Any], places: Places, speaker: Speaker) -> str:
    """The sentence in the reader's language with its places filled. A case without a sentence raises KeyError."""
    if isinstance(sentence, Cases):
        return filled(sentence.sentences[sentence.case(values)], values, places, speaker)
    if isinstance(sentence, Plural):
        number = float(values[sentence.by])
        n = 1 if number == 1 else max(2, round(number)) if number > 0 else 0
        return speaker.count(sentence.one, sentence.many, n, **places)
    return speaker.say(sentence, **places)


def every_form(sentence: Sentence) -> list[str]:
    """All English forms of a sentence."""
    if isinstance(sentence, Cases):
        return [form for one in sentence.sentences.values() for form in every_form(one)]
    return [sentence.one, sentence.many] if isinstance(sentence, Plural) else [sentence]


def finished(text: str) -> str:
    """With a capital at the start, but for pH and for numbers with their units."""
    return text if text.startswith("pH") else text[:1].upper() + text[1:]
