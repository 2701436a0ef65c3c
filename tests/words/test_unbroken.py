"""A number and its unit are not parted: the SI brochure (9th edition, 5.4.3) has a space between them."""

import pytest

from tests.words.catalogues import read
from tests.words.making import speaker
from webapp.words.language import LANGUAGES, SOURCE, catalogue
from webapp.words.unbroken import NO_BREAK, unbroken


@pytest.mark.parametrize(
    ("sentence", "kept"),
    [
        ("a device (30 mA), unplug", "a device (30~mA), unplug"),
        ("%(size)s mm and more", "%(size)s~mm and more"),
        ("%(share)s %% of %(n)s", "%(share)s~%% of %(n)s"),
        ("%(day)s %(month)s %(year)s", "%(day)s~%(month)s %(year)s"),
        ("%(day)s. %(month)s", "%(day)s.~%(month)s"),
        ("SG %(number)s", "SG~%(number)s"),
        ("%(name)s grows in %(days)s days", "%(name)s grows in %(days)s days"),
        ("%(n)s mushrooms, %(n)s goniopora", "%(n)s mushrooms, %(n)s goniopora"),
    ],
)
def test_no_line_ends_between_a_number_and_its_unit(sentence, kept):
    assert unbroken(sentence) == kept.replace("~", NO_BREAK)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_reader_of_either_language_gets_readings_in_one_piece(language):
    found = catalogue(language)
    says = speaker(translate=found.gettext, ngettext=found.ngettext, typed={"salinity": "sg_25"})
    told = (says.reading("alk", 7.2), says.reading("temp", 25.4), says.reading("salinity", 35.0), says.percent(0.5))
    assert not [one for one in told if " " in one]
    assert says.span("alk", 8, 12).count(" ") == 2, "only a number and its unit are kept together"


def test_sentences_of_the_catalogues_are_unbroken_where_they_are_told_and_plain_where_they_are_edited():
    edited = [str(one.string) for one in read("de") if one.id]
    assert not any(NO_BREAK in one for one in edited)
    sentence = "%(size)s mm"
    assert {catalogue(one).gettext(sentence) for one in (SOURCE, "de")} == {f"%(size)s{NO_BREAK}mm"}
