import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science.roots import invert


@given(x=st.floats(-5, 5), rising=st.booleans())
def test_a_monotonic_function_is_inverted(x, rising):
    sign = 1 if rising else -1
    assert invert(lambda v: sign * (v**3 + v), sign * (x**3 + x), -5, 5) == pytest.approx(x, abs=1e-12)


def test_a_target_out_of_reach_is_refused():
    with pytest.raises(ValueError, match="outside"):
        invert(lambda v: v, 2, 0, 1)
