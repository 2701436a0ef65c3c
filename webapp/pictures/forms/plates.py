"""Cups, loose plates, chalices, tiers and crusts."""

import math

from webapp.pictures.parts import tentacles
from webapp.pictures.pen import Pen, down, ellipse_points, flat, out, rays, shifted, taper
from webapp.pictures.shapes import Oval, Place, Point, Shape, blob, blobs, dots, lines, rims, stamp


def _plate(pen: Pen, rim: list[Point], thick: float, light: float = 0.68) -> list[Shape]:
    """A plate seen from above: shade under it, its edge, its upper side."""
    return [
        blob(shifted(rim, 0, thick + 9), flat("#050a16", 0.45)),
        blob(shifted(rim, 0, thick), down(pen.main(0.42), pen.main(0.2))),
        blob(rim, out(pen.main(light), pen.main(light - 0.28))),
    ]


def _foot(pen: Pen, top: float, wide: float = 90) -> Shape:
    return blob(taper([(200, 342), (200, top)], wide * 0.8, wide), down(pen.main(0.4), pen.main(0.18)))


def cup_scroll(pen: Pen) -> list[Shape]:
    """A deep funnel, lined with daisy-like polyps."""
    rim = pen.frill(200, 168, 150, 70, 8, 0.05, 5)
    wall = [(52, 176), (84, 250), (150, 312), (168, 340), (232, 340), (250, 312), (316, 250), (348, 176), (200, 200)]
    daisy: list[Shape] = [
        lines(
            [
                [(4 * math.cos(a), 4 * math.sin(a)), (12 * math.cos(a), 12 * math.sin(a))]
                for a in (math.tau * at / 10 for at in range(10))
            ],
            2.8,
            flat(pen.accent(0.9)),
        ),
        dots([(0, 0)], 5, flat(pen.accent(0.62))),
        dots([(0, 0)], 1.8, flat(pen.deep(0.2))),
    ]
    inside = list(pen.scatter(200, 172, 128, 54, 26, 0.03))
    veins = [
        [(200 + (x - 200) * 0.25, 332), (200 + (x - 200) * 0.7, 274), (x, 206 - abs(x - 200) * 0.14)]
        for x in range(76, 330, 22)
    ]
    return [
        blob(wall, down(pen.main(0.62), pen.main(0.28))),
        lines(veins, 3, flat(pen.main(0.72), 0.5)),
        blob(shifted(rim, 0, 6), flat(pen.main(0.86))),
        blob(rim, down(pen.main(0.26), pen.main(0.58))),
        Oval(200, 186, 70, 26, flat(pen.deep(0.16), 0.55)),
        stamp(daisy, [Place(x, y, 1.05, 0.85) for x, y in inside]),
    ]


def plate(pen: Pen) -> list[Shape]:
    """A loose oval plate on sand with hundreds of fine blades running from a slit mouth."""
    x, y = 200, 268
    rim = pen.ring(x, y, 156, 78, 22, 0.015)
    return [
        blob(shifted(rim, 0, 18), flat("#050a16", 0.5)),
        blob(shifted(rim, 0, 11), down(pen.main(0.4), pen.main(0.22))),
        blob(rim, out(pen.main(0.74), pen.main(0.4))),
        lines(rays(x, y - 6, 152, 74, 46, 0.22, 0.96), 3, flat(pen.main(0.28), 0.75)),
        lines(rays(x, y - 7, 152, 74, 92, 0.55, 0.97)[::2], 1.6, flat(pen.accent(0.93), 0.75)),
        dots(ellipse_points(x, y, 153, 76, 60), 3, flat(pen.accent(0.9))),
        Oval(x, y - 8, 42, 9, flat(pen.accent(0.7))),
        Oval(x, y - 8, 36, 5, flat(pen.deep(0.16))),
    ]


def tentacle_plate(pen: Pen) -> list[Shape]:
    """A plate hidden by long thick tentacles with pale knobs, striped mouth disc in the middle."""
    shapes: list[Shape] = [blob(pen.ring(200, 296, 130, 44, 14), down(pen.main(0.4), pen.main(0.2)))]
    for count, rx, ry, reach, light in ((24, 108, 46, 84, 0.48), (20, 84, 34, 70, 0.6), (15, 60, 22, 52, 0.72)):
        curves = []
        for x, y in ellipse_points(200, 270, rx, ry, count, pen.chance.uniform(0, 1)):
            angle = math.degrees(math.atan2(270 - y + 70, x - 200))
            curves.append(pen.bend((x, y), angle, pen.near(reach, 0.2), pen.spread(50), 3))
        curves.sort(key=lambda curve: curve[0][1])
        shapes += tentacles(pen, curves, 11, light, 7.4, 0.92)
    return [
        *shapes,
        Oval(200, 262, 52, 22, out(pen.main(0.84), pen.main(0.5))),
        lines(rays(200, 262, 50, 20, 22, 0.3, 0.95), 2.4, flat(pen.main(0.3), 0.7)),
        Oval(200, 262, 17, 4, flat(pen.deep())),
    ]


def eyed_chalice(pen: Pen) -> list[Shape]:
    """A thick, bumpy plate with a few large bright eyes."""
    rim = pen.frill(200, 250, 158, 84, 8, 0.04, 3)
    eyes = sorted(
        [(200, 240), (120, 236), (284, 240), (160, 284), (246, 286), (196, 196), (96, 268), (310, 268)],
        key=lambda p: p[1],
    )
    eye: list[Shape] = [
        dots([(0, 0)], 21, flat(pen.main(0.26))),
        dots([(0, -1)], 18, flat(pen.main(0.6))),
        dots([(0, 0)], 12, flat(pen.accent(0.66))),
        dots([(0, -1)], 9.5, flat(pen.accent(0.92))),
        dots([(0, 0)], 3, flat(pen.deep(0.2))),
    ]
    bumps = [
        p for p in pen.scatter(200, 250, 144, 74, 90, 0.05) if all(math.hypot(p[0] - x, p[1] - y) > 22 for x, y in eyes)
    ]
    return [
        _foot(pen, 280),
        *_plate(pen, rim, 12, 0.6),
        rims([rim], 5, flat(pen.accent(0.86), 0.8)),
        dots(shifted(bumps, 1, 2), 5, flat(pen.main(0.24), 0.8)),
        dots(bumps, 4.2, flat(pen.main(0.74))),
        stamp(eye, [Place(x, y, 1, 0.78) for x, y in eyes]),
    ]


def thin_chalice(pen: Pen) -> list[Shape]:
    """Two thin, sharp-edged tiers with rows of teeth and small starry eyes."""
    shapes: list[Shape] = [_foot(pen, 230, 60)]
    for x, y, rx, ry, light in ((216, 288, 150, 44, 0.54), (184, 208, 132, 52, 0.68)):
        rim = []
        for at in range(44):
            angle = math.tau * at / 44
            notch = 1.05 if at % 2 else 0.95
            rim.append((x + rx * notch * math.cos(angle), y + ry * notch * math.sin(angle)))
        ribs = rays(x, y, rx, ry, 22, 0.18, 0.96)
        teeth = [(a[0] + (b[0] - a[0]) * s, a[1] + (b[1] - a[1]) * s) for a, b in ribs for s in (0.3, 0.55, 0.8, 1)]
        star: list[Shape] = [
            lines(rays(0, 0, 11, 11, 8, 0.2, 1), 2.4, flat(pen.accent(0.9))),
            dots([(0, 0)], 3, flat(pen.deep(0.2))),
        ]
        shapes += [
            blob(shifted(rim, 0, 12), flat("#050a16", 0.4), sharp=True),
            rims([rim], 3, flat(pen.main(0.86)), sharp=True),
            blob(rim, out(pen.main(light), pen.main(light - 0.26)), sharp=True),
            lines(ribs, 2.6, flat(pen.main(0.3), 0.55)),
            lines([[(tx, ty), (tx, ty - 7)] for tx, ty in teeth], 2.6, flat(pen.main(0.86))),
            stamp(star, [Place(px, py, 1, 0.7) for px, py in pen.scatter(x, y, rx * 0.62, ry * 0.6, 8)]),
        ]
    return shapes


def nosed_chalice(pen: Pen) -> list[Shape]:
    """A broad leaning plate; every cup sticks out like a nose towards the edge."""
    rim = pen.frill(200, 226, 162, 98, 7, 0.05, 4)
    noses, eyes = [], []
    for x, y in pen.scatter(200, 230, 140, 78, 40, 0.03):
        angle = math.atan2(y - 180, x - 200)
        ux, uy = math.cos(angle), math.sin(angle) * 0.8
        noses.append(
            [
                (x - 8 * uy, y + 8 * ux),
                (x + 20 * ux - 5 * uy, y + 20 * uy + 5 * ux),
                (x + 24 * ux, y + 24 * uy),
                (x + 20 * ux + 5 * uy, y + 20 * uy - 5 * ux),
                (x + 8 * uy, y - 8 * ux),
                (x - 10 * ux, y - 10 * uy),
            ]
        )
        eyes.append((x + 17 * ux, y + 17 * uy))
    return [
        _foot(pen, 280),
        *_plate(pen, rim, 10, 0.58),
        lines(rays(200, 218, 150, 84, 34, 0.15, 0.95), 2, flat(pen.main(0.3), 0.5)),
        blobs([shifted(nose, 1, 5) for nose in noses], flat(pen.main(0.22))),
        blobs(noses, flat(pen.main(0.74))),
        dots(eyes, 6, flat(pen.accent(0.4))),
        dots(eyes, 4.2, flat(pen.accent(0.92))),
    ]


def wrinkled_plate(pen: Pen) -> list[Shape]:
    """A low plate folded in rings round its centre, pale mouths in the furrows."""
    shapes: list[Shape] = _plate(pen, pen.frill(200, 278, 160, 66, 9, 0.04, 3), 8, 0.56)
    mouths: list[Point] = []
    for at, share in enumerate((0.88, 0.7, 0.52, 0.34, 0.18)):
        rim = pen.frill(200, 274 - at * 5, 158 * share, 64 * share, 9, 0.05, 2)
        shapes += [
            blob(shifted(rim, 0, 5), flat(pen.main(0.26), 0.9)),
            blob(rim, down(pen.main(0.6 + at * 0.05), pen.main(0.42 + at * 0.03))),
        ]
        mouths += ellipse_points(200, 274 - at * 5, 146 * share, 57 * share, round(20 * share) + 1, at)
    fine = rays(200, 272, 150, 58, 70, 0.12, 0.98)
    return [
        *shapes,
        lines(fine, 1.2, flat(pen.main(0.9), 0.3)),
        dots(mouths, 4.6, flat(pen.accent(0.4))),
        dots(mouths, 3.2, flat(pen.accent(0.93))),
    ]


def tiered_plates(pen: Pen) -> list[Shape]:
    """Thin plates spiralling in tiers, pale growing edge, fine dots of polyps."""
    shapes: list[Shape] = [_foot(pen, 160, 54)]
    for x, y, rx, ry, light in (
        (176, 312, 152, 34, 0.46),
        (232, 264, 136, 34, 0.54),
        (168, 216, 126, 34, 0.62),
        (218, 170, 102, 32, 0.7),
        (190, 128, 68, 26, 0.78),
    ):
        rim = pen.frill(x, y, rx, ry, 8, 0.04, 4)
        shapes += [
            blob(shifted(rim, 0, 14), flat("#050a16", 0.4)),
            blob(shifted(rim, 0, 5), flat(pen.accent(0.92))),
            blob(rim, out(pen.main(light), pen.main(light - 0.2))),
            dots(pen.scatter(x, y, rx * 0.84, ry * 0.76, 30, 0.06), 2.2, flat(pen.accent(0.86), 0.85)),
        ]
    return shapes


def encrusting_sheet(pen: Pen) -> list[Shape]:
    """A thin skin poured over plug and rim, pale growing edge, evenly spread tiny polyps."""
    rim = pen.frill(200, 316, 140, 44, 9, 0.08, 3)
    lumps = [(150, 300, 34, 16), (236, 296, 44, 22), (196, 326, 40, 14)]
    polyps = pen.scatter(200, 317, 118, 31, 84, 0.03)
    star: list[Shape] = [
        lines(rays(0, 0, 5, 5, 5, 0.1, 1), 1.6, flat(pen.accent(0.92))),
        dots([(0, 0)], 1.6, flat(pen.accent(0.6))),
    ]
    return [
        blob(shifted(rim, 0, 13), flat(pen.main(0.22))),
        blob(rim, flat(pen.bone(0.94))),
        blob([(200 + (x - 200) * 0.93, 314 + (y - 314) * 0.9) for x, y in rim], down(pen.main(0.7), pen.main(0.44))),
        *[Oval(x, y, rx, ry, out(pen.main(0.82), pen.main(0.56), 0.9, 0)) for x, y, rx, ry in lumps],
        stamp(star, [Place(x, y - 2, 1, 0.9) for x, y in polyps]),
    ]
