"""Numbers and units as a reader sees them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.words.making import speaker
from webapp.science.units import QUANTITIES


@pytest.mark.parametrize(
    ("value", "decimals", "text"),
    [(7.2, 1, "7.2"), (8.0, 1, "8"), (0.0301, 3, "0.03"), (-0.5, 1, "−0.5"), (-0.01, 1, "0"), (100.0, 0, "100")],
)
def test_numbers_have_no_needless_zeros(value, decimals, text):
    assert speaker().number(value, decimals) == text


def test_the_decimal_mark_is_the_readers():
    assert speaker(decimal=",").reading("alk", 7.25) == "7,2 dKH"


@pytest.mark.parametrize(
    ("quantity", "unit", "value", "text"),
    [
        ("temp", "f", 25.0, "77 °F"),  # definition
        ("volume", "gal_us", 378.5411784, "100 US gallons"),  # NIST Handbook 44: 3.785411784 L
        ("length", "in", 25.4, "10 in"),  # definition
        ("no3", "mg_l_n", 4.4268, "1 mg/L NO3-N"),  # IUPAC atomic weights: 62.004 over 14.007
        ("po4", "ppb_p", 0.030661, "10 ppb P"),  # IUPAC atomic weights: 94.971 over 30.974
        ("ph", "nbs", 8.1, "pH 8.1"),
        ("salinity", "ms_cm_25", 35.0, "53.1 mS/cm"),  # PSS-78: S = 35 at 25 C is 53.065 mS/cm
    ],
)
def test_readings_are_shown_in_the_unit_typed(quantity, unit, value, text):
    assert speaker(typed={quantity: unit}).reading(quantity, value) == text


def test_a_unit_that_is_no_unit_is_passed_over():
    assert speaker(typed={"no3": "mg_l_unsure"}).reading("no3", 5.0) == "5 mg/L NO3"


def test_a_difference_of_warmth_has_no_offset():
    assert speaker(typed={"temp": "f"}).difference("temp", 1.0, 25.0) == "1.8 °F"  # 9/5, definition


def test_a_value_beyond_an_equation_is_shown_in_the_canonical_unit():
    assert speaker(typed={"salinity": "sg_25"}).reading("salinity", 400.0) == "400 ppt"


def test_lists_are_read_aloud():
    assert [speaker().listed("abc"[:n]) for n in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_amounts_are_what_a_kitchen_scale_can_give():
    assert [speaker().amount(x) for x in (0.123, 3.456, 12.34, 345.6)] == ["0.12", "3.5", "12.3", "346"]


@given(st.sampled_from(sorted(QUANTITIES)), st.floats(0, 1000))
def test_every_quantity_can_be_shown(quantity, value):
    said = speaker()
    assert said.reading(quantity, value) and said.span(quantity, value, value + 1)
    assert said.difference(quantity, -1.0, value) == said.difference(quantity, 1.0, value)
