"""The check symbol against published examples of Luhn's method and of Luhn mod N, and an independent library."""

from random import Random

import pytest
from stdnum import luhn

from webapp.tags.codes import ALPHABET, check_symbol, new_code

DIGITS = "0123456789"


@pytest.mark.parametrize(
    ("body", "alphabet", "check", "source"),
    [
        ("abcdef", "abcdef", "e", "encyclopaedia article 'Luhn mod N algorithm', worked example over six letters"),
        ("7992739871", DIGITS, "3", "encyclopaedia article 'Luhn algorithm', worked example"),
        ("1789372997", DIGITS, "4", "encyclopaedia article 'Luhn algorithm', later worked example"),
        ("49015420323751", DIGITS, "8", "encyclopaedia article on mobile equipment identity numbers, worked example"),
    ],
)
def test_published_examples(body, alphabet, check, source):
    assert check_symbol(body, alphabet) == check, source


def test_library_agrees_on_codes():
    """python-stdnum's Luhn over the same 32 symbols."""
    random = Random(32)
    for code in (new_code(random) for _ in range(500)):
        assert luhn.is_valid(code, alphabet=ALPHABET)
        assert luhn.calc_check_digit(code[:-1], alphabet=ALPHABET) == code[-1]
