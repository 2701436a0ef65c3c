"""Colours against another implementation of OKLab: the colour-science library."""

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.pictures.colour import oklch

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it tells at import that it can't plot
    import colour


def reference(lightness: float, chroma: float, hue_deg: float) -> np.ndarray:
    angle = np.radians(hue_deg)
    lab = [lightness, chroma * np.cos(angle), chroma * np.sin(angle)]
    return colour.XYZ_to_sRGB(colour.Oklab_to_XYZ(lab))


def channels(text: str) -> np.ndarray:
    return np.array([int(text[at : at + 2], 16) for at in (1, 3, 5)])


@pytest.mark.parametrize("lightness", [0.25, 0.5, 0.75])
@pytest.mark.parametrize("hue_deg", range(0, 360, 45))
def test_inside_srgb_the_colour_is_the_reference(lightness, hue_deg):
    wanted = reference(lightness, 0.03, hue_deg)
    assert np.all((wanted >= 0) & (wanted <= 1))
    assert np.max(np.abs(channels(oklch(lightness, 0.03, hue_deg)) - 255 * wanted)) <= 1


@given(st.floats(0.15, 1), st.floats(0, 0.4), st.floats(0, 360))
def test_whatever_is_asked_lightness_is_kept(lightness, chroma, hue_deg):
    lab = colour.XYZ_to_Oklab(colour.sRGB_to_XYZ(channels(oklch(lightness, chroma, hue_deg)) / 255))
    assert abs(lab[0] - lightness) < 0.02
