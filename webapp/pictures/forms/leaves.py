"""Upright or wound leaves: lettuces, ruffles, whorls, fronds."""

import math

from webapp.pictures.pen import Pen, down, flat, shifted
from webapp.pictures.shapes import Shape, blob, dots, lines


def lettuce_walls(pen: Pen) -> list[Shape]:
    """Tall, thin, torn walls standing like flames."""
    shapes: list[Shape] = []
    for x, foot, high, wide, light in (
        (140, 316, 170, 120, 0.46),
        (262, 316, 186, 124, 0.46),
        (200, 322, 206, 110, 0.56),
        (112, 330, 108, 90, 0.66),
        (290, 330, 112, 92, 0.66),
        (200, 334, 126, 120, 0.76),
    ):
        top, count = [], 11
        for at in range(count):
            share = at / (count - 1)
            high_here = high * (0.55 + 0.45 * math.sin(math.pi * share)) * (1.2 if at % 2 else 0.6) * pen.near(1, 0.08)
            top.append((x + wide * (share - 0.5) * 1.15, foot - high_here))
        wall = [(x - wide * 0.3, foot), *top, (x + wide * 0.3, foot)]
        grooves = [[(x + (px - x) * 0.45, foot - 8), (px, py + 18)] for px, py in top]
        shapes += [
            blob(shifted(wall, 0, -4), flat(pen.accent(light + 0.18))),
            blob(wall, down(pen.main(light), pen.main(light - 0.26))),
            lines(grooves, 2.4, down(pen.main(light + 0.14), pen.main(light - 0.1), 0.7, 0.5)),
            dots(
                [(x, foot - 20), (x - wide * 0.18, foot - 26), (x + wide * 0.18, foot - 30)], 5, flat(pen.accent(0.88))
            ),
        ]
    return shapes


def ruffled_ridges(pen: Pen) -> list[Shape]:
    """Fan-shaped ruffles whose ridges fork like a delta from the middle to the edge."""
    shapes: list[Shape] = []
    for x, y, reach, high, light in ((200, 236, 156, 120, 0.48), (166, 278, 142, 96, 0.6), (230, 304, 136, 78, 0.72)):
        rim, ridges = [], []
        for at in range(25):
            angle = math.pi * (1.08 - 1.16 * at / 24)
            size = 1.06 if at % 2 else 0.94
            rim.append((x + reach * size * math.cos(angle), y - high * size * math.sin(angle)))
            mid = (x + reach * 0.5 * math.cos(angle + 0.04), y - high * 0.5 * math.sin(angle + 0.04))
            if at % 2:
                ridges.append([(x, y + 14), mid, rim[-1]])
            else:
                ridges.append([mid, (x + reach * 0.76 * math.cos(angle), y - high * 0.76 * math.sin(angle)), rim[-1]])
        fan = [*rim, (x + 40, y + 34), (x - 40, y + 34)]
        shapes += [
            blob(shifted(fan, 0, 7), flat("#050a16", 0.5)),
            blob(fan, down(pen.main(light - 0.1), pen.main(light - 0.3))),
            lines(ridges, 6, down(pen.main(light + 0.16), pen.main(light - 0.05))),
            lines([rim], 4.5, flat(pen.accent(0.88))),
        ]
    return shapes


def whorl_plates(pen: Pen) -> list[Shape]:
    """Leafy whorls wound into each other, rough skin and tube-shaped cups."""
    shapes: list[Shape] = []
    for x, y, rx, ry, light in (
        (200, 166, 92, 40, 0.5),
        (142, 214, 96, 44, 0.6),
        (262, 218, 96, 44, 0.6),
        (200, 268, 132, 50, 0.72),
    ):
        rim = pen.frill(x, y, rx, ry, 7, 0.07, 6)
        cup = [
            (x - rx * 0.95, y),
            (x - rx * 0.5, y + 44),
            (x - 18, 330),
            (x + 18, 330),
            (x + rx * 0.5, y + 44),
            (x + rx * 0.95, y),
            (x, y + ry * 0.6),
        ]
        tubes = pen.scatter(x, y, rx * 0.76, ry * 0.7, 13, 0.06)
        grit = pen.scatter(x, y, rx * 0.9, ry * 0.88, 34, 0.09)
        shapes += [
            blob(cup, down(pen.main(light - 0.14), pen.main(0.2))),
            blob(shifted(rim, 0, 5), flat(pen.main(0.84))),
            blob(rim, down(pen.main(light - 0.24), pen.main(light))),
            dots(grit, 1.7, flat(pen.main(0.9), 0.7)),
            dots(shifted(tubes, 0, 3), 7, flat(pen.main(0.26))),
            dots(tubes, 6.2, flat(pen.main(0.7))),
            dots(shifted(tubes, 0, -1), 3.2, flat(pen.accent(0.34))),
        ]
    return shapes


def upright_leaves(pen: Pen) -> list[Shape]:
    """Upright, thin wavy leaves set at angles, finely lined."""
    shapes: list[Shape] = []
    for x, foot, high, wide, lean, light in (
        (128, 312, 150, 82, -34, 0.5),
        (270, 312, 164, 86, 34, 0.5),
        (200, 316, 206, 92, 4, 0.56),
        (96, 330, 92, 66, -30, 0.66),
        (312, 330, 98, 66, 30, 0.66),
        (160, 334, 126, 82, -10, 0.72),
        (248, 334, 122, 82, 14, 0.76),
    ):
        leaf = [
            (x - wide * 0.2, foot),
            (x - wide * 0.44 + lean * 0.4, foot - high * 0.4),
            (x - wide * 0.6 + lean, foot - high * 0.86),
            (x - wide * 0.16 + lean, foot - high * 1.04),
            (x + wide * 0.2 + lean, foot - high * 0.96),
            (x + wide * 0.6 + lean, foot - high * 0.8),
            (x + wide * 0.44 + lean * 0.4, foot - high * 0.36),
            (x + wide * 0.2, foot),
        ]
        bands = []
        for step in range(1, 7):
            up = foot - high * 0.14 * step
            half = wide * (0.22 + 0.05 * step)
            bands.append(
                [(x - half + lean * step / 7, up), (x + lean * step / 7, up - 9), (x + half + lean * step / 7, up)]
            )
        shapes += [
            blob(shifted(leaf, 0, -4), flat(pen.accent(min(0.95, light + 0.24)))),
            blob(leaf, down(pen.main(light), pen.main(light - 0.24))),
            lines(bands, 2.4, flat(pen.main(0.28), 0.6)),
        ]
    return shapes
