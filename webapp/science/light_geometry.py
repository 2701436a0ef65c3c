"""Irradiance in a box of water under a uniform rectangular lamp: cos^m beam, refraction, mirror walls.

The kernel of a cos^m source, (1 + r^2/H^2)^-((m+3)/2), is written as a short sum of Gaussians, so that the integral
over a rectangular source and the mirror images in the walls factor into two one-dimensional sums of error functions.
"""

import math
from functools import lru_cache

from webapp.science.optics import N_SEA_WATER

IMAGES = (0, -1, 1, -2, 2)


def lobe_exponent(beam_deg: float) -> float:
    """Exponent m of the intensity cos^m that falls to half at half of the full beam angle `beam_deg` (10..170).

    m = -ln 2 / ln cos(beam / 2) (Kahn & Barry 1997, Proc. IEEE 85, 265-298). 120 degrees gives 1, a Lambert source.
    """
    if not 10 <= beam_deg <= 170:
        raise ValueError(f"beam_deg must be 10..170, got {beam_deg}")
    return -math.log(2) / math.log(math.cos(math.radians(beam_deg) / 2))


def point_source_ppfd(flux_umol_s: float, m: float, height_m: float, offset_m: float = 0.0) -> float:
    """PPFD (µmol m^-2 s^-1) on a level plane `height_m` below a cos^m source of `flux_umol_s`, `offset_m` aside.

    E = flux (m+1) / (2 pi h^2) (1 + r^2/h^2)^-((m+3)/2) (Kahn & Barry 1997). m 0.1..100, height above 0.
    """
    if not flux_umol_s >= 0:
        raise ValueError(f"flux_umol_s must not be negative, got {flux_umol_s}")
    if not 0.1 <= m <= 100:
        raise ValueError(f"m must be 0.1..100, got {m}")
    if not height_m > 0:
        raise ValueError(f"height_m must be above 0, got {height_m}")
    q = (offset_m / height_m) ** 2
    return flux_umol_s * (m + 1) / (2 * math.pi * height_m**2) * (1 + q) ** (-(m + 3) / 2)


@lru_cache(maxsize=512)
def gaussian_terms(m: float) -> tuple[tuple[float, float], ...]:
    """Pairs (w, s) with (1 + q)^-p close to the sum of w exp(-s q), p = (m+3)/2: within 4 % for q up to 2.

    The power is the Laplace transform of a gamma density, here summed at four points evenly spaced in ln s
    (trapezium rule on the whole line, Trefethen & Weideman 2014, SIAM Review 56, 385-458), weights made to sum to 1.
    """
    p = (m + 3) / 2
    nodes = [p * math.exp(k + 0.35) for k in (-3, -2, -1, 0)]
    weights = [math.exp(p * math.log(s) - s) for s in nodes]
    total = sum(weights)
    return tuple((w / total, s) for w, s in zip(weights, nodes, strict=True))


@lru_cache(maxsize=512)
def depth_divisor(m: float) -> float:
    """By what a depth of water is divided to give the same spread in air: tan(i)/tan(r) at the beam's median ray.

    Snell's law at the angle inside which half of a cos^m source's flux leaves, cos^(m+1) = 1/2. Tends to n for beams.
    """
    sin_i = math.sin(math.acos(0.5 ** (1 / (m + 1))))
    sin_r = sin_i / N_SEA_WATER
    return N_SEA_WATER * math.sqrt((1 - sin_r**2) / (1 - sin_i**2))


def axis_parts(
    x: float, length: float, spans: tuple[tuple[float, float], ...], height: float, apparent: float, m: float
) -> list[tuple[float, float, float, float]]:
    """One axis of the box: for each Gaussian term (weight, direct, once mirrored, twice mirrored).

    `x` is the point and `spans` the lit stretches, in [0, length]; `height` is the air gap and `apparent` the
    optical distance to the point, all in one unit. Only rays that cross the surface inside the box count.
    """
    f = height / apparent
    total = sum(b - a for a, b in spans)
    windows = []
    for image in IMAGES:
        xi = image * length + (length - x if image % 2 else x)
        if f > 0.999:
            windows.append((xi, -math.inf, math.inf) if image == 0 else (xi, 0.0, 0.0))
        else:
            windows.append((xi, -f * xi / (1 - f), (length - f * xi) / (1 - f)))
    parts = []
    erf = math.erf
    for w, s in gaussian_terms(m):
        g = math.sqrt(s) / apparent
        scale = 0.8862269254527580 / (g * total)
        orders = [0.0, 0.0, 0.0]
        for image, (xi, lo, hi) in zip(IMAGES, windows, strict=True):
            for a, b in spans:
                if a < lo:
                    a = lo
                if b > hi:
                    b = hi
                if a < b:
                    orders[abs(image)] += erf(g * (b - xi)) - erf(g * (a - xi))
        parts.append((w, scale * orders[0], scale * orders[1], scale * orders[2]))
    return parts
