import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.science import optics


@given(st.floats(0, 90), st.floats(1, 2))
def test_snell_and_energy(angle, n):
    inside = optics.refracted_deg(angle, n)
    assert n * math.sin(math.radians(inside)) == pytest.approx(math.sin(math.radians(angle)), abs=1e-12)
    assert 0 <= optics.fresnel_reflectance(angle, n) <= 1 + 1e-12


def test_grazing_light_is_reflected_and_equal_media_reflect_nothing():
    assert optics.fresnel_reflectance(90) == pytest.approx(1)
    assert optics.fresnel_reflectance(40, 1.0) == pytest.approx(0, abs=1e-15)


@given(st.floats(400, 700))
def test_yellow_matter_falls_with_wavelength(nm):
    assert optics.yellow_absorption_per_m(nm, 0.2) <= optics.yellow_absorption_per_m(400, 0.2)


@given(st.floats(0, 5), st.floats(0, 3), st.floats(0, 3))
def test_two_layers_multiply(k, a, b):
    both = optics.transmitted_share(k, a) * optics.transmitted_share(k, b)
    assert optics.transmitted_share(k, a + b) == pytest.approx(both)


@pytest.mark.parametrize(
    ("call", "name"),
    [
        (lambda: optics.refracted_deg(91), "angle_deg"),
        (lambda: optics.fresnel_reflectance(-1), "angle_deg"),
        (lambda: optics.fresnel_reflectance(10, 0.9), "n must"),
        (lambda: optics.critical_angle_deg(0.5), "n must"),
        (lambda: optics.pure_water_absorption_per_m(399), "wavelength_nm"),
        (lambda: optics.yellow_absorption_per_m(800, 0.1), "wavelength_nm"),
        (lambda: optics.yellow_absorption_per_m(440, -0.1), "at_440_per_m"),
        (lambda: optics.transmitted_share(-1, 1), "k_per_m"),
        (lambda: optics.transmitted_share(1, math.nan), "path_m"),
    ],
)
def test_refusals_name_the_argument(call, name):
    with pytest.raises(ValueError, match=name):
        call()
