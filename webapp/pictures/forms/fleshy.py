"""Fleshy stony corals: separate heads, single discs and open or closed brains."""

import math

from webapp.pictures.parts import dome_body, laid, maze
from webapp.pictures.pen import Dome, Pen, down, ellipse_points, flat, out, rays, shifted, taper
from webapp.pictures.shapes import Oval, Place, Point, Shape, blob, blobs, dots, lines, stamp


def candy_heads(pen: Pen) -> list[Shape]:
    """Trumpets on bare stalks, each top round and striped like a sweet."""
    heads = [(118, 196), (284, 194), (200, 150), (86, 268), (316, 266), (200, 236), (146, 288), (258, 290)]
    stalks = [
        taper([(200 + (x - 200) * 0.35, 342), (200 + (x - 200) * 0.75, 316), (x, y + 14)], 26, 46) for x, y in heads
    ]
    top: list[Shape] = [
        Oval(0, 5, 44, 32, flat(pen.deep(0.2))),
        Oval(0, 3, 42, 30, flat(pen.main(0.4))),
        Oval(0, 0, 42, 29, out(pen.main(0.72), pen.main(0.48))),
        lines(rays(0, 0, 41, 28, 18, 0.36, 0.96), 3.4, flat(pen.bone(0.95), 0.85)),
        Oval(0, 0, 17, 11, out(pen.accent(0.9), pen.accent(0.6))),
        Oval(0, 0, 8, 3, flat(pen.deep(0.2))),
    ]
    shapes: list[Shape] = []
    for (x, y), stalk in sorted(zip(heads, stalks, strict=True), key=lambda pair: pair[0][1]):
        shapes += [
            blob(stalk, down(pen.bone(0.74), pen.bone(0.34))),
            stamp(top, [Place(x, y, 0.95, 0.95, pen.spread(12))]),
        ]
    return shapes


def blasto_heads(pen: Pen) -> list[Shape]:
    """Loose fleshy cushions, dark rim and a plain bright middle, side by side on a low base."""
    cushion: list[Shape] = [
        blob(shifted(pen.ring(0, 0, 52, 40, 11, 0.05), 0, 8), flat("#050a16", 0.6)),
        blob(pen.ring(0, 0, 50, 38, 11, 0.05), out(pen.main(0.6), pen.main(0.34))),
        lines(rays(0, 0, 46, 34, 13, 0.62, 0.9), 6, flat(pen.main(0.68), 0.6)),
        Oval(0, -2, 25, 18, flat(pen.accent(0.5))),
        Oval(0, -3, 23, 16, out(pen.accent(0.93), pen.accent(0.72))),
        Oval(0, -3, 7, 3, flat(pen.deep(0.25))),
        Oval(-20, -20, 12, 6, flat("#ffffff", 0.25), -30),
    ]
    spots = [
        (118, 246, 0.9),
        (206, 228, 1.0),
        (294, 248, 0.9),
        (78, 300, 0.8),
        (160, 300, 1.08),
        (252, 306, 1.08),
        (330, 304, 0.78),
    ]
    return [
        blob(pen.ring(200, 312, 140, 30, 12), down(pen.bone(0.5), pen.bone(0.26))),
        stamp(cushion, [Place(x, y, s, s, pen.spread(25)) for x, y, s in spots]),
    ]


def ridged_heads(pen: Pen) -> list[Shape]:
    """A low colony of round heads pressed together; swollen rims banded like a wheel."""
    head: list[Shape] = [
        dots([(0, 0)], 47, flat(pen.deep(0.18))),
        dots([(0, 0)], 44, flat(pen.main(0.52))),
        lines(rays(0, 0, 35, 35, 22, 0.7, 1.18), 6.4, flat(pen.main(0.72))),
        lines(rays(0, 0, 35, 35, 11, 0.7, 1.14), 3.4, flat(pen.accent(0.9))),
        dots([(0, 0)], 24, flat(pen.deep(0.2))),
        dots([(0, 0)], 22, flat(pen.accent(0.6))),
        lines(rays(0, 0, 20, 20, 11, 0.3, 0.9), 2, flat(pen.main(0.85))),
        dots([(0, 0)], 6, flat(pen.deep(0.25))),
    ]
    heads = sorted(pen.scatter(200, 258, 118, 62, 13, 0.03), key=lambda p: p[1])
    return [
        blob(pen.ring(200, 288, 152, 62, 14), down(pen.main(0.4), pen.main(0.16))),
        stamp(head, [Place(x, y, 0.98, 0.76, pen.spread(20)) for x, y in heads]),
    ]


def lobed(pen: Pen) -> list[Shape]:
    """A few big, separate fleshy lobes of irregular outline, each with folds towards its own mouths."""
    shapes: list[Shape] = []
    for x, y, rx, ry, turn in (
        (128, 218, 74, 48, 0.3),
        (270, 212, 78, 48, 2.0),
        (96, 288, 62, 38, 1.2),
        (200, 282, 74, 46, 0),
        (308, 286, 60, 40, 2.6),
    ):
        outline = [
            (
                px + 7 * math.sin(2 * math.atan2(py - y, px - x) + turn),
                py + 7 * math.cos(3 * math.atan2(py - y, px - x) + turn),
            )
            for px, py in pen.ring(x, y, rx, ry, 20, 0.04)
        ]
        inner = [(x + (px - x) * 0.42, y + (py - y) * 0.42) for px, py in outline]
        folds = [
            [(x + (px - x) * 0.5, y + (py - y) * 0.5), (x + (px - x) * 0.9, y + (py - y) * 0.9)] for px, py in outline
        ]
        shapes += [
            blob(taper([(200 + (x - 200) * 0.6, 344), (x, y + 44)], rx, rx * 1.4), down(pen.bone(0.5), pen.bone(0.26))),
            blob(shifted(outline, 0, 9), flat(pen.main(0.2))),
            blob(outline, out(pen.main(0.74), pen.main(0.42))),
            lines(folds, 9, flat(pen.main(0.36), 0.55)),
            blob(inner, flat(pen.accent(0.4))),
            blob(
                [(x + (px - x) * 0.84, y + (py - y) * 0.84 - 1) for px, py in inner],
                out(pen.accent(0.84), pen.accent(0.56)),
            ),
            lines([[(x - 12, y), (x + 12, y - 1)]], 5, flat(pen.deep(0.2))),
        ]
    return shapes


def closed_brain(pen: Pen) -> list[Shape]:
    """A heavy dome with few, very wide winding valleys, a groove along each ridge."""
    dome = Dome(200, 280, 148, 142)
    valleys = laid(dome, maze(pen, 12, 0.35))
    return [
        *dome_body(pen, dome, 0.74, 0.32),
        lines(valleys, 20, flat(pen.main(0.46))),
        lines(valleys, 15, flat(pen.main(0.26))),
        lines(valleys, 9.5, flat(pen.accent(0.5))),
        dots([p for v in valleys for p in v[::2]], 4.4, flat(pen.accent(0.84))),
        dots([p for v in valleys for p in v[::2]], 1.6, flat(pen.deep(0.2))),
    ]


def doughnut(pen: Pen) -> list[Shape]:
    """One swollen polyp: a ring of glassy lobes round a flat mouth, white teeth shining through."""
    shapes: list[Shape] = [blob([(128, 290), (272, 290), (236, 346), (164, 346)], down(pen.bone(0.7), pen.bone(0.4)))]
    for count, rx, ry, size, light in ((11, 112, 66, 44, 0.58), (9, 78, 42, 34, 0.7)):
        lobes = sorted(ellipse_points(200, 240, rx, ry, count, pen.chance.uniform(0, 1)), key=lambda p: p[1])
        teeth = [
            [(200 + (x - 200) * 0.7, 240 + (y - 240) * 0.7), (200 + (x - 200) * 1.16, 240 + (y - 240) * 1.16)]
            for x, y in lobes
        ]
        shapes += [
            dots(lobes, size + 3, flat(pen.deep(0.24))),
            dots(lobes, size, down(pen.main(light + 0.06), pen.main(light - 0.2))),
            lines(teeth, 7, flat(pen.bone(0.95), 0.5)),
            dots(shifted(lobes, -size * 0.3, -size * 0.36), size * 0.24, flat("#ffffff", 0.6)),
        ]
    return [
        *shapes,
        Oval(200, 236, 54, 28, flat(pen.deep(0.24))),
        Oval(200, 236, 50, 25, out(pen.accent(0.86), pen.accent(0.5))),
        Oval(200, 236, 22, 6, flat(pen.deep(0.18))),
    ]


def open_brain(pen: Pen) -> list[Shape]:
    """One puffy polyp folded into a figure of eight over a cone that stands in the sand."""
    rim: list[Point] = []
    for at in range(32):
        angle = math.tau * at / 32
        waist = 0.77 + 0.3 * math.cos(2 * angle)
        fold = 1 + (0.06 if at % 2 else -0.06)
        rim.append((200 + 150 * math.cos(angle) * waist * fold, 246 + 122 * math.sin(angle) * waist * fold))

    def drawn_in(share: float, lift: float = 0) -> list[Point]:
        return [(200 + (x - 200) * share, 246 + (y - 246) * share - lift) for x, y in rim]

    ribs = [
        [(200 + (x - 200) * 0.56, 242 + (y - 242) * 0.5), (200 + (x - 200) * 0.78, 240 + (y - 246) * 0.78), (x, y)]
        for x, y in rim
    ]
    valley = [[(96, 244), (136, 254), (170, 240), (200, 246), (230, 252), (266, 240), (306, 246)]]
    return [
        blob([(130, 270), (270, 270), (222, 344), (180, 344)], down(pen.bone(0.7), pen.bone(0.4))),
        blob(shifted(rim, 0, 16), down(pen.main(0.34), pen.main(0.2))),
        blob(rim, out(pen.main(0.7), pen.main(0.4))),
        lines(ribs, 6, flat(pen.main(0.82), 0.4)),
        blob(drawn_in(0.68, 4), flat(pen.accent(0.34))),
        blob(drawn_in(0.64, 2), out(pen.accent(0.8), pen.accent(0.48))),
        lines(valley, 20, flat(pen.main(0.3), 0.7)),
        lines(valley, 9, flat(pen.accent(0.88))),
        lines([[(x - 8, y), (x + 8, y)] for x, y in ((128, 250), (270, 243))], 5, flat(pen.deep(0.18))),
    ]


def single_disc(pen: Pen) -> list[Shape]:
    """Seen from above: one large round polyp, bold bands from a flat mouth to a swollen rim."""
    x, y = 200, 226
    outer = pen.ring(x, y, 144, 108, 20, 0.02)
    bands: list[list[Point]] = []
    for at in range(18):
        a, b = math.tau * at / 18, math.tau * (at + pen.chance.uniform(0.35, 0.6)) / 18
        bands.append(
            [
                (x + 46 * math.cos(a), y + 30 * math.sin(a)),
                (x + 136 * math.cos(a), y + 102 * math.sin(a)),
                (x + 136 * math.cos(b), y + 102 * math.sin(b)),
                (x + 46 * math.cos(b), y + 30 * math.sin(b)),
            ]
        )
    teeth = [p for share in (0.52, 0.7, 0.88) for p in ellipse_points(x, y, 144 * share, 108 * share, 36)]
    return [
        blob(shifted(outer, 0, 18), down(pen.main(0.3), pen.main(0.16))),
        blob(outer, out(pen.main(0.66), pen.main(0.4))),
        blobs(bands, out(pen.accent(0.86), pen.accent(0.5)), sharp=True),
        dots(teeth, 3, flat("#ffffff", 0.3)),
        Oval(x, y, 72, 50, flat(pen.main(0.32))),
        lines(rays(x, y, 66, 46, 26, 0.5, 0.96), 4, flat(pen.main(0.86), 0.7)),
        Oval(x, y, 34, 20, out(pen.accent(0.92), pen.accent(0.62))),
        Oval(x, y, 15, 5, flat(pen.deep(0.18))),
        Oval(150, 168, 46, 14, flat("#ffffff", 0.16), -24),
    ]
