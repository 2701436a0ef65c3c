import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.light_geometry import (
    axis_sums,
    depth_divisor,
    gaussian_terms,
    lobe_exponent,
    point_source_ppfd,
)

exponents = st.floats(0.5, 8)


@given(exponents)
def test_gaussian_weights_sum_to_one(m):
    weights, roots = gaussian_terms(m)
    assert sum(weights) == pytest.approx(1)
    assert all(w > 0 for w in weights)
    assert all(r > 0 for r in roots)


@given(exponents)
def test_depth_divisor_exceeds_the_index_and_grows_with_the_beam(m):
    assert 1.34 < depth_divisor(m) < depth_divisor(m / 2)


@given(exponents, st.floats(5, 115), st.floats(0, 40), st.floats(1, 60), st.floats(0, 1))
def test_walls_only_add_and_the_far_half_mirrors_the_near(m, x, height, below, wall):
    spans = ((50, 70),)
    here = axis_sums(x, 120, spans, height, height + below, m, wall)
    bare = axis_sums(x, 120, spans, height, height + below, m, 0.0)
    there = axis_sums(120 - x, 120, spans, height, height + below, m, wall)
    assert all(a >= b for a, b in zip(here, bare, strict=True))
    assert here == pytest.approx(there)


@given(exponents, st.floats(0.1, 2), st.floats(0, 1))
def test_point_source_falls_with_offset(m, height, offset):
    assert point_source_ppfd(100, m, height, offset) <= point_source_ppfd(100, m, height)


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: lobe_exponent(5), "beam_deg"),
        (lambda: lobe_exponent(180), "beam_deg"),
        (lambda: point_source_ppfd(-1, 1, 1), "flux_umol_s"),
        (lambda: point_source_ppfd(1, 0, 1), "m must"),
        (lambda: point_source_ppfd(1, 1, 0), "height_m"),
    ],
)
def test_refusals_name_the_argument(call, name):
    with pytest.raises(ValueError, match=name):
        call()
