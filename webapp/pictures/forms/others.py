"""Anemones and giant clams, which sell beside corals."""

import math

from webapp.pictures.parts import tentacles
from webapp.pictures.pen import Pen, down, ellipse_points, flat, out, rays, shifted, taper
from webapp.pictures.shapes import Oval, Point, Shape, blob, blobs, dots, lines


def bubble_tip(pen: Pen) -> list[Shape]:
    """An anemone whose tentacles swell into bulbs just below a pointed tip."""
    shapes: list[Shape] = [
        blob(taper([(200, 344), (196, 300), (200, 240)], 74, 130), down(pen.accent(0.56), pen.accent(0.28)))
    ]
    for count, rx, ry, reach, light, size in (
        (22, 92, 46, 70, 0.48, 14),
        (18, 70, 34, 58, 0.6, 15),
        (13, 42, 20, 44, 0.72, 16),
    ):
        curves = []
        for x, y in ellipse_points(200, 234, rx, ry, count, pen.chance.uniform(0, 1)):
            angle = math.degrees(math.atan2(234 - y + 62, (x - 200) * 1.1))
            curves.append(pen.bend((x, y), angle, pen.near(reach, 0.2), pen.spread(30), 3))
        curves.sort(key=lambda curve: curve[-1][1])
        bulbs = [curve[-1] for curve in curves]
        nibs = []
        for curve in curves:
            (x0, y0), (x, y) = curve[-2], curve[-1]
            ux, uy = (x - x0) / math.dist(curve[-2], curve[-1]), (y - y0) / math.dist(curve[-2], curve[-1])
            nibs.append([(x + ux * size * 0.85, y + uy * size * 0.85), (x + ux * size * 1.35, y + uy * size * 1.35)])
        shapes += [
            *tentacles(pen, curves, 11, light),
            lines(nibs, 8.4, flat(pen.deep(0.24))),
            dots(bulbs, size + 1.6, flat(pen.deep(0.24))),
            dots(bulbs, size, down(pen.main(light + 0.1), pen.main(light - 0.08))),
            lines(nibs, 5.6, flat(pen.accent(0.9))),
            dots(shifted(bulbs, -size * 0.3, -size * 0.3), size * 0.26, flat("#ffffff", 0.7)),
        ]
    return shapes


def rock_flower(pen: Pen) -> list[Shape]:
    """A patterned disc in a hole, ringed with short warty tentacles."""
    shapes: list[Shape] = [Oval(200, 292, 150, 60, flat("#050a16", 0.5))]
    for rx, ry, light, width in ((148, 84, 0.48, 19), (130, 72, 0.6, 17), (112, 60, 0.72, 15)):
        spokes = rays(200, 258, rx, ry, 24, 0.7, 1)
        knots = [(a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s) for a, b in spokes for s in (0.35, 0.7)]
        shapes += [
            lines(spokes, width + 3, flat(pen.deep(0.2))),
            lines(spokes, width, down(pen.main(light + 0.06), pen.main(light - 0.14))),
            dots(knots, width * 0.3, flat(pen.accent(light + 0.2))),
        ]
    blotches = [p for share in (0.45, 0.7) for p in ellipse_points(200, 256, 104 * share, 52 * share, 12, share)]
    return [
        *shapes,
        Oval(200, 256, 94, 48, out(pen.accent(0.74), pen.accent(0.4))),
        lines(rays(200, 256, 92, 46, 24, 0.35, 0.97), 4, flat(pen.main(0.9), 0.8)),
        dots(blotches, 5, flat(pen.main(0.26), 0.8)),
        Oval(200, 256, 24, 12, out(pen.accent(0.93), pen.accent(0.6))),
        lines([[(184, 256), (216, 256)]], 5, flat(pen.deep(0.18))),
    ]


def mini_carpet(pen: Pen) -> list[Shape]:
    """A flat carpet of short beads in blotches of light and dark, its edge in loose folds."""
    edge = pen.frill(200, 258, 156, 84, 8, 0.09, 5)
    beads = []
    for x, y in pen.scatter(200, 256, 150, 78, 250, 0.01):
        beads.append((x, y, math.sin(x / 24 + 1.5 * math.sin(y / 17)) + math.cos(y / 13)))
    shapes: list[Shape] = [
        blob(shifted(edge, 0, 18), down(pen.main(0.34), pen.main(0.18))),
        blob(edge, flat(pen.main(0.3))),
    ]
    for low, high, colour in ((-9, -0.4, pen.main(0.4)), (-0.4, 0.7, pen.main(0.66)), (0.7, 9, pen.accent(0.88))):
        part = [(x, y) for x, y, tone in beads if low <= tone < high]
        shapes += [
            dots(shifted(part, 0.6, 2.4), 6.6, flat(pen.deep(0.18))),
            dots(part, 6, flat(colour)),
            dots(shifted(part, -2, -2), 1.6, flat("#ffffff", 0.55)),
        ]
    return [
        *shapes,
        Oval(200, 252, 26, 12, flat(pen.main(0.28))),
        Oval(200, 252, 21, 9, flat(pen.accent(0.8))),
        Oval(200, 252, 9, 2, flat(pen.deep())),
    ]


def _mantle(pen: Pen, x: float, y: float, rx: float, ry: float, waves: int) -> list[Shape]:
    """The coloured mantle of an open clam, its two siphons and rows of eyes."""

    def lips(share: float) -> list[Point]:
        rim = []
        for at in range(8 * waves):
            angle = math.tau * at / (8 * waves)
            fold = 1 + 0.2 * math.cos(waves * angle * 2)
            rim.append(
                (
                    x + rx * share * math.cos(angle) * (1 + 0.09 * math.cos(waves * angle * 2)),
                    y + ry * share * math.sin(angle) * fold,
                )
            )
        return rim

    eyes = [p for at, p in enumerate(lips(0.88))]
    spots = [p for share in (0.5, 0.66) for p in lips(share)[::2]]
    return [
        blob(shifted(lips(1.04), 0, 8), flat(pen.deep(0.16))),
        blob(lips(1.03), flat(pen.accent(0.86))),
        blob(lips(0.97), out(pen.main(0.66), pen.main(0.42))),
        blob(lips(0.78), flat(pen.main(0.32), 0.8)),
        blob(lips(0.72), out(pen.main(0.76), pen.main(0.5))),
        dots(spots, 5, flat(pen.accent(0.88), 0.8)),
        dots(eyes, 2.6, flat(pen.deep(0.16))),
        Oval(x - rx * 0.3, y, rx * 0.2, ry * 0.15, flat(pen.accent(0.88))),
        Oval(x - rx * 0.3, y, rx * 0.17, ry * 0.09, flat("#04070f")),
        Oval(x + rx * 0.36, y - ry * 0.03, rx * 0.08, ry * 0.16, flat(pen.accent(0.88))),
        Oval(x + rx * 0.36, y - ry * 0.03, rx * 0.05, ry * 0.1, flat("#04070f")),
    ]


def bored_clam(pen: Pen) -> list[Shape]:
    """A small clam set in rock, seen from above: mantle in deep waves over a toothed shell edge."""
    shell = []
    for at in range(22):
        angle = math.tau * at / 22
        size = 1.1 if at % 2 else 0.94
        shell.append((200 + 150 * size * math.cos(angle), 252 + 84 * size * math.sin(angle)))
    return [
        blob(shifted(shell, 0, 18), flat(pen.bone(0.34))),
        blob(shell, down(pen.bone(0.95), pen.bone(0.6))),
        *_mantle(pen, 200, 244, 142, 72, 4),
    ]


def fluted_clam(pen: Pen) -> list[Shape]:
    """A larger clam from the side: broad ribs with leaf-like scales, mantle spread along the top."""
    valve = [
        (44, 214),
        (70, 176),
        (124, 196),
        (168, 172),
        (214, 196),
        (260, 172),
        (308, 194),
        (348, 176),
        (362, 220),
        (316, 290),
        (252, 336),
        (176, 340),
        (96, 300),
    ]
    shapes: list[Shape] = [
        blob(shifted(valve, 0, 8), flat("#050a16", 0.5)),
        blob(valve, down(pen.bone(0.96), pen.bone(0.5))),
    ]
    for x in (76, 138, 202, 266, 328):
        rib = [(x, 200), (200 + (x - 200) * 0.82, 262), (200 + (x - 200) * 0.5, 328)]
        shapes.append(blob(taper(rib, 46, 18), down(pen.bone(0.92), pen.bone(0.6))))
        scales = []
        for share in (0.16, 0.42, 0.66, 0.86):
            cx, cy, half = 200 + (x - 200) * (1 - 0.5 * share), 196 + 134 * share, 25 - 12 * share
            scales.append(
                [
                    (cx - half, cy),
                    (cx - half * 0.6, cy + half * 0.7),
                    (cx, cy + half * 0.9),
                    (cx + half * 0.6, cy + half * 0.7),
                    (cx + half, cy),
                    (cx, cy - 5),
                ]
            )
        shapes += [
            blobs([shifted(scale, 0, 4) for scale in scales], flat(pen.bone(0.34), 0.8)),
            blobs(scales, down(pen.bone(0.98), pen.bone(0.72))),
        ]
    back = [(50, 200), (90, 150), (150, 164), (200, 140), (254, 164), (314, 148), (354, 196)]
    front = [(340, 214), (308, 192), (262, 216), (214, 190), (168, 218), (122, 190), (66, 216)]
    spots = [(70 + 13 * at, 186 + 10 * math.sin(at * 1.3)) for at in range(21)]
    return [
        *shapes,
        blob([*back, *front], flat(pen.accent(0.86))),
        blob(
            [(200 + (x - 200) * 0.97, 180 + (y - 180) * 0.8) for x, y in [*back, *front]],
            down(pen.main(0.7), pen.main(0.4)),
        ),
        lines([back], 5, flat(pen.main(0.84), 0.7)),
        dots(spots, 4.6, flat(pen.accent(0.86))),
        dots(shifted(spots, 5, -12), 2.4, flat(pen.deep(0.16))),
        Oval(160, 178, 28, 6, flat("#04070f")),
    ]
