"""Massive stony corals: rounded or crusting colonies told apart by their cups and walls."""

import math

from webapp.pictures.parts import dome_body, hex_cells, laid, maze, on_dome, shrunk, unit_scatter
from webapp.pictures.pen import Dome, Pen, down, flat, out, rays, shifted
from webapp.pictures.shapes import Place, Shape, blob, blobs, dots, lines, stamp


def star_cups(pen: Pen) -> list[Shape]:
    """A dome of round cups, each with its own raised wall and grooves between neighbours."""
    dome = Dome(200, 280, 144, 138)
    cup: list[Shape] = [
        dots([(0, 0)], 22, flat(pen.main(0.24))),
        dots([(0, -1)], 20, flat(pen.main(0.74))),
        lines(rays(0, 0, 20, 20, 16, 0.55, 0.95), 2, flat(pen.main(0.4))),
        dots([(0, 0)], 11, flat(pen.deep(0.22))),
        dots([(0, 0)], 9.4, flat(pen.accent(0.8))),
        dots([(0, 0)], 3.4, flat(pen.deep(0.25))),
    ]
    return [*dome_body(pen, dome, 0.5, 0.22), stamp(cup, on_dome(dome, unit_scatter(pen, 84, 0.015), 0.16))]


def _cells(pen: Pen, dome: Dome, across: int, jitter: float, share: float) -> list[list]:
    loops = []
    for cell in hex_cells(pen, across, jitter):
        placed = [dome.project(u, v) for u, v in shrunk(cell, share)]
        if min(facing for _, _, facing in placed) > 0.02:
            loops.append([(x, y) for x, y, _ in placed])
    return loops


def pineapple(pen: Pen) -> list[Shape]:
    """A dome of many-sided cups that share their walls."""
    dome = Dome(200, 280, 146, 140)
    cells = _cells(pen, dome, 7, 0.3, 0.86)
    middles = [shrunk(cell, 0.36) for cell in cells]
    ribs = [[cell[at], shrunk(cell, 0.5)[at]] for cell in cells for at in range(6)]
    return [
        *dome_body(pen, dome, 0.8, 0.42),
        blobs(cells, flat(pen.main(0.2))),
        blobs([shrunk(cell, 0.93) for cell in cells], out(pen.main(0.56), pen.main(0.34))),
        lines(ribs, 3, flat(pen.main(0.7), 0.6)),
        blobs(middles, out(pen.accent(0.9), pen.accent(0.62))),
        blobs([shrunk(m, 0.3) for m in middles], flat(pen.deep(0.2))),
    ]


def honeycomb(pen: Pen) -> list[Shape]:
    """Small regular six-sided cells with thin sharp walls over a smooth, low dome."""
    dome = Dome(200, 294, 156, 106)
    cells = _cells(pen, dome, 13, 0.06, 0.8)
    return [
        *dome_body(pen, dome, 0.86, 0.52),
        blobs(cells, flat(pen.main(0.3)), sharp=True),
        blobs([shrunk(cell, 0.56) for cell in cells], flat(pen.accent(0.5)), sharp=True),
    ]


def maze_brain(pen: Pen) -> list[Shape]:
    """A dome of long, narrow winding valleys, a true maze."""
    dome = Dome(200, 280, 148, 142)
    valleys = laid(dome, maze(pen, 18, 0.3))
    return [
        *dome_body(pen, dome, 0.78, 0.4),
        lines(valleys, 11, flat(pen.main(0.3))),
        lines(valleys, 7, flat(pen.accent(0.56))),
        lines(valleys, 2.6, flat(pen.accent(0.84))),
    ]


def spiny_massive(pen: Pen) -> list[Shape]:
    """A thick mound of large angular cups whose walls bristle with blunt teeth."""
    dome = Dome(200, 290, 150, 122)
    cells = _cells(pen, dome, 6, 0.34, 0.8)
    teeth = [p for cell in cells for at in range(6) for p in (shrunk(cell, 1.12)[at], shrunk(cell, 0.8)[at])]
    halfway = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for cell in cells for a, b in zip(cell, cell[1:], strict=False)]
    return [
        *dome_body(pen, dome, 0.62, 0.3, 0.03),
        blobs(cells, flat(pen.deep(0.2)), sharp=True),
        blobs([shrunk(cell, 0.9) for cell in cells], flat(pen.main(0.44))),
        blobs([shrunk(cell, 0.46) for cell in cells], out(pen.accent(0.86), pen.accent(0.6))),
        dots([*teeth, *halfway], 4.6, flat(pen.main(0.42))),
        dots(shifted([*teeth, *halfway], -1, -2), 3.6, flat(pen.main(0.86))),
    ]


def galaxy(pen: Pen) -> list[Shape]:
    """Sharp stars: tall cups whose blades stand out in spikes, thin tentacles with white tips."""
    dome = Dome(200, 290, 132, 118)
    blades = []
    for at in range(12):
        angle, far = math.tau * at / 12, 25 if at % 2 else 19
        cos, sin = math.cos(angle), math.sin(angle)
        blades.append(
            [(8 * cos - 3 * sin, 8 * sin + 3 * cos), (far * cos, far * sin), (8 * cos + 3 * sin, 8 * sin - 3 * cos)]
        )
    hairs = [
        [(12 * math.cos(a), 12 * math.sin(a)), (30 * math.cos(a), 30 * math.sin(a))]
        for a in (math.tau * (at + 0.5) / 12 for at in range(12))
    ]
    cup: list[Shape] = [
        lines(hairs, 2.6, flat(pen.main(0.6))),
        dots([hair[-1] for hair in hairs], 2.6, flat("#f4fbff")),
        blobs(blades, flat(pen.main(0.82)), sharp=True),
        dots([(0, 0)], 10, flat(pen.deep(0.24))),
        dots([(0, 0)], 8, flat(pen.accent(0.72))),
        dots([(0, 0)], 2.6, flat(pen.deep(0.2))),
    ]
    places = [Place(p.x, p.y, 0.98, 0.98, p.turn) for p in on_dome(dome, unit_scatter(pen, 52, 0.03), 0.1)]
    return [*dome_body(pen, dome, 0.44, 0.2), stamp(cup, sorted(places, key=lambda p: p.y))]


def pimpled(pen: Pen) -> list[Shape]:
    """A lumpy dome studded with small separate raised cups, each with a bright eye."""
    shapes: list[Shape] = []
    for dome in (Dome(128, 296, 84, 92), Dome(276, 298, 82, 84), Dome(202, 302, 92, 108)):
        spots = [(place.x, place.y) for place in on_dome(dome, unit_scatter(pen, 54, 0.03), 0.2)]
        shapes += [
            *dome_body(pen, dome, 0.62, 0.28),
            dots(shifted(spots, 0, 2), 9, flat(pen.main(0.22))),
            dots(spots, 8, flat(pen.main(0.72))),
            dots(spots, 5, flat(pen.deep(0.24))),
            dots(spots, 3.6, flat(pen.accent(0.9))),
        ]
    return shapes


def flush_crust(pen: Pen) -> list[Shape]:
    """A thin, flat crust following its plug, small angular cups level with the surface and bright mouths."""
    dome = Dome(200, 300, 156, 60, 55)
    cells = _cells(pen, dome, 9, 0.34, 0.9)
    return [
        blob(shifted(pen.frill(200, 312, 162, 52, 10, 0.04), 0, 6), flat(pen.main(0.2))),
        blob(pen.frill(200, 302, 162, 56, 10, 0.03), down(pen.main(0.34), pen.main(0.26))),
        blobs(cells, down(pen.main(0.7), pen.main(0.5))),
        blobs([shrunk(cell, 0.6) for cell in cells], flat(pen.main(0.4))),
        dots([shrunk(cell, 0)[0] for cell in cells], 4, flat(pen.accent(0.92))),
    ]


def petal_ridges(pen: Pen) -> list[Shape]:
    """Low rounded knobs carved all over with tiny petal-shaped furrows."""
    shapes: list[Shape] = []
    for dome in (
        Dome(122, 304, 66, 88, 20),
        Dome(284, 304, 64, 80, 20),
        Dome(206, 300, 64, 150, 20),
        Dome(162, 318, 58, 66, 20),
        Dome(248, 320, 54, 58, 20),
    ):
        furrows = [curve for curve in laid(dome, maze(pen, 12, 0.1), 0.15) if len(curve) > 1]
        shapes += [
            *dome_body(pen, dome, 0.78, 0.4),
            lines(furrows, 4, flat(pen.main(0.3), 0.85)),
            lines([shifted(c, 0, -3) for c in furrows[::2]], 1.6, flat(pen.accent(0.92), 0.5)),
        ]
    return shapes
