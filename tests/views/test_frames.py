"""Frames: what is put into a place stands there escaped, once for each place of that name, and nothing else changes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jinja2 import Environment
from markupsafe import Markup, escape

from webapp.views.frames import Frame, Places

TEMPLATE = "<p title='{{ at.word }}'>{{ at['word'] }}, {{ at.other }}</p>{{ '/' ~ at.word ~ '.svg' }}"


def _drawn(**given):
    return Environment(autoescape=True).from_string(TEMPLATE).render(**given)


@given(st.text(), st.text())
def test_a_filled_frame_is_what_the_template_would_have_drawn(word, other):
    """Whatever is typed: quotes, tags, control characters, the names of places."""
    filled = Frame(_drawn(at=Places())).fill({"word": word, "other": other})
    assert filled == _drawn(at={"word": word, "other": other})


def test_a_frame_can_be_filled_again_and_again():
    frame = Frame(_drawn(at=Places()))
    first = frame.fill({"word": "a", "other": "b"})
    frame.fill({"word": "c", "other": "d"})
    assert frame.fill({"word": "a", "other": "b"}) == first


def test_markup_is_taken_as_it_is_and_text_is_escaped():
    frame = Frame(_drawn(at=Places()))
    assert "<b>" in frame.fill({"word": "", "other": Markup("<b>")})
    assert str(escape("<b>")) in frame.fill({"word": "", "other": "<b>"})


def test_a_place_that_stays_open_is_an_error():
    with pytest.raises(KeyError, match="other"):
        Frame(_drawn(at=Places())).fill({"word": "a"})
