"""Gorgonians: rods, fans and crusts over a horny core."""

import math

from webapp.pictures.pen import Pen, along, down, flat, shifted
from webapp.pictures.shapes import Place, Shape, blob, dots, lines, stamp


def candelabra(pen: Pen) -> list[Shape]:
    """Thick upright rods from a short trunk, furry with polyps."""
    rods = []
    for x in (78, 118, 160, 202, 242, 284, 322):
        top = 76 + abs(x - 200) * 0.42 + pen.spread(12)
        rods.append(
            [
                (200 + (x - 200) * 0.12, 332),
                (200 + (x - 200) * 0.5, 300),
                (x, 270 - abs(x - 200) * 0.2),
                (x + pen.spread(5), (top + 220) / 2),
                (x + pen.spread(8), top),
            ]
        )
    fur = []
    for rod in rods:
        for p, n in along(rod[1:], 7):
            for side in (-1, 1):
                far = pen.near(16, 0.25)
                fur.append([p, (p[0] + n[0] * far * side, p[1] + n[1] * far * side - 5)])
    return [
        lines(fur, 3, down(pen.accent(0.86), pen.accent(0.64))),
        lines(rods, 16, flat(pen.deep(0.22))),
        lines(rods, 12, down(pen.main(0.66), pen.main(0.38))),
        lines([shifted(rod, -3, 0) for rod in rods], 3, flat(pen.main(0.85), 0.5)),
        dots([p for rod in rods for p, _ in along(rod[1:], 13)], 2.6, flat(pen.accent(0.92))),
    ]


def _fan(pen: Pen, start: tuple, angle: float, length: float, depth: int, twigs: list) -> None:
    line = pen.bend(start, angle, length, pen.spread(16), 3)
    twigs.append((depth, line))
    if depth:
        _fan(pen, line[-1], angle + pen.near(30, 0.3), length * pen.near(0.84, 0.1), depth - 1, twigs)
        _fan(pen, line[-1], angle - pen.near(30, 0.3), length * pen.near(0.8, 0.12), depth - 1, twigs)
    if depth > 1:
        _fan(pen, line[1], angle + (34 if pen.chance.random() < 0.5 else -34), length * 0.66, depth - 2, twigs)


def red_fan(pen: Pen) -> list[Shape]:
    """A flat fan of thin branches with open white stars along them."""
    twigs: list = []
    _fan(pen, (200, 334), 90, 78, 4, twigs)
    stars = []
    for depth, line in twigs:
        if depth < 4:
            stars += [
                (p[0] + n[0] * side * 7, p[1] + n[1] * side * 7)
                for at, (p, n) in enumerate(along(line, 15))
                for side in ((-1) ** at,)
            ]
    widths = {4: 17, 3: 12, 2: 9, 1: 7.5, 0: 6}
    shapes: list[Shape] = [
        lines([line for d, line in twigs if d == depth], wide + 4, flat(pen.deep(0.22)))
        for depth, wide in widths.items()
    ]
    shapes += [
        lines([line for d, line in twigs if d == depth], wide, down(pen.main(0.62), pen.main(0.44)))
        for depth, wide in widths.items()
    ]
    star: list[Shape] = [
        lines(
            [[(0, 0), (6 * math.cos(math.tau * at / 8), 6 * math.sin(math.tau * at / 8))] for at in range(8)],
            2,
            flat(pen.accent(0.95)),
        ),
        dots([(0, 0)], 3, flat(pen.accent(0.75))),
    ]
    kept = stars[:: max(1, len(stars) // 40)]
    return [*shapes, dots(stars, 2.6, flat(pen.accent(0.9))), stamp(star, [Place(round(x), round(y)) for x, y in kept])]


def hairy_crust(pen: Pen) -> list[Shape]:
    """A tan sheet flowing over its rock, with a dense pile of fine hair."""
    sheet = pen.frill(200, 282, 152, 58, 9, 0.08, 4)
    roots = pen.scatter(200, 278, 138, 48, 150, 0.05)
    hair = []
    for x, y in roots:
        sway = 13 * math.sin(x / 38) + pen.spread(5)
        hair.append([(x, y), (x + sway * 0.2, y - 22), (x + sway, y - pen.near(42, 0.2))])
    return [
        blob(shifted(sheet, 0, 12), flat(pen.main(0.2))),
        blob(sheet, down(pen.main(0.56), pen.main(0.34))),
        lines(hair[:75], 2.2, down(pen.accent(0.74), pen.accent(0.5))),
        lines(hair[75:], 2.2, down(pen.accent(0.9), pen.accent(0.66))),
        dots([hair_line[-1] for hair_line in hair[::3]], 2.6, flat(pen.accent(0.94))),
        lines([[(x, y), (x + (x - 200) * 0.1, y + 10)] for x, y in sheet[::2]], 4, flat(pen.main(0.7), 0.6)),
    ]
