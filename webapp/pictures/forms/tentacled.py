"""Stony corals whose flesh hides the skeleton: torches, hammers, elegance, bubbles, flowerpots, whiskers."""

import math

from webapp.pictures.parts import crown, tentacles, unit_scatter
from webapp.pictures.pen import Dome, Pen, down, flat, out, rays, shifted, taper
from webapp.pictures.shapes import Oval, Place, Point, Shape, blob, blobs, dots, lines, stamp


def _skeleton(pen: Pen, feet: list[tuple[float, float, float]]) -> Shape:
    return blobs(
        [taper([(200 + (x - 200) * 0.35, 338), (x, y)], wide * 0.7, wide) for x, y, wide in feet],
        down(pen.bone(0.7), pen.bone(0.36)),
    )


def _swept(pen: Pen, x: float, y: float, count: int, reach: float, fan: float, droop: float) -> list[list[Point]]:
    """Long tentacles from one head, fanned over the top and bent by the current."""
    curves = []
    for at in range(count):
        angle = 90 + fan * ((at + 0.5) / count - 0.5) + pen.spread(6)
        foot = (x + 34 * math.cos(math.radians(angle)), y - 12 * math.sin(math.radians(angle)))
        long = pen.near(reach, 0.18) * (0.5 + 0.5 * math.sin(math.radians(angle)))
        curves.append(pen.bend(foot, angle, long, -droop + (angle - 90) * 0.5, 3))
    return curves


def torch(pen: Pen) -> list[Shape]:
    """Long flowing tentacles with round tips from two heads on stony branches."""
    shapes: list[Shape] = [_skeleton(pen, [(158, 268, 70), (236, 272, 70)])]
    for light, reach, fan in ((0.46, 168, 170), (0.58, 134, 164), (0.72, 94, 160)):
        curves = _swept(pen, 152, 258, 13, reach, fan, 22) + _swept(pen, 232, 262, 13, reach, fan, 22)
        shapes += tentacles(pen, curves, 10.5, light, 8, light + 0.18)
    return shapes


def _anchors(ends: list[list[Point]], size: float) -> list[list[Point]]:
    bars = []
    for curve in ends:
        (x0, y0), (x, y) = curve[-2], curve[-1]
        length = math.hypot(x - x0, y - y0) or 1
        ux, uy = (x - x0) / length, (y - y0) / length
        bars.append(
            [
                (x - uy * size - ux * 4, y + ux * size - uy * 4),
                (x + ux * 5, y + uy * 5),
                (x + uy * size - ux * 4, y - ux * size - uy * 4),
            ]
        )
    return bars


def wall_hammer(pen: Pen) -> list[Shape]:
    """One long winding wall; every tentacle ends in a hammer-shaped bar."""
    wall = [(58, 296), (104, 270), (158, 296), (206, 304), (252, 276), (300, 270), (344, 296)]
    shapes: list[Shape] = [
        blob([*wall, (320, 326), (240, 342), (160, 342), (80, 326)], down(pen.bone(0.76), pen.bone(0.34))),
        lines(
            [[(x, y + 4), (200 + (x - 200) * 0.8, 332)] for x in range(70, 340, 12) for y in (296,)],
            2,
            flat(pen.bone(0.3), 0.5),
        ),
    ]
    for layer, (light, reach) in enumerate(((0.46, 138), (0.58, 100), (0.7, 60))):
        curves = []
        for at in range(17 - layer * 2):
            share = (at + 0.5) / (17 - layer * 2)
            x = 88 + 224 * share
            y = 284 + 16 * math.sin(share * 9)
            curves.append(
                pen.bend((x, y), 90 - (share - 0.5) * 64 + pen.spread(9), pen.near(reach, 0.16), pen.spread(26), 3)
            )
        bars = _anchors(curves, 13)
        shapes += [
            *tentacles(pen, curves, 9, light),
            lines(bars, 13, flat(pen.deep(0.22))),
            lines(bars, 9.5, down(pen.accent(light + 0.22), pen.accent(light + 0.08))),
            lines([shifted(bar, -1, -2) for bar in bars], 2.4, flat("#ffffff", 0.45)),
        ]
    return shapes


def branching_hammer(pen: Pen) -> list[Shape]:
    """Separate heads on forking branches, short tentacles with side knobs and anchor tips."""
    heads = [(112, 196), (290, 190), (200, 148), (156, 256), (256, 254)]
    limbs_of = [taper([(200, 340), (200 + (x - 200) * 0.5, 304), (x, y + 20)], 34, 40) for x, y in heads]
    shapes: list[Shape] = [
        blobs(limbs_of, down(pen.bone(0.66), pen.bone(0.34))),
    ]
    head: list[Shape] = []
    for light, reach, count in ((0.5, 58, 15), (0.68, 36, 11)):
        curves = []
        for at in range(count):
            angle = -30 + 240 * (at + 0.5) / count
            start = (16 * math.cos(math.radians(angle)), -9 * math.sin(math.radians(angle)))
            curves.append(pen.bend(start, angle + pen.spread(8), pen.near(reach, 0.14), pen.spread(20), 2))
        knobs = [
            p
            for curve in curves
            for p in (curve[1], ((curve[1][0] + curve[2][0]) / 2 + 5, (curve[1][1] + curve[2][1]) / 2))
        ]
        bars = _anchors(curves, 7)
        head += [
            *tentacles(pen, curves, 8, light),
            dots(knobs, 5.4, flat(pen.main(light + 0.04))),
            lines(bars, 11, flat(pen.deep(0.22))),
            lines(bars, 8, flat(pen.accent(light + 0.2))),
        ]
    places = [Place(x, y, 1 if x < 200 else -1, 1, pen.spread(12)) for x, y in sorted(heads, key=lambda h: h[1])]
    return [*shapes, stamp(head, places)]


def elegance(pen: Pen) -> list[Shape]:
    """A broad striped disc of flesh in folds over a buried cone, fringed with long tapering tentacles."""
    rim = []
    for at in range(19):
        share = at / 18
        rim.append((62 + 276 * share, 208 + (26 if at % 2 else -12) + 46 * math.sin(math.pi * share)))
    back = [(334, 186), (280, 158), (200, 148), (120, 158), (66, 186)]
    behind = [
        pen.bend((x, y + 8), 90 + (200 - x) * 0.24, pen.near(74, 0.2), pen.spread(34), 3)
        for x, y in ((76 + at * 19, 172 - 18 * math.sin(math.pi * at / 13)) for at in range(14))
    ]
    front = [pen.bend((x, y - 4), -90 + (x - 200) * 0.16, pen.near(46, 0.25), pen.spread(50), 3) for x, y in rim[::1]]
    stripes = [
        [(200 + (x - 200) * 0.25, 186), (200 + (x - 200) * 0.7, 190 + (y - 190) * 0.4), (x, y - 4)] for x, y in rim
    ]
    return [
        blob([(140, 214), (260, 214), (222, 330), (204, 346), (180, 330)], down(pen.bone(0.7), pen.bone(0.4))),
        *tentacles(pen, behind, 8, 0.6, 5.5, 0.86),
        blob([*rim, *back], down(pen.main(0.7), pen.main(0.46))),
        lines(stripes, 4.5, down(pen.accent(0.86), pen.accent(0.66), 0.35, 0.9)),
        lines([[(120, 178), (160, 186), (200, 178), (240, 187), (282, 178)]], 7, flat(pen.deep(0.22), 0.75)),
        *tentacles(pen, front, 8.5, 0.76, 6, 0.9),
    ]


def _bubble(pen: Pen, radius: float, light: float) -> list[Shape]:
    """One glassy bubble around the origin."""
    shine = [(radius * 0.1, radius * 0.76), (radius * 0.62, radius * 0.62), (radius * 0.78, radius * 0.1)]
    return [
        Oval(0, 0, radius * 1.06, radius * 1.06, flat(pen.deep(0.24), 0.85)),
        Oval(0, 0, radius, radius, out(pen.main(light + 0.1), pen.main(light - 0.26))),
        lines([shine], radius * 0.13, flat(pen.main(0.92), 0.5)),
        Oval(-radius * 0.34, -radius * 0.4, radius * 0.26, radius * 0.17, flat("#ffffff", 0.85), -35),
    ]


def grape_bubbles(pen: Pen) -> list[Shape]:
    """A heap of large water-filled bubbles over a bladed skeleton."""
    shapes: list[Shape] = [blob([(120, 280), (280, 280), (240, 346), (160, 346)], down(pen.bone(0.7), pen.bone(0.35)))]
    spots = pen.scatter(200, 216, 112, 84, 30, 0.04)
    for at, light in ((0, 0.6), (10, 0.7), (20, 0.8)):
        places = [
            Place(x, y, size, size * 0.95, pen.spread(20))
            for x, y in spots[at : at + 10]
            for size in (pen.near(1, 0.14),)
        ]
        shapes.append(stamp(_bubble(pen, 31, light), places))
    return shapes


def pearl_bubbles(pen: Pen) -> list[Shape]:
    """Many small pear-shaped bubbles with fingertips, crowded over a domed skeleton."""
    dome = Dome(200, 282, 142, 132)
    spots = [(x, y) for x, y, facing in (dome.project(u, v) for u, v in unit_scatter(pen, 88, 0.02)) if facing > 0.05]
    spots.sort(key=lambda p: p[1])
    shapes: list[Shape] = [
        blob(dome.outline(pen), down(pen.main(0.42), pen.main(0.22))),
    ]
    for share, light in ((0, 0.6), (1, 0.7), (2, 0.8)):
        part = spots[len(spots) * share // 3 : len(spots) * (share + 1) // 3]
        nub = [(0, -10), (1, -24)]
        pearl = [
            lines([nub], 9, flat(pen.deep(0.26), 0.7)),
            lines([nub], 6, flat(pen.main(light + 0.1))),
            *_bubble(pen, 16.5, light)[:2],
        ]
        shapes.append(stamp(pearl, [Place(x, y, 1, 1, (x - 200) * 0.3) for x, y in part]))
        shapes.append(dots(shifted(part, -4, -5), 2.6, flat("#ffffff", 0.8)))
    return shapes


def _pot_stems(pen: Pen, heads: list[Point]) -> list[list[Point]]:
    return [
        [(200 + (x - 200) * 0.45, 306), (200 + (x - 200) * 0.85 + pen.spread(10), (y + 300) / 2), (x, y)]
        for x, y in heads
    ]


def flowerpot_24(pen: Pen) -> list[Shape]:
    """Long-stalked daisies with two dozen slim tentacles on a round skeleton."""
    daisy = crown(pen, 24, 9, 32, 0.06)
    bloom: list[Shape] = [
        lines(daisy, 4.6, flat(pen.deep(0.22), 0.7)),
        lines(daisy, 2.8, flat(pen.main(0.8))),
        dots([(0, 0)], 13, flat(pen.deep(0.3))),
        dots([(0, 0)], 11.5, flat(pen.accent(0.8))),
        lines([[(-4, 0), (4, 0)]], 3, flat(pen.deep(0.25))),
    ]
    heads = sorted(pen.scatter(200, 180, 138, 104, 24, 0.05), key=lambda p: p[1])
    stems = _pot_stems(pen, heads)
    return [
        blob(Dome(200, 334, 78, 48).outline(pen), down(pen.bone(0.66), pen.bone(0.36))),
        lines(stems, 13, flat(pen.deep(0.22))),
        lines(stems, 9, down(pen.main(0.62), pen.main(0.34))),
        stamp(bloom, [Place(x, y, 1, 0.82, pen.spread(30)) for x, y in heads]),
    ]


def flowerpot_12(pen: Pen) -> list[Shape]:
    """Shorter, fuller flower heads of just twelve blunt-ended tentacles."""
    petals = crown(pen, 12, 6, 35, 0.05)
    bloom: list[Shape] = [
        lines(petals, 12, flat(pen.deep(0.22), 0.8)),
        lines(petals, 8.5, flat(pen.main(0.72))),
        dots([petal[-1] for petal in petals], 6.4, flat(pen.main(0.87))),
        dots([(0, 0)], 9, flat(pen.accent(0.92))),
        dots([(0, 0)], 3, flat(pen.deep(0.25))),
    ]
    heads = sorted(pen.scatter(200, 216, 128, 84, 15, 0.05), key=lambda p: p[1])
    stems = _pot_stems(pen, heads)
    return [
        blob(Dome(200, 330, 112, 66).outline(pen), down(pen.main(0.46), pen.main(0.24))),
        lines(stems, 20, flat(pen.deep(0.22))),
        lines(stems, 16, down(pen.main(0.66), pen.main(0.4))),
        stamp(bloom, [Place(x, y, 1, 0.84, pen.spread(15)) for x, y in heads]),
    ]


def whiskers(pen: Pen) -> list[Shape]:
    """Branching tubes ending in round discs with a ring of long whiskers."""
    heads = [(106, 190), (296, 180), (200, 124), (150, 268), (258, 264)]
    tubes = [taper([(200 + (x - 200) * 0.3, 340), (200 + (x - 200) * 0.6, 300), (x, y + 8)], 44, 50) for x, y in heads]
    whisk = crown(pen, 30, 24, 66, 0.2, 0.74)
    head: list[Shape] = [
        lines(whisk, 6, flat(pen.deep(0.24), 0.7)),
        lines(whisk, 3.6, flat(pen.main(0.74))),
        dots([w[-1] for w in whisk], 3, flat(pen.main(0.92))),
        Oval(0, 0, 33, 23, flat(pen.deep(0.24))),
        Oval(0, 0, 31, 21, out(pen.accent(0.86), pen.accent(0.5))),
        lines(rays(0, 0, 30, 20, 16, 0.4, 0.95), 1.6, flat(pen.main(0.3), 0.7)),
        Oval(0, 0, 9, 5, flat(pen.deep(0.22))),
    ]
    shapes: list[Shape] = []
    for (x, y), tube in sorted(zip(heads, tubes, strict=True), key=lambda pair: pair[0][1]):
        shapes += [
            blob(tube, down(pen.bone(0.78), pen.bone(0.36))),
            stamp(head, [Place(x, y, 0.96, 0.96, pen.spread(12))]),
        ]
    return shapes


def sun_tubes(pen: Pen) -> list[Shape]:
    """A clump of stout orange cups, each open with a fringe of pointed yellow tentacles."""
    heads = sorted(pen.scatter(200, 226, 112, 78, 12, 0.05), key=lambda p: p[1])
    tubes = [taper([(200 + (x - 200) * 0.6, 338), (x, y)], 44, 54) for x, y in heads]
    petals = []
    for at in range(20):
        angle = math.tau * at / 20
        cos, sin, far = math.cos(angle), math.sin(angle), pen.near(46, 0.1)
        petals.append(
            [(22 * cos - 5 * sin, 22 * sin + 5 * cos), (far * cos, far * sin), (22 * cos + 5 * sin, 22 * sin - 5 * cos)]
        )
    bloom: list[Shape] = [
        blobs(petals, flat(pen.accent(0.88)), sharp=True),
        dots([(0, 0)], 26, flat(pen.deep(0.22))),
        dots([(0, 0)], 24, flat(pen.main(0.66))),
        lines(rays(0, 0, 23, 23, 12, 0.4, 0.95), 2.6, flat(pen.main(0.8))),
        Oval(0, 0, 9, 5, flat(pen.main(0.3))),
    ]
    shapes: list[Shape] = []
    for (x, y), tube in zip(heads, tubes, strict=True):
        shapes += [
            blob(tube, down(pen.main(0.66), pen.main(0.3))),
            stamp(bloom, [Place(x, y, 0.88, 0.66, pen.spread(15))]),
        ]
    return shapes
