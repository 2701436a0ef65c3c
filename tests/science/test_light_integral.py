import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.light_integral import (
    daily_light_integral,
    daily_light_integral_half_sine,
    full_light_hours,
    photon_umol_per_j,
)


@given(st.floats(0, 2000), st.floats(0, 24), st.floats(0, 1))
def test_ramps_lose_between_nothing_and_half(ppfd, hours, share):
    flat, ramped = daily_light_integral(ppfd, hours), daily_light_integral(ppfd, hours, share * hours)
    assert flat / 2 - 1e-9 <= ramped <= flat


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: daily_light_integral(-1, 8), "ppfd"),
        (lambda: daily_light_integral(1, 25), "hours"),
        (lambda: full_light_hours(8, 9), "ramp_hours"),
        (lambda: full_light_hours(math.nan), "hours"),
        (lambda: daily_light_integral_half_sine(-1, 8), "peak_ppfd"),
        (lambda: photon_umol_per_j(10), "wavelength_nm"),
    ],
)
def test_refusals_name_the_argument(call, name):
    with pytest.raises(ValueError, match=name):
        call()
