"""Colours by lightness, chroma and hue in OKLCH: a strain may have any hue and keeps its light and shade.

Source: B. Ottosson 2020, 'A perceptual color space for image processing' (the OKLab matrices);
sRGB transfer function of IEC 61966-2-1.
"""

import math


def _linear_rgb(lightness: float, chroma: float, hue_deg: float) -> tuple[float, float, float]:
    a = chroma * math.cos(math.radians(hue_deg))
    b = chroma * math.sin(math.radians(hue_deg))
    long = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3
    medium = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3
    short = (lightness - 0.0894841775 * a - 1.2914855480 * b) ** 3
    return (
        4.0767416621 * long - 3.3077115913 * medium + 0.2309699292 * short,
        -1.2684380046 * long + 2.6097574011 * medium - 0.3413193965 * short,
        -0.0041960863 * long - 0.7034186147 * medium + 1.7076147010 * short,
    )


def _encode(linear: float) -> int:
    clipped = min(1.0, max(0.0, linear))
    coded = 12.92 * clipped if clipped <= 0.0031308 else 1.055 * clipped ** (1 / 2.4) - 0.055
    return round(255 * coded)


def oklch(lightness: float, chroma: float, hue_deg: float) -> str:
    """`#rrggbb` of a colour; lightness 0..1, chroma 0..0.4. Outside sRGB the chroma is lowered until it fits."""
    lightness = min(1.0, max(0.0, lightness))
    rgb = _linear_rgb(lightness, chroma, hue_deg)
    while chroma > 0.0005 and not all(-0.0002 <= part <= 1.0002 for part in rgb):
        chroma *= 0.93
        rgb = _linear_rgb(lightness, chroma, hue_deg)
    return "#" + "".join(f"{_encode(part):02x}" for part in rgb)
