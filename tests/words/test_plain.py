"""What customers read is in words: numbers and choices too, abbreviations only beside their meaning, in each language.

After the plain-language rules of public bodies (write 'or', not a slash; no abbreviation without its meaning), from
memory. Units are those of the International System and of this trade's test kits.
"""

import re

import pytest

from tests.words.catalogues import read, template
from webapp.schemas.profiles import load_profiles
from webapp.words.language import LANGUAGES, SOURCE

#: Written with a slash by the rules of their fields.
_SLASHED = re.compile(r"\b(?:mg|meq)/L|\bcm/s|µmol/(?:m²/s|kg|L)|mol/m²|mS/cm|\b\d\d/\d\d °[CF]|plus/minus")
_PLACES = re.compile(r"%\(\w+\)[.\d]*[a-z]|%%")
#: '1-2x', '3-7 times', 'plankton/powdered', abbreviations that a reader must guess.
_RAW = (
    re.compile(r"\d\s?x\b"),
    re.compile(r"\d-\d"),
    re.compile(r"\w/\w"),
    re.compile(r"\b(?:e\.\s?g|i\.\s?e|incl|approx|resp|max|z\.\s?B|bzw|inkl|usw|evtl|ggf|ca|vgl)\."),
    re.compile(r"\b(?:SPS|LPS|RODI|RO|ATO|DKH|KH|GFO|FOWLR)\b"),
    re.compile(r"(?<!\()\bPAR\b(?! meter \(it counts|-Messgerät \(es zählt)"),
)


def raw(text: str) -> list[str]:
    """What in a sentence is notation, not words."""
    plain = _SLASHED.sub("", _PLACES.sub("", text))
    return [found[0] for pattern in _RAW for found in pattern.finditer(plain)]


@pytest.mark.parametrize("text", ["food 1-2x a week", "plankton/flakes", "SPS corals", "e.g. shrimps", "a PAR of 90"])
def test_notation_is_found(text):
    assert raw(text)


@pytest.mark.parametrize("text", ["8 mg/L", "10 cm/s", "light (PAR)", "2 to 4 times a week", "2- bis 4-mal"])
def test_words_and_units_are_not(text):
    assert raw(text) == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_sentence_that_customers_read_is_in_words(language):
    catalogue = template() if language == SOURCE else read(language)
    told = [message.id if language == SOURCE else message.string for message in catalogue if message.id]
    sentences = [one for said in told for one in (said if isinstance(said, tuple) else (said,))]
    assert [(one, found) for one in sentences if (found := raw(one))] == []


@pytest.mark.parametrize("key", load_profiles())
def test_what_a_kind_eats_and_how_it_hurts_is_in_words(key):
    kind = load_profiles()[key]
    for text in (kind.trade_name, kind.feeding, kind.toxicity_note):
        assert raw(text) == []
