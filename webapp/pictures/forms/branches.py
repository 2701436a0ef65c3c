"""Branching stony corals, told apart by thickness, tips, forks and skin."""

import math

from webapp.pictures.parts import Limb, limbs
from webapp.pictures.pen import Pen, along, down, flat, shifted, taper
from webapp.pictures.shapes import Point, Shape, blob, blobs, dots, lines, rims


def _fork(
    pen: Pen,
    start: Point,
    angle: float,
    length: float,
    width: float,
    depth: int,
    spread: float,
    shrink: float,
    curl: float,
    into: list[Limb],
) -> None:
    """Grow limbs from a point, forking `depth` times."""
    line = pen.bend(start, angle, pen.near(length, 0.15), curl + pen.spread(10), 2)
    into.append((line, width, width * shrink))
    if depth:
        turn = pen.near(spread, 0.25)
        for way in (turn, -turn):
            _fork(
                pen, line[-1], angle + curl + way, length * 0.84, width * shrink, depth - 1, spread, shrink, curl, into
            )


def _tree(
    pen: Pen,
    angles: list[float],
    length: float,
    width: float,
    depth: int,
    spread: float = 24,
    shrink: float = 0.8,
    curl: float = 0,
    foot: float = 328,
    wide: float = 0.35,
) -> list[Limb]:
    members: list[Limb] = []
    for angle in angles:
        _fork(pen, (200 + (90 - angle) * wide, foot), angle, length, width, depth, spread, shrink, curl, members)
    return members


def _tips(members: list[Limb]) -> list[Point]:
    feet = {limb[0][0] for limb in members}
    return [line[-1] for line, _, _ in members if line[-1] not in feet]


def _base(pen: Pen, rx: float = 80, light: float = 0.5) -> Shape:
    return blob(pen.ring(200, 328, rx, 17, 12), down(pen.main(light), pen.main(light - 0.26)))


def staghorn(pen: Pen) -> list[Shape]:
    """Antlers with a bright tube at every tip and small tubes all along."""
    back = _tree(pen, [38, 90, 142], 70, 26, 2, 24, 0.8)
    front = _tree(pen, [56, 92, 126], 56, 28, 2, 22, 0.8, 0, 332)
    shapes: list[Shape] = [_base(pen)]
    for members, light in ((back, 0.52), (front, 0.7)):
        tubes = []
        for line, wide, _ in members:
            for at, (p, n) in enumerate(along(line, 18)):
                side = (-1) ** at
                ux, uy = n[1], -n[0]
                half = wide * 0.42
                tubes.append(
                    [
                        (p[0] + n[0] * half * side, p[1] + n[1] * half * side),
                        (p[0] + n[0] * (half + 6) * side - ux * -5, p[1] + n[1] * (half + 6) * side + uy * 5),
                    ]
                )
        tips = _tips(members)
        shapes += [
            lines(tubes, 6, down(pen.main(light + 0.02), pen.main(light - 0.24))),
            *limbs(pen, members, light, light - 0.26, 4),
            dots([tube[1] for tube in tubes], 1.7, flat(pen.accent(0.9))),
            dots(tips, 6.4, flat(pen.accent(0.88))),
        ]
    return shapes


def smooth_antlers(pen: Pen) -> list[Shape]:
    """Long, slim arching branches held level, smooth skin, a few long sharp tubes."""
    members: list[Limb] = []
    for foot, angle, long, curl in (
        (306, 152, 176, -62),
        (300, 28, 176, 62),
        (290, 124, 190, 46),
        (290, 58, 190, -46),
        (280, 92, 190, 20),
        (320, 168, 150, -70),
        (320, 12, 150, 70),
    ):
        line = pen.bend((200, foot), angle, long, curl, 6)
        members.append((line, 19, 7))
        for at in (2, 3, 4, 5):
            for way in (52, -48):
                side = pen.bend(line[at], angle + curl * at / 6 + way, pen.near(30, 0.3), 0, 2)
                members.append((side, 8, 3.4))
    tips = [line[-1] for line, _, _ in members]
    return [_base(pen, 50), *limbs(pen, members, 0.74, 0.38, 3.4), dots(tips, 3.6, flat(pen.accent(0.94)))]


def briar(pen: Pen) -> list[Shape]:
    """A tangle of thin crossing twigs with thorns, no special tips."""
    shapes: list[Shape] = []
    for light, count in ((0.42, 13), (0.56, 12), (0.74, 10)):
        twigs: list[list[Point]] = []
        for _ in range(count):
            angle = pen.chance.uniform(30, 150)
            line = pen.bend(
                (200 + pen.spread(70), 330 - pen.chance.random() * 70), angle, pen.near(128, 0.3), pen.spread(50), 3
            )
            twigs += [
                line,
                pen.bend(line[1], angle + 50 * (1 if pen.chance.random() < 0.5 else -1), 60, pen.spread(30), 2),
            ]
        thorns = []
        for line in twigs:
            for at, (p, n) in enumerate(along(line, 17)):
                side = (-1) ** at
                thorns.append([p, (p[0] + n[0] * 11 * side, p[1] + n[1] * 11 * side - 3)])
        tone = down(pen.main(light), pen.main(light - 0.2))
        shapes += [
            lines(thorns, 6, flat(pen.deep(0.2))),
            lines(twigs, 12, flat(pen.deep(0.2))),
            lines(thorns, 3, tone),
            lines(twigs, 8.5, tone),
            lines([shifted(twig, -1.5, -1) for twig in twigs], 2.4, flat(pen.main(light + 0.16), 0.6)),
        ]
    return shapes


def finger_stubs(pen: Pen) -> list[Shape]:
    """Thick, smooth, blunt fingers, swollen at the top, dotted with fine pits."""
    shapes: list[Shape] = [_base(pen, 104)]
    for fingers, light in (
        ([(100, 190, 98), (160, 126, 84), (226, 112, 92), (292, 150, 86), (328, 214, 80)], 0.54),
        ([(76, 262, 60), (136, 222, 74), (206, 196, 84), (270, 226, 76), (316, 274, 58)], 0.72),
    ):
        members = [([(200 + (x - 200) * 0.55, 332), (x, (y + 300) / 2), (x, y)], 46, 54) for x, y, wide in fingers]
        pits = [
            (p[0] + n[0] * pen.spread(16), p[1] + n[1] * pen.spread(16))
            for line, _, _ in members
            for _ in range(2)
            for p, n in along(line, 12)
        ]
        shapes += [
            *limbs(pen, members, light, light - 0.26),
            dots(pits, 1.8, flat(pen.accent(0.24), 0.75)),
        ]
    return shapes


def finger_twigs(pen: Pen) -> list[Shape]:
    """Slender rounded fingers forking upwards like a candle stand, fuzzy with tiny polyps."""
    back = _tree(pen, [44, 80, 104, 138], 62, 25, 2, 15, 0.9, 0, 330, 0.6)
    front = _tree(pen, [58, 92, 124], 50, 25, 2, 15, 0.9, 0, 334, 0.9)
    shapes: list[Shape] = [_base(pen, 90)]
    for members, light in ((back, 0.5), (front, 0.68)):
        fuzz = [
            (p[0] + n[0] * pen.spread(13), p[1] + n[1] * pen.spread(13))
            for line, _, _ in members
            for p, n in along(line, 6)
        ]
        shapes += [
            *limbs(pen, members, light, light - 0.22),
            dots(fuzz, 2.2, flat(pen.accent(0.93), 0.9)),
        ]
    return shapes


def cauliflower(pen: Pen) -> list[Shape]:
    """A tight round head of thick lobes, warts all over."""
    shapes: list[Shape] = [blob(taper([(200, 342), (200, 280)], 110, 150), down(pen.main(0.36), pen.main(0.18)))]
    lobes = sorted(
        pen.scatter(200, 214, 120, 94, 21, 0.04), key=lambda p: math.hypot(p[0] - 200, p[1] - 230), reverse=True
    )
    for part, light in ((lobes[:9], 0.52), (lobes[9:16], 0.62), (lobes[16:], 0.72)):
        stems = [[(200 + (x - 200) * 0.5, 300), (x, y)] for x, y in part]
        shapes += [
            lines(stems, 40, flat(pen.main(0.26))),
            dots(shifted(part, 0, 3), 34, flat(pen.deep(0.2))),
            dots(part, 32, down(pen.main(light), pen.main(light - 0.2))),
        ]
        warts = [w for x, y in part for w in pen.scatter(x, y, 29, 29, 15, 0.08)]
        shapes += [
            dots(shifted(warts, 1, 2.5), 5.4, flat(pen.main(light - 0.3))),
            dots(warts, 4.8, flat(pen.main(light + 0.12))),
            dots(shifted(warts, -1, -1), 1.6, flat(pen.accent(0.94))),
        ]
    return shapes


def paws(pen: Pen) -> list[Shape]:
    """Stout branches that flatten and split into rounded toes, like a cat's paw."""
    shapes: list[Shape] = [_base(pen, 84)]
    for branches, light in (
        ([(92, 176, 150), (162, 112, 105), (244, 112, 78), (312, 178, 32)], 0.52),
        ([(122, 236, 130), (202, 184, 90), (280, 238, 50)], 0.7),
    ):
        members: list[Limb] = [
            ([(200 + (x - 200) * 0.3, 334), (200 + (x - 200) * 0.75, (y + 310) / 2), (x, y)], 36, 44)
            for x, y, _ in branches
        ]
        toes, pads = [], []
        for x, y, angle in branches:
            for turn in (-58, -20, 20, 58):
                end = pen.bend((x, y), angle + turn, 34, 0, 1)[-1]
                toes.append([(x, y), end])
                pads.append(end)
        shapes += [
            lines(toes, 34, flat(pen.deep(0.22))),
            *limbs(pen, members, light, light - 0.28),
            lines(toes, 29, down(pen.main(light + 0.04), pen.main(light - 0.18))),
            dots(shifted(pads, -3, -4), 8, flat(pen.main(min(0.95, light + 0.2)), 0.8)),
            dots([q for x, y in pads for q in pen.scatter(x, y, 14, 14, 7, 0.1)], 1.7, flat(pen.accent(0.3))),
        ]
    return shapes


def needles(pen: Pen) -> list[Shape]:
    """A dense nest of thin branches tapering to needle points."""
    shapes: list[Shape] = [_base(pen, 60)]
    for angles, light, long in (
        ([38, 64, 90, 116, 142], 0.44, 76),
        ([42, 76, 106, 138], 0.58, 68),
        ([54, 90, 124], 0.76, 56),
    ):
        members = _tree(pen, angles, long, 12, 2, 27, 0.72, 0, 324)
        feet = {line[0] for line, _, _ in members}
        ends = [line for line, _, _ in members if line[-1] not in feet]
        stems = [line for line, _, _ in members if line[-1] in feet]
        spines = [
            taper([line[0], (line[-1][0] * 1.2 - line[0][0] * 0.2, line[-1][1] * 1.2 - line[0][1] * 0.2)], 9, 1)
            for line in ends
        ]
        side = [
            taper(pen.bend(line[1], 90 + pen.spread(75), pen.near(34, 0.3), 0, 1), 6, 0.6) for line, _, _ in members
        ]
        points = [*spines, *side]
        shapes += [
            lines(stems, 12, flat(pen.deep(0.2))),
            rims(points, 3, flat(pen.deep(0.2)), sharp=True),
            lines(stems, 9, down(pen.main(light - 0.05), pen.main(light - 0.24))),
            blobs(points, down(pen.main(light + 0.08), pen.main(light - 0.2)), sharp=True),
        ]
    return shapes


def horns(pen: Pen) -> list[Shape]:
    """Heavy branches all over covered with cone-shaped hills."""
    members: list[Limb] = []
    for x, y in ((92, 190), (150, 118), (224, 104), (300, 150), (322, 232), (120, 262), (200, 206), (266, 254)):
        members.append(([(200 + (x - 200) * 0.4, 334), (200 + (x - 200) * 0.8, (y + 310) / 2), (x, y)], 46, 30))
    hills, lit = [], []
    for line, wide, _ in members:
        for at, (p, n) in enumerate(along(line, 18)):
            for side in (-0.9, 0, 0.9) if at % 2 else (-0.5, 0.5):
                x, y = p[0] + n[0] * side * wide * 0.4, p[1] + n[1] * side * wide * 0.4
                tip = (x + n[0] * side * 10, y + n[1] * side * 10 - 11)
                hills.append([(x - 8, y + 6), tip, (x + 8, y + 6)])
                lit.append([(x - 4, y + 3), tip])
    return [
        _base(pen, 92),
        *limbs(pen, members, 0.56, 0.28),
        blobs([shifted(hill, 1, 3) for hill in hills], flat(pen.main(0.2)), sharp=True),
        blobs(hills, down(pen.main(0.78), pen.main(0.44)), sharp=True),
        lines(lit, 2.4, flat(pen.accent(0.92), 0.85)),
    ]
