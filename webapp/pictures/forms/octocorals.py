"""Eight-tentacled polyps: pulsing stalks, mats, tubes and the blue coral."""

import math

from webapp.pictures.parts import flower
from webapp.pictures.pen import Pen, down, flat, shifted, taper
from webapp.pictures.shapes import Oval, Place, Shape, blob, blobs, dots, lines, stamp


def _feathers(pen: Pen, count: int, reach: float, spread: float, barb: float, upright: bool) -> list[Shape]:
    """A hand of feathery tentacles around the origin, open upwards or spread flat."""
    shafts, barbs = [], []
    for at in range(count):
        angle = (math.pi / 2 + spread * (at / (count - 1) - 0.5)) if upright else math.tau * at / count
        cos, sin = math.cos(angle), math.sin(angle)
        end = (reach * cos, -reach * sin)
        middle = (reach * 0.6 * cos + (10 * cos if upright else 0), -reach * 0.42 * sin)
        shafts.append([(0, 0), middle, end])
        for share in (0.35, 0.5, 0.65, 0.8, 0.95):
            x, y = end[0] * share + (middle[0] - end[0] * 0.5) * (1 - share), end[1] * share
            for side in (-1, 1):
                barbs.append(
                    [(x, y), (x + side * barb * sin + barb * 0.5 * cos, y + side * barb * cos - barb * 0.5 * sin)]
                )
    return [
        lines(shafts + barbs, 5, flat(pen.deep(0.24), 0.5)),
        lines(barbs, 2.2, flat(pen.accent(0.88))),
        lines(shafts, 3.2, flat(pen.main(0.84))),
    ]


def pulsing_stalks(pen: Pen) -> list[Shape]:
    """Smooth pale stalks, each carrying a head of feathery hands that open and close."""
    stalks = [(128, 214, 22), (272, 210, 22), (200, 160, 28), (168, 250, 24), (240, 254, 24)]
    hand = _feathers(pen, 8, 44, 3.0, 8, True)
    shapes: list[Shape] = []
    for x, y, wide in sorted(stalks, key=lambda stalk: stalk[1]):
        shapes.append(
            blob(
                taper([(200 + (x - 200) * 0.55, 338), (200 + (x - 200) * 0.8, 300), (x, y)], wide * 1.7, wide * 1.5),
                down(pen.main(0.84), pen.main(0.46)),
            )
        )
        shapes.append(Oval(x, y, wide * 1.1, wide * 0.7, down(pen.main(0.86), pen.main(0.6))))
        heads = [(-30, 6, -38), (30, 6, 38), (0, -10, 0), (-17, 2, -18), (17, 2, 18)]
        shapes.append(stamp(hand, [Place(x + dx, y + dy, 0.92, 0.92, turn + pen.spread(8)) for dx, dy, turn in heads]))
    return shapes


def waving_hands(pen: Pen) -> list[Shape]:
    """Single long polyps straight from a thin mat, each one feathery hand with long drooping fingers."""
    hand = _feathers(pen, 8, 64, 4.6, 6, True)
    feet = [
        (92, 330, 108, 240),
        (308, 330, 296, 232),
        (136, 326, 148, 176),
        (262, 326, 258, 168),
        (200, 326, 204, 128),
        (172, 334, 176, 250),
        (230, 334, 232, 246),
    ]
    stems = [[(x0, y0), ((x0 + x1) / 2 + pen.spread(14), (y0 + y1) / 2), (x1, y1)] for x0, y0, x1, y1 in feet]
    return [
        blob(pen.ring(200, 332, 128, 15, 12), down(pen.main(0.6), pen.main(0.32))),
        lines(stems, 15, flat(pen.deep(0.24), 0.7)),
        lines(stems, 10, down(pen.main(0.86), pen.main(0.5))),
        stamp(hand, [Place(x, y, 0.9, 0.9, (x - 200) * 0.12) for _, _, x, y in sorted(feet, key=lambda f: f[3])]),
    ]


def clove_polyps(pen: Pen) -> list[Shape]:
    """Short tubes topped by flowers of eight broad, fringed petals."""
    petals = []
    for at in range(8):
        angle = math.tau * at / 8
        cos, sin = math.cos(angle), math.sin(angle)
        petals.append(
            [
                (8 * cos, 8 * sin),
                (26 * cos - 15 * sin, 26 * sin + 15 * cos),
                (50 * cos - 9 * sin, 50 * sin + 9 * cos),
                (50 * cos + 9 * sin, 50 * sin - 9 * cos),
                (26 * cos + 15 * sin, 26 * sin - 15 * cos),
            ]
        )
    ribs = [
        [
            (10 * math.cos(math.tau * at / 8), 10 * math.sin(math.tau * at / 8)),
            (40 * math.cos(math.tau * at / 8), 40 * math.sin(math.tau * at / 8)),
        ]
        for at in range(8)
    ]
    bloom: list[Shape] = [
        blobs(petals, flat(pen.deep(0.22))),
        blobs([[(x * 0.92, y * 0.92) for x, y in petal] for petal in petals], flat(pen.main(0.74))),
        lines(ribs, 2.6, flat(pen.main(0.92))),
        dots([(0, 0)], 12, flat(pen.accent(0.86))),
        dots([(0, 0)], 4, flat(pen.deep(0.25))),
    ]
    heads = sorted(pen.scatter(200, 222, 122, 84, 11, 0.05), key=lambda p: p[1])
    tubes = [taper([(200 + (x - 200) * 0.75, 336), (x, y + 8)], 22, 16) for x, y in heads]
    return [
        blob(pen.ring(200, 332, 112, 14, 12), down(pen.main(0.42), pen.main(0.24))),
        blobs(tubes, down(pen.main(0.56), pen.main(0.26))),
        stamp(bloom, [Place(x, y, 0.86, 0.6, pen.spread(20)) for x, y in heads]),
    ]


def star_mat(pen: Pen) -> list[Shape]:
    """A purple mat with a lawn of thin eight-rayed stars."""
    heads = sorted(pen.scatter(200, 258, 146, 56, 46, 0.04), key=lambda p: p[1])
    stems = [[(x + pen.spread(5), y + 36), (x, y)] for x, y in heads]
    star = flower(pen, 8, 18, 3, 0.26, 0.84)
    mat = pen.ring(200, 306, 150, 42, 16, 0.04)
    return [
        blob(shifted(mat, 0, 12), flat(pen.accent(0.22))),
        blob(mat, down(pen.accent(0.5), pen.accent(0.3))),
        lines(stems, 4, down(pen.main(0.66), pen.main(0.38))),
        stamp(star, [Place(x, y, 1, 0.8, pen.spread(22)) for x, y in heads]),
    ]


def finger_stars(pen: Pen) -> list[Shape]:
    """A crust that sends up blunt fingers, all covered with long thread-thin polyps."""
    fingers = [
        ([(122, 326), (116, 270), (104, 190)], 34, 24),
        ([(200, 326), (204, 240), (196, 128)], 40, 27),
        ([(278, 326), (286, 270), (302, 176)], 34, 24),
        ([(238, 332), (244, 290), (250, 236)], 34, 26),
        ([(160, 332), (156, 300), (150, 252)], 34, 26),
    ]
    threads = []
    for line, wide, narrow in fingers:
        for at in range(34):
            share = at / 33
            p = (line[0][0] + (line[-1][0] - line[0][0]) * share, line[0][1] + (line[-1][1] - line[0][1]) * share)
            half = (wide + (narrow - wide) * share) / 2
            side = pen.spread(1)
            far = pen.near(26, 0.3)
            threads.append(
                [
                    (p[0] + side * half, p[1]),
                    (p[0] + side * (half + far * 0.7), p[1] - far * 0.35),
                    (p[0] + side * (half + far), p[1] - far * 0.6),
                ]
            )
    return [
        blob(pen.ring(200, 328, 122, 18, 12), down(pen.accent(0.5), pen.accent(0.3))),
        blobs([taper(line, wide + 5, narrow + 5) for line, wide, narrow in fingers], flat(pen.deep(0.22))),
        blobs([taper(line, wide, narrow) for line, wide, narrow in fingers], down(pen.accent(0.62), pen.accent(0.34))),
        lines(threads, 2.4, down(pen.main(0.9), pen.main(0.66))),
        dots([thread[-1] for thread in threads], 3, flat(pen.main(0.9))),
    ]


def organ_pipes(pen: Pen) -> list[Shape]:
    """Red upright tubes tied by level floors, a soft polyp in each open end."""
    columns = [(x, 176 + abs(x - 200) * 0.22 + pen.spread(12)) for x in range(92, 310, 18)]
    tubes = [[(x, 332), (x, y)] for x, y in columns]
    floors = [[(84, y), (200, y + 6), (316, y)] for y in (220, 262, 304)]
    star = flower(pen, 8, 17, 4, 0.25, 0.82)
    behind = [(x + 9, y - 12) for x, y in columns[:-1]]
    return [
        lines([[(x, 320), (x, y)] for x, y in behind], 12, flat(pen.accent(0.28))),
        stamp(star, [Place(x, y, 0.9, 0.7) for x, y in behind]),
        lines(tubes, 15, flat(pen.accent(0.2))),
        lines(tubes, 12, down(pen.accent(0.56), pen.accent(0.38))),
        lines([[(x - 3, 330), (x - 3, y)] for x, y in columns], 2.5, flat(pen.accent(0.78), 0.6)),
        lines(floors, 8, flat(pen.accent(0.3))),
        lines(floors, 4, flat(pen.accent(0.6))),
        stamp(star, [Place(x, y - 2, 0.95, 0.8, pen.spread(20)) for x, y in columns]),
    ]


def blue_blades(pen: Pen) -> list[Shape]:
    """Stout flattened uprights with blunt tops; the broken edge shows the blue skeleton."""
    shapes: list[Shape] = []
    for x, top, wide, foot, light in (
        (116, 168, 58, 318, 0.55),
        (284, 156, 60, 318, 0.55),
        (204, 104, 74, 322, 0.6),
        (152, 214, 60, 334, 0.68),
        (250, 206, 64, 334, 0.68),
    ):
        blade = [
            (x - wide * 0.45, foot),
            (x - wide * 0.55, (top + foot) / 2),
            (x - wide * 0.52, top + 12),
            (x - wide * 0.2, top - 8),
            (x + wide * 0.1, top + 7),
            (x + wide * 0.45, top - 4),
            (x + wide * 0.55, (top + foot) / 2),
            (x + wide * 0.45, foot),
        ]
        fuzz = [(x + pen.spread(wide * 0.42), pen.chance.uniform(top + 16, foot - 8)) for _ in range(26)]
        shapes += [
            blob(shifted(blade, 0, -4), flat(pen.bone(0.9))),
            blob(blade, down(pen.main(light), pen.main(light - 0.28))),
            lines([[(x - wide * 0.3, top + 24), (x - wide * 0.32, foot - 14)]], 8, flat(pen.main(0.86), 0.3)),
            dots(fuzz, 2, flat(pen.bone(0.93), 0.75)),
        ]
    cut = pen.ring(250, 206, 34, 14, 10)
    core = [(250 + (x - 250) * 0.8, 206 + (y - 206) * 0.8) for x, y in cut]
    return [*shapes, blob(cut, flat(pen.bone(0.92))), blob(core, down(pen.accent(0.5), pen.accent(0.36)))]
