"""Mushroom corals: single soft discs without a skeleton."""

import math

from webapp.pictures.parts import tentacles
from webapp.pictures.pen import Pen, down, ellipse_points, flat, out, rays, shifted, taper
from webapp.pictures.shapes import Oval, Shape, blob, dots, lines


def _stalk(pen: Pen, top: float = 250, wide: float = 60) -> Shape:
    return blob(taper([(200, 334), (200, 300), (200, top)], wide * 1.3, wide), down(pen.main(0.5), pen.main(0.25)))


def _mouth(pen: Pen, x: float, y: float, rx: float = 16) -> list[Shape]:
    return [
        Oval(x, y, rx, rx * 0.6, out(pen.accent(0.9), pen.accent(0.6))),
        Oval(x, y - 1, rx * 0.45, rx * 0.2, flat(pen.deep(0.2))),
    ]


def _beads(points: list, radius: float, colour: str, shade: str) -> list[Shape]:
    return [
        dots(shifted(points, 0, radius * 0.25), radius * 1.14, flat(shade, 0.75)),
        dots(points, radius, down(colour, shade)),
        dots(points, radius * 0.9, flat(colour, 0.55)),
        dots(shifted(points, -radius * 0.3, -radius * 0.35), radius * 0.3, flat("#ffffff", 0.8)),
    ]


def smooth_disc(pen: Pen) -> list[Shape]:
    """A flat, smooth disc with stripes and spots, a bud beside its foot."""
    disc = pen.frill(196, 238, 138, 66, 10, 0.03, 3)
    bud = pen.ring(262, 322, 40, 17, 10)
    return [
        _stalk(pen),
        blob(shifted(disc, 0, 13), down(pen.main(0.45), pen.main(0.22))),
        blob(disc, out(pen.main(0.72), pen.main(0.42))),
        lines(rays(196, 236, 130, 60, 28, 0.3, 0.96), 4, flat(pen.accent(0.82), 0.5)),
        dots(pen.scatter(196, 238, 112, 50, 26, 0.1), 5, flat(pen.accent(0.9), 0.85)),
        *_mouth(pen, 196, 234),
        blob(shifted(bud, 0, 8), flat(pen.main(0.3))),
        blob(bud, out(pen.main(0.7), pen.main(0.42))),
        lines(rays(262, 322, 36, 14, 14), 2.5, flat(pen.accent(0.85), 0.6)),
        *_mouth(pen, 262, 321, 6),
    ]


def hairy_disc(pen: Pen) -> list[Shape]:
    """A disc grown over with short forked hairs, a fringe of points round the edge."""
    roots = pen.scatter(200, 240, 124, 58, 120, 0.06)
    hairs = []
    for x, y in roots:
        lean = (x - 200) * 0.1
        high = pen.near(15, 0.3)
        hairs += [[(x, y), (x + lean - 4, y - high)], [(x, y), (x + lean + 5, y - high * 0.9)]]
    rim = ellipse_points(200, 244, 128, 64, 46)
    fringe = [[(x, y), (x + (x - 200) * 0.14, y + (y - 244) * 0.2 + 5)] for x, y in rim]
    disc = pen.ring(200, 242, 132, 64, 18, 0.03)
    return [
        _stalk(pen),
        lines(fringe, 8, flat(pen.main(0.4))),
        lines(fringe, 4, flat(pen.main(0.72))),
        blob(shifted(disc, 0, 8), flat(pen.main(0.26))),
        blob(disc, out(pen.main(0.5), pen.main(0.32))),
        lines(hairs[:120], 4, down(pen.main(0.66), pen.main(0.6))),
        lines(hairs[120:], 4, down(pen.main(0.74), pen.main(0.82))),
        dots([hair[-1] for hair in hairs[::2]], 2.6, flat(pen.accent(0.9))),
        *_mouth(pen, 200, 230, 13),
    ]


def elephant_ear(pen: Pen) -> list[Shape]:
    """A very large disc that hangs over its rock in folds."""

    def skirt(grow: float, drop: float) -> list:
        rim = []
        for at in range(25):
            angle = math.pi * at / 24
            fold = (1 if at % 2 else -1) * 20 * grow * math.sin(angle)
            rim.append((200 - 178 * grow * math.cos(angle), 176 + drop + 112 * grow * math.sin(angle) + fold))
        back = [
            (200 + 172 * grow * math.cos(math.pi * at / 9), 176 - 64 * grow * math.sin(math.pi * at / 9) + drop * 0.3)
            for at in range(1, 9)
        ]
        return rim + back

    folds = []
    for at in range(1, 24):
        angle = math.pi * at / 24
        reach = 0.92 if at % 2 else 0.78
        folds.append(
            [
                (200 - 60 * math.cos(angle), 182 + 18 * math.sin(angle)),
                (200 - 130 * math.cos(angle), 178 + 46 * math.sin(angle)),
                (200 - 176 * reach * math.cos(angle), 178 + 112 * reach * math.sin(angle)),
            ]
        )
    warts = [(x, y - 8) for x, y in pen.scatter(200, 196, 140, 62, 80, 0.05)]
    return [
        _stalk(pen, 230, 96),
        blob(skirt(1, 14), down(pen.main(0.4), pen.main(0.18))),
        blob(skirt(1, 0), down(pen.main(0.74), pen.main(0.36))),
        lines(folds[::2], 9, down(pen.main(0.8), pen.main(0.6), 0.1, 0.7)),
        lines(folds[1::2], 7, down(pen.main(0.3), pen.main(0.22), 0.05, 0.7)),
        dots(warts, 4, down(pen.accent(0.86), pen.accent(0.6))),
        *_mouth(pen, 200, 170, 20),
    ]


def bubble_disc(pen: Pen) -> list[Shape]:
    """A disc covered with swollen bubbles of several sizes."""
    shapes: list[Shape] = [_stalk(pen), blob(pen.ring(200, 252, 118, 58, 14), down(pen.main(0.5), pen.main(0.25)))]
    spots = pen.scatter(200, 232, 116, 58, 54, 0.05)
    pen.chance.shuffle(spots)
    for points, radius, light in ((spots[:22], 11, 0.66), (spots[22:42], 16, 0.72), (spots[42:], 22, 0.78)):
        points = sorted(points, key=lambda point: point[1])
        shapes += _beads(points, radius, pen.main(light), pen.main(light - 0.3))
        shapes.append(dots(shifted(points, radius * 0.2, radius * 0.3), radius * 0.35, flat(pen.accent(0.85), 0.35)))
    return shapes


def beaded_disc(pen: Pen) -> list[Shape]:
    """Round-tipped beads all of one size, crowded over a lobed disc with three mouths."""
    lobes = [(140, 262, 78, 44), (262, 258, 82, 46), (202, 226, 88, 48)]
    shapes: list[Shape] = []
    for x, y, rx, ry in lobes:
        shapes += [
            blob(shifted(pen.ring(x, y, rx, ry, 12, 0.03), 0, 12), down(pen.main(0.4), pen.main(0.2))),
            blob(pen.ring(x, y, rx, ry, 12, 0.03), flat(pen.main(0.4))),
        ]
    for x, y, rx, ry in sorted(lobes, key=lambda lobe: lobe[1]):
        beads = [
            p for p in pen.scatter(x, y, rx * 0.98, ry * 0.98, 62, 0.02) if math.hypot(p[0] - x, (p[1] - y) * 1.8) > 15
        ]
        shapes += _beads(beads, 6.2, pen.main(0.78), pen.main(0.36))
        shapes += _mouth(pen, x, y - 2, 12)
    return [_stalk(pen, 270, 150), *shapes]


def graded_disc(pen: Pen) -> list[Shape]:
    """Seen from above: beads in spokes that grow towards a ruffled edge, one raised mouth."""
    disc = pen.frill(200, 206, 138, 118, 11, 0.05)
    shapes: list[Shape] = [
        _stalk(pen, 280, 90),
        blob(shifted(disc, 0, 14), flat(pen.main(0.22))),
        blob(disc, out(pen.main(0.46), pen.main(0.32))),
    ]
    for step, radius in enumerate((3.4, 4.6, 6, 7.6, 9.6)):
        reach = (0.26, 0.4, 0.56, 0.74, 0.95)[step]
        beads = ellipse_points(200, 204, 134 * reach, 114 * reach, 22, step % 2 * math.pi / 22)
        tone = pen.accent if step % 2 else pen.main
        shapes += _beads(sorted(beads, key=lambda p: p[1]), radius, tone(0.8), pen.main(0.38))
    return [
        *shapes,
        Oval(200, 202, 24, 20, out(pen.accent(0.92), pen.accent(0.5))),
        Oval(200, 200, 12, 4, flat(pen.deep())),
    ]


def giant_cup(pen: Pen) -> list[Shape]:
    """A thin, smooth disc that closes upwards into a deep cup."""
    wall = [
        (150, 330),
        (122, 300),
        (70, 236),
        (62, 168),
        (84, 122),
        (200, 150),
        (316, 122),
        (338, 168),
        (330, 236),
        (278, 300),
        (250, 330),
    ]
    ribs = []
    for at in range(13):
        share = (at - 6) / 6
        ribs.append(
            [
                (200 + 44 * share, 326),
                (200 + 112 * share, 270),
                (200 + 138 * share, 200),
                (200 + 112 * share, 146 + 22 * (1 - share**2)),
            ]
        )
    rim = pen.frill(200, 138, 124, 42, 9, 0.03, 3)
    return [
        blob(shifted(rim, 0, -3), flat(pen.main(0.78))),
        blob(rim, down(pen.main(0.2), pen.main(0.5))),
        lines(rays(200, 148, 108, 34, 22, 0.2, 0.98), 2.5, flat(pen.accent(0.7), 0.55)),
        Oval(200, 152, 15, 7, flat(pen.accent(0.82))),
        Oval(200, 152, 6, 2, flat(pen.deep())),
        blob(wall, down(pen.main(0.74), pen.main(0.34), 0.93, 1)),
        lines(ribs, 5, down(pen.main(0.9), pen.main(0.5), 0.6, 0.25)),
        lines([[(84, 134), (130, 168), (200, 176), (270, 168), (316, 134)]], 6, flat(pen.accent(0.9), 0.9)),
    ]


def ball_tips(pen: Pen) -> list[Shape]:
    """A clear column and long see-through tentacles, each with a bright ball at its end."""
    shapes: list[Shape] = []
    for layer, (count, reach, light) in enumerate(((17, 150, 0.5), (15, 118, 0.62), (11, 76, 0.74))):
        curves = []
        for at in range(count):
            angle = -0.25 + (math.pi + 0.5) * (at + 0.5) / count + pen.spread(0.07)
            far = pen.near(reach, 0.14)
            foot = (200 + 54 * math.cos(angle), 236 - 14 * math.sin(angle) + layer * 7)
            end = (200 + far * math.cos(angle), 226 - far * 0.95 * math.sin(angle) + layer * 12)
            curves.append([foot, ((foot[0] + end[0]) / 2 + pen.spread(14), (foot[1] + end[1]) / 2 - 12), end])
        shapes += tentacles(pen, curves, 5, light, 10 - layer, 0.84)
    column = [(150, 334), (160, 300), (140, 240), (200, 222), (260, 240), (240, 300), (250, 334)]
    stripes = [[(200 + 10 * at, 328), (200 + 9 * at, 290), (200 + 12 * at, 244)] for at in range(-4, 5)]
    return [
        *shapes[:10],
        blob(column, down(pen.main(0.7), pen.main(0.34), 0.95, 0.95)),
        lines(stripes, 2.5, flat(pen.main(0.85), 0.5)),
        Oval(200, 240, 58, 17, out(pen.main(0.8), pen.main(0.45))),
        Oval(200, 240, 14, 4, flat(pen.deep())),
        *shapes[10:],
    ]
