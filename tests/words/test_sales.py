"""Words of the till."""

import pytest

from webapp.words.looks import PEST, TROUBLE
from webapp.words.sales import stop_sentence


@pytest.mark.parametrize(("code", "words"), [("trouble", TROUBLE), ("pest", PEST)])
def test_a_stopped_sale_is_told_with_what_was_seen_and_never_with_a_key(code, words):
    for what, plain in words.items():
        sentence = stop_sentence("Ember Ring", code, what)
        assert plain in sentence
        assert "_" not in sentence
