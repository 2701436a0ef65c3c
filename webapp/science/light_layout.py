"""Where lamps hang over a tank, and which points stand for a place that is not known more closely."""

import math
from functools import lru_cache

from webapp.science.fixture import KINDS, Fixture, Footprint

Spans = tuple[tuple[float, float], ...]
Pairs = tuple[tuple[int, int], ...]

GAUSS = (0.2113, 0.7887)
"""Two-point Gauss-Legendre places on 0..1 (Abramowitz & Stegun 1964, 25.4.30)."""
EDGE_FROM = 0.75
"""The edge begins at this share of the way from the middle of the tank to a side: the outer eighth of its size."""
MIDDLE_PAIRS: Pairs = ((0, 0), (0, 1), (1, 0), (1, 1))
EDGE_PAIRS: Pairs = ((2, 0), (2, 1), (3, 0), (3, 1), (0, 2), (1, 2), (0, 3), (1, 3), (2, 3), (3, 2))


@lru_cache(maxsize=1024)
def lit_spans(fixture: Fixture, box: Footprint) -> tuple[Spans, Spans]:
    """Lit stretches along the length and the width, cm from one end: lamps centred over the tank.

    They hang end to end, evenly spaced, and side by side in rows where they don't fit (common practice).
    """
    kind = KINDS[fixture.kind]
    usual = kind.length_share * box.length_cm if kind.length_share else kind.length_cm
    length = min(fixture.length_cm or usual, box.length_cm)
    rows = math.ceil(fixture.count / max(1, int(box.length_cm / length)))
    columns = math.ceil(fixture.count / rows)
    width = min(rows * (fixture.width_cm or kind.width_cm), box.width_cm)
    across = (_centred(box.width_cm / 2, width),)
    pitch = box.length_cm / columns
    if columns > 3:  # so many that their row is taken as one even stretch
        return (_centred(box.length_cm / 2, box.length_cm - pitch + length),), across
    return tuple(_centred((i + 0.5) * pitch, length) for i in range(columns)), across


@lru_cache(maxsize=1024)
def points(fixture: Fixture, box: Footprint, horizontal: str) -> tuple[tuple[float, ...], tuple[float, ...], Pairs]:
    """Points along the length and the width (cm), and the pairs of them that stand for the place.

    'middle': below the lit part of the most central lamp. 'edge': the outer eighth along all four sides.
    By symmetry one quarter of the place is enough.
    """
    spans_x, spans_y = lit_spans(fixture, box)
    if horizontal == "middle":
        (a, b), (_, d) = spans_x[len(spans_x) // 2], spans_y[0]
        if len(spans_x) % 2:
            a = (a + b) / 2
        c = box.width_cm / 2
        return tuple(a + (b - a) * g for g in GAUSS), tuple(c + (d - c) * g for g in GAUSS), MIDDLE_PAIRS
    shares = [EDGE_FROM * g for g in GAUSS] + [EDGE_FROM + (1 - EDGE_FROM) * g for g in GAUSS]
    xs, ys = ([size / 2 * (1 + share) for share in shares] for size in (box.length_cm, box.width_cm))
    return tuple(xs), tuple(ys), EDGE_PAIRS


def _centred(centre: float, length: float) -> tuple[float, float]:
    return centre - length / 2, centre + length / 2
