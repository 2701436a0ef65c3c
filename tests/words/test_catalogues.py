"""Catalogues hold every sentence that customers read, with the same places, and the packed files are made from them."""

import gettext
import re
from io import BytesIO

import pytest
from babel.messages.catalog import Message
from babel.plural import PluralRule

from tests.words import catalogues
from webapp.words.language import LANGUAGES, SOURCE, catalogue
from webapp.words.unbroken import unbroken

OTHERS = [key for key in LANGUAGES if key != SOURCE]
_PLACE = re.compile(r"%\((\w+)\)([.\d]*[a-z])|%%")


def forms(message: Message) -> list[tuple[str, str]]:
    """(English, translation) of each form; a singular that needs no number stands beside the English singular."""
    ids = message.id if isinstance(message.id, list | tuple) else [message.id]
    strings = message.string if isinstance(message.string, list | tuple) else [message.string]
    return list(zip(ids, strings, strict=True))


def key_of(message: Message) -> str | tuple[str, ...]:
    return message.id if isinstance(message.id, str) else tuple(message.id)


def sentences(language: str) -> list[Message]:
    return [message for message in catalogues.read(language) if message.id]


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_is_translated_and_none_is_left_over(language):
    wanted = {key_of(message) for message in catalogues.template() if message.id}
    found = {key_of(message) for message in sentences(language)}
    assert found == wanted, "run python -m tests.words.catalogues"
    assert catalogues.missing(catalogues.read(language)) == []
    assert not [message.id for message in sentences(language) if message.fuzzy]


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_has_the_places_of_its_sentence_and_can_be_filled(language):
    for message in sentences(language):
        for english, translated in forms(message):
            here, there = set(_PLACE.findall(english)), set(_PLACE.findall(translated))
            assert {name for name, _ in here} == {name for name, _ in there}, english
            if here:
                values = {name: 2.5 if kind[-1] in "gfd" else "x" for name, kind in here if name}
                assert translated % values


@pytest.mark.parametrize("language", OTHERS)
def test_the_packed_file_says_what_the_edited_one_says(language):
    packed = gettext.GNUTranslations(BytesIO(catalogues.packed(catalogues.read(language))))
    for message in sentences(language):
        if isinstance(message.id, str):
            assert catalogue(language).gettext(message.id) == unbroken(packed.gettext(message.id))
        else:
            for number in (0, 1, 2, 5):
                said = unbroken(packed.ngettext(*message.id, number))
                assert catalogue(language).ngettext(*message.id, number) == said


@pytest.mark.parametrize("language", OTHERS)
def test_plurals_go_by_the_rule_of_the_language(language):
    """Unicode CLDR's plural rules, as Babel carries them."""
    from babel import Locale

    rule: PluralRule = Locale.parse(language).plural_form
    for number in range(130):
        told = catalogue(language).ngettext("%(num)d day", "%(num)d days", number)
        one = catalogue(language).ngettext("%(num)d day", "%(num)d days", 1)
        assert (told == one) == (rule(number) == "one")


@pytest.mark.parametrize("language", OTHERS)
def test_dates_and_decimals_are_those_of_the_language(language):
    """Unicode CLDR as Babel carries it: the decimal mark, and the names of months."""
    from datetime import date

    from babel.dates import get_month_names
    from babel.numbers import get_decimal_symbol

    from webapp.words.dates import long_day
    from webapp.words.language import DECIMAL

    translate = catalogue(language).gettext
    assert translate(DECIMAL) == get_decimal_symbol(language)
    for month in range(1, 13):
        assert get_month_names("abbreviated", locale=language)[month] in long_day(translate, date(2026, month, 3))


def test_what_is_no_plain_sentence_cannot_be_marked():
    with pytest.raises(ValueError, match="plain sentence"):
        list(catalogues.in_code("later(name)"))


def test_pairs_are_found_where_they_are_told_and_not_twice():
    code = 'Plural(later("a"), later("b"), "n")\nspeaker.count(later("c"), later("d"), 2)\nlater("e")'
    found = list(catalogues.in_code(code))
    assert sorted(map(str, found)) == ["('a', 'b')", "('c', 'd')", "e"]
