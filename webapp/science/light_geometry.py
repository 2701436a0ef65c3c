"""Irradiance in a box of water under a uniform rectangular lamp: cos^m beam, refraction, mirror walls.

The kernel of a cos^m source, (1 + r^2/H^2)^-((m+3)/2), is written as a short sum of Gaussians, so that the integral
over a rectangular source and the mirror images in the walls factor into two one-dimensional sums of error functions.
"""

import math
from functools import lru_cache
from math import erf

from webapp.science.optics import N_SEA_WATER

HALF_ROOT_PI = math.sqrt(math.pi) / 2


@lru_cache(maxsize=512)
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
def gaussian_terms(m: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Weights w and roots of s with (1 + q)^-p close to the sum of w exp(-s q), p = (m+3)/2: within 4 % for q up to 2.

    The power is the Laplace transform of a gamma density, here summed at four points evenly spaced in ln s
    (trapezium rule on the whole line, Trefethen & Weideman 2014, SIAM Review 56, 385-458), weights made to sum to 1.
    """
    p = (m + 3) / 2
    nodes = [p * math.exp(k + 0.35) for k in (-3, -2, -1, 0)]
    weights = [math.exp(p * math.log(s) - s) for s in nodes]
    total = sum(weights)
    return tuple(w / total for w in weights), tuple(math.sqrt(s) for s in nodes)


@lru_cache(maxsize=512)
def depth_divisor(m: float) -> float:
    """By what a depth of water is divided to give the same spread in air: tan(i)/tan(r) at a typical ray of the beam.

    Snell's law at the angle inside which a third of a cos^m source's flux leaves, cos^(m+1) = 2/3. Tends to n for
    narrow beams, where it is the apparent depth of textbooks. m 0.1..100.
    """
    sin_i = math.sin(math.acos((2 / 3) ** (1 / (m + 1))))
    sin_r = sin_i / N_SEA_WATER
    return N_SEA_WATER * math.sqrt((1 - sin_r**2) / (1 - sin_i**2))


def axis_sums(
    x: float,
    length: float,
    spans: tuple[tuple[float, float], ...],
    height: float,
    apparent: float,
    m: float,
    wall: float,
) -> list[float]:
    """One axis of the box: for each term of `gaussian_terms(m)` the mean of its Gaussian over the lit stretches.

    `x` is the point and `spans` the lit stretches, in [0, length]; `height` is the air gap and `apparent` the
    optical distance to the point, all in one unit. Mirror images to the second order count `wall` (0..1) a
    reflection; only rays that cross the surface inside the box count.
    """
    f = height / apparent
    ahead = 1 - f
    total = 0.0
    seen = []  # lit stretches seen from the point or from its mirror image, and what the walls leave of them
    for a, b in spans:
        total += b - a
        seen.append((1.0, a - x, b - x))
    if ahead > 0.001:  # at the surface itself no ray has met a wall
        seen = []
        far = 2 * length
        for share, xi in ((1.0, x), (wall, -x), (wall, far - x), (wall * wall, x - far), (wall * wall, x + far)):
            lowest, highest = -f * xi / ahead, (length - f * xi) / ahead
            for a, b in spans:
                if a < lowest:
                    a = lowest
                if b > highest:
                    b = highest
                if a < b:
                    seen.append((share, a - xi, b - xi))
    sums = []
    for root_s in gaussian_terms(m)[1]:
        g = root_s / apparent
        found = 0.0
        for share, a, b in seen:
            found += share * (erf(g * b) - erf(g * a))
        sums.append(HALF_ROOT_PI / (g * total) * found)
    return sums
