"""What a walk-in is told of a photo that was not read is what was refused, word for word."""

from webapp.tags.opening import REFUSALS
from webapp.words.photos import NOT_READ


def test_every_refusal_has_its_sentence():
    assert {why: NOT_READ.get(why) for why in REFUSALS} == REFUSALS
