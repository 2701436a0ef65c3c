import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.light_water import WATER_K_PER_M
from webapp.science.lux import COLOURS, INSTRUMENT_ERROR, lux_per_ppfd, ppfd_from_lux


def test_the_same_colours_are_known_to_lux_and_water():
    assert set(COLOURS) == set(WATER_K_PER_M)


@given(st.floats(1, 2e5), st.sampled_from(COLOURS), st.sampled_from(list(INSTRUMENT_ERROR)))
def test_range_holds_the_factors_own_range(lux, colour, instrument):
    factor, ppfd = lux_per_ppfd(colour), ppfd_from_lux(lux, colour, instrument)
    assert ppfd.low < lux / factor.high < ppfd.mid < lux / factor.low < ppfd.high
    assert ppfd.mid == pytest.approx(lux / factor.mid)


@pytest.mark.parametrize("colour", COLOURS)
def test_a_better_instrument_narrows(colour):
    widths = [ppfd_from_lux(1000, colour, i) for i in ("meter", "phone", None)]
    ratios = [w.high / w.low for w in widths]
    assert ratios == sorted(ratios)


def test_blue_needs_fewer_lux_than_white_for_the_same_photons():
    factors = [lux_per_ppfd(c).mid for c in ("deep_blue", "blue", "blue_white", "white")]
    assert factors == sorted(factors)


def test_unknown_colour_spans_the_lamps():
    wide = lux_per_ppfd("unknown")
    for colour in ("blue", "blue_white", "white", "fluorescent", "metal_halide", "sunlight"):
        assert wide.low < lux_per_ppfd(colour).mid < wide.high


def test_dark_is_dark():
    assert ppfd_from_lux(0, "white").high == 0


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: ppfd_from_lux(-1, "white"), "lux"),
        (lambda: ppfd_from_lux(math.nan, "white"), "lux"),
        (lambda: ppfd_from_lux(1e6, "white"), "lux"),
        (lambda: ppfd_from_lux(100, "pink"), "colour"),
        (lambda: ppfd_from_lux(100, "white", "eye"), "instrument"),
    ],
)
def test_refusals_name_the_argument(call, name):
    with pytest.raises(ValueError, match=name):
        call()
