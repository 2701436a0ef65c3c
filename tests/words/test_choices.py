"""What can be chosen is what the check understands; names, bases and units of factors."""

import pytest

from tests.words.making import KINDS
from webapp.fit.methods import METHODS
from webapp.fit.profile import BANDED, Basis
from webapp.science import flow, light
from webapp.science.fixture import KINDS as LAMPS
from webapp.science.lux import COLOURS, INSTRUMENT_ERROR
from webapp.words import choices
from webapp.words.basis import basis_mark, basis_word, cited
from webapp.words.factors import INSIDE, NAMES, factor_decimals, factor_inside, factor_name, factor_unit
from webapp.words.language import say


@pytest.mark.parametrize(
    ("offered", "known"),
    [
        (choices.LIGHT_WORDS, light.WORDS),
        (choices.FLOW_WORDS, flow.WORDS),
        (choices.FIXTURES, LAMPS),
        (choices.PUMPS, flow.OUTLET_M_S),
        (choices.LAMP_COLOURS, COLOURS),
        (choices.INSTRUMENTS, [key for key in INSTRUMENT_ERROR if key]),
    ],
)
def test_every_choice_is_understood_and_none_is_missing(offered, known):
    keys = [key for key, _, _ in offered]
    assert sorted(keys) == sorted(known)
    for _, label, hint in offered:
        assert label[0].isupper() and hint.endswith(".")


def test_every_way_of_measuring_has_a_name():
    assert set(choices.METHOD_NAMES) == {method.key for methods in METHODS.values() for method in methods}


@pytest.mark.parametrize("offered", [choices.FEEDING, choices.AGES])
def test_amounts_to_choose_rise(offered):
    numbers = [float(value) for value, _ in offered]
    assert numbers == sorted(set(numbers))


def test_factors_have_a_name_a_unit_and_decimals():
    assert set(NAMES) == set(INSIDE)
    for factor in BANDED:
        assert factor_name(factor) and factor_inside(factor)
        assert factor_unit(factor) or factor == "ph"
    assert factor_unit("alk") == "dKH" and factor_unit("par") == "µmol/m²/s" and factor_unit("tankmates") == ""


def test_a_table_shows_every_ideal_range_as_a_range():
    for kind in KINDS.values():
        for factor, band in kind.bands.items():
            low, high = (f"{end:.{factor_decimals(factor)}f}" for end in (band.ideal_low, band.ideal_high))
            assert low != high


@pytest.mark.parametrize(
    ("basis", "word", "mark"),
    [
        (Basis("published", "dai_1990"), "published: Dai 1990", "p"),
        (Basis("published", "bower_bidwell_1978"), "published: Bower & Bidwell 1978", "p"),
        (Basis("common_practice"), "common practice", "c"),
        (Basis("memory"), "from memory", "m"),
        (Basis("this_shop"), "this shop's own", "s"),
    ],
)
def test_bases_in_a_word_and_a_letter(basis, word, mark):
    assert basis_word(basis) == word and basis_mark(basis) == mark


def test_three_authors():
    assert cited("chadwick_furman_loya_1992") == "Chadwick, Furman & Loya 1992"


def test_say_fills_places_in_the_translation():
    assert say(lambda _: "%(b)s vor %(a)s", "%(a)s before %(b)s", a="1", b="2") == "2 vor 1"
