"""Leather corals and other fleshy soft corals with a common trunk."""

import math

from webapp.pictures.parts import limbs
from webapp.pictures.pen import Pen, along, down, flat, out, shifted, taper
from webapp.pictures.shapes import Place, Shape, blob, blobs, dots, lines, stamp


def toadstool(pen: Pen) -> list[Shape]:
    """A thick stalk under a broad wavy cap, its polyps out like grass."""
    cap = pen.frill(200, 202, 152, 58, 9, 0.05, 8)
    roots = pen.scatter(200, 192, 132, 44, 84, 0.05)
    stems = [
        [(x, y), (x + (x - 200) * 0.06 + pen.spread(4), y - 18), (x + (x - 200) * 0.12 + pen.spread(7), y - 34)]
        for x, y in roots
    ]
    creases = [[(200 + 12 * at, 326), (200 + 10 * at, 280), (200 + 20 * at, 236)] for at in range(-3, 4)]
    return [
        blob(taper([(200, 338), (200, 292), (200, 206)], 118, 104), down(pen.main(0.66), pen.main(0.34))),
        lines(creases, 4, flat(pen.main(0.3), 0.4)),
        blob(shifted(cap, 0, 22), down(pen.main(0.42), pen.main(0.24))),
        blob(cap, out(pen.main(0.76), pen.main(0.48))),
        lines(stems, 4.4, flat(pen.deep(0.26), 0.55)),
        lines(stems, 2.6, down(pen.accent(0.86), pen.accent(0.7))),
        dots([stem[-1] for stem in stems], 4.2, down(pen.accent(0.94), pen.accent(0.8))),
        dots([stem[-1] for stem in stems], 1.4, flat(pen.deep(0.3))),
    ]


def finger_leather(pen: Pen) -> list[Shape]:
    """Many knobbly fingers from one stalk."""

    def fan(count: int, reach: float, high: float) -> list:
        members = []
        for at in range(count):
            angle = 22 + 136 * (at + 0.5) / count + pen.spread(5)
            line = pen.bend(
                (200 + (90 - angle) * 0.75, 284 - high), angle, pen.near(reach, 0.13), (90 - angle) * 0.5, 4
            )
            members.append((line, 30, 19))
        return members

    back, front = fan(9, 168, 20), fan(8, 116, -4)
    shapes: list[Shape] = [*limbs(pen, back, 0.6, 0.28)]
    shapes.append(blob(taper([(200, 340), (200, 310), (200, 262)], 150, 140), down(pen.main(0.6), pen.main(0.3))))
    shapes += limbs(pen, front, 0.78, 0.46)
    warts = [
        (p[0] + n[0] * pen.spread(11), p[1] + n[1] * pen.spread(11))
        for line, _, _ in back + front
        for p, n in along(line, 17)
    ]
    return [*shapes, dots(warts, 2.6, down(pen.accent(0.92), pen.accent(0.6)))]


def hand_leather(pen: Pen) -> list[Shape]:
    """A low, spreading base raised into palms with thick blunt fingers, like hands side by side."""
    shapes: list[Shape] = [blob(pen.ring(200, 312, 140, 30, 14), down(pen.main(0.5), pen.main(0.24)))]
    for x, foot, high, light in (
        (112, 312, 84, 0.54),
        (286, 312, 88, 0.54),
        (200, 314, 120, 0.6),
        (150, 332, 62, 0.74),
        (252, 332, 64, 0.74),
    ):
        fingers = []
        for at, lean in enumerate((-34, -12, 12, 34)):
            tall = high * (0.86 if at in (0, 3) else 1.06) * pen.near(1, 0.08)
            fingers.append(
                [(x + lean * 0.6, foot), (x + lean * 0.9, foot - tall * 0.55), (x + lean * 1.5, foot - tall)]
            )
        specks = [(px + pen.spread(8), py + pen.spread(12)) for finger in fingers for px, py in finger[1:]]
        shapes += [
            lines(fingers, 39, flat(pen.deep(0.22))),
            lines(fingers, 34, down(pen.main(light), pen.main(light - 0.3))),
            lines(
                [shifted(finger[1:], -7, -4) for finger in fingers],
                8,
                down(pen.main(light + 0.2), pen.main(light), 0.8, 0),
            ),
            dots(specks, 2.6, flat(pen.accent(0.92))),
        ]
    return shapes


def colt(pen: Pen) -> list[Shape]:
    """A slimy soft bush: every branch wrapped in a fur of fine polyps."""
    shapes: list[Shape] = [
        blob(taper([(200, 338), (200, 300), (200, 240)], 82, 60), down(pen.main(0.7), pen.main(0.4)))
    ]
    plumes = [(40, 138), (64, 168), (90, 186), (116, 170), (142, 140), (20, 96), (160, 96)]
    for layer, light in ((0, 0.55), (1, 0.74)):
        fur, cores = [], []
        for angle, reach in plumes:
            line = pen.bend(
                (200 + (90 - angle) * 0.3, 286), angle + layer * 9, reach * (1 - 0.28 * layer), pen.spread(24), 4
            )
            cores.append(line)
            for p, n in along(line[1:], 9):
                long = pen.near(22, 0.3)
                for side in (-1, 1):
                    fur.append([p, (p[0] + n[0] * long * side, p[1] + n[1] * long * side - 9)])
        shapes += [
            lines(cores, 22, down(pen.main(light), pen.main(light - 0.25))),
            lines(fur, 4, down(pen.main(light + 0.1), pen.main(light - 0.12))),
            dots([hair[-1] for hair in fur[::2]], 3, flat(pen.accent(min(0.95, light + 0.2)))),
        ]
    return shapes


def broccoli_tree(pen: Pen) -> list[Shape]:
    """A bare pale trunk and branches, each ending in a rounded head of polyps."""
    heads = [
        (200, 92, 46),
        (124, 122, 42),
        (278, 118, 42),
        (86, 184, 36),
        (316, 182, 36),
        (158, 178, 40),
        (246, 176, 42),
    ]
    trunk = [([(200, 336), (200, 280), (200, 200)], 58, 34)]
    trunk += [
        ([(200, 286 - abs(x - 200) * 0.1), ((200 + x) / 2, (250 + y) / 2 + 12), (x, y)], 24, 13) for x, y, _ in heads
    ]
    shapes = limbs(pen, trunk, 0.84, 0.52)
    for x, y, size in heads:
        florets = pen.scatter(x, y, size, size * 0.82, 17, 0.08)
        shapes += [
            dots(shifted(florets, 0, 4), 13, flat(pen.deep(0.24), 0.85)),
            dots(florets, 12, down(pen.accent(0.74), pen.accent(0.42))),
            dots(shifted(florets, -2, -4), 5, flat(pen.accent(0.88), 0.8)),
        ]
    return shapes


def carnation_tree(pen: Pen) -> list[Shape]:
    """A clear swollen trunk stiffened with needles, bunches of spiky polyps in a strong colour."""
    heads = [(200, 84), (140, 108), (262, 110), (98, 164), (304, 166), (182, 154), (236, 172), (136, 204), (276, 222)]
    members = [([(200, 338), (206, 280), (196, 210), (200, 120)], 66, 30)]
    members += [([(200, 240 + (y - 150) * 0.3), ((200 + x) / 2, y + 22), (x, y)], 26, 14) for x, y in heads]
    shapes: list[Shape] = [
        blobs([taper(line, wide + 4, narrow + 4) for line, wide, narrow in members], flat(pen.main(0.4), 0.8)),
        blobs(
            [taper(line, wide, narrow) for line, wide, narrow in members],
            down(pen.bone(0.92), pen.main(0.62, 0.5), 0.9, 0.9),
        ),
    ]
    needles = []
    for line, wide, _ in members:
        for p, n in along(line, 9):
            off = pen.spread(wide * 0.32)
            needles.append(
                [(p[0] + n[0] * off, p[1] + n[1] * off), (p[0] + n[0] * off + pen.spread(6), p[1] + n[1] * off - 10)]
            )
    shapes.append(lines(needles, 1.8, flat(pen.accent(0.5), 0.75)))
    spikes = [
        [(0, 0), (far * math.cos(a), far * math.sin(a))]
        for at in range(15)
        for a in (math.tau * at / 15,)
        for far in (pen.near(36, 0.2),)
    ]
    bunch: list[Shape] = [
        lines(spikes, 11, flat(pen.accent(0.38))),
        lines(spikes, 6, flat(pen.accent(0.62))),
        dots([spike[-1] for spike in spikes] + pen.scatter(0, 0, 24, 24, 8), 5, flat(pen.accent(0.74))),
        dots([spike[-1] for spike in spikes], 1.8, flat("#ffffff", 0.8)),
    ]
    return [*shapes, stamp(bunch, [Place(x, y, 0.9, 0.9, pen.spread(40)) for x, y in heads])]
