"""The water around every animal: light from above, and the plug, rock or sand it sits on."""

import math

from webapp.pictures.colour import oklch
from webapp.pictures.pen import Pen, down, flat, glow
from webapp.pictures.shapes import CANVAS, Oval, Paint, Shape, blob, blobs, dots, lines

WATER_HUE = 255


def water(pen: Pen) -> list[Shape]:
    """Dark blue water with three slanting beams and a soft glow of the animal's own colour."""
    edge = ((0, 0), (CANVAS, 0), (CANVAS, CANVAS), (0, CANVAS))
    depth = Paint(
        (
            (0, oklch(0.42, 0.12, WATER_HUE - 25), 1),
            (0.45, oklch(0.27, 0.1, WATER_HUE), 1),
            (1, oklch(0.15, 0.05, WATER_HUE + 15), 1),
        ),
        "down",
    )
    beam = down("#bfe8ff", "#bfe8ff", 0.2, 0)
    beams = []
    for left in (30, 150, 285):
        start, wide = left + pen.spread(25), pen.near(34, 0.3)
        beams.append([(start, -5), (start + wide, -5), (start + wide * 2.1 - 40, 330), (start - 60, 330)])
    motes = [(pen.chance.uniform(8, 392), pen.chance.uniform(10, 300)) for _ in range(14)]
    halo = Oval(200, 210, 215, 190, glow(pen.main(0.62), 0.42))
    return [
        blob(edge, depth, sharp=True),
        blobs(beams, beam, sharp=True),
        halo,
        dots(motes, 1.3, flat("#d8f0ff", 0.35)),
    ]


def plug(pen: Pen, y: float = 330, rx: float = 92) -> list[Shape]:
    """A ceramic frag plug: disc and stem, in an egg-crate's shade."""
    ry = rx * 0.24
    side = [
        (200 - rx, y),
        (200 + rx, y),
        (200 + rx * 0.97, y + 18),
        (200 + rx * 0.5, y + 18 + ry * 0.8),
        (200 - rx * 0.5, y + 18 + ry * 0.8),
        (200 - rx * 0.97, y + 18),
    ]
    stem = [(168, y + 20), (232, y + 20), (226, CANVAS), (174, CANVAS)]
    spots = [(x, yy) for x, yy in pen.scatter(200, y, rx * 0.9, ry * 0.85, 16, 0.12)]
    return [
        blob(stem, down(pen.bone(0.42), pen.bone(0.25)), sharp=True),
        blob(side, down(pen.bone(0.62), pen.bone(0.3))),
        Oval(200, y, rx, ry, down(pen.bone(0.6), pen.bone(0.8))),
        dots(spots, 2.4, flat(oklch(0.5, 0.09, 350), 0.5)),
        Oval(200, y + 1, rx * 0.72, ry * 0.72, flat("#0a1020", 0.28)),
    ]


def sand(pen: Pen, y: float = 330) -> list[Shape]:
    """A bed of coral sand."""
    top = (
        [(-20, y + 14)] + [(x, y + pen.spread(9)) for x in range(40, 400, 60)] + [(420, y + 8), (420, 430), (-20, 430)]
    )
    grains = [(pen.chance.uniform(4, 396), y + 12 + pen.chance.random() ** 1.5 * 62) for _ in range(46)]
    return [
        blob(top, down(pen.bone(0.72), pen.bone(0.36))),
        dots(grains[:23], 2.2, flat(pen.bone(0.9), 0.6)),
        dots(grains[23:], 2, flat(pen.bone(0.3), 0.5)),
        Oval(200, y + 16, 120, 20, flat("#0a1020", 0.3)),
    ]


def rock(pen: Pen, y: float = 325, rx: float = 150) -> list[Shape]:
    """A piece of reef rock grown over with pink algae."""
    top = []
    for at in range(11):
        angle = math.pi * at / 10
        top.append((200 - rx * 1.15 * math.cos(angle), y + 40 - 46 * math.sin(angle) + pen.spread(9)))
    body = [*top, (200 + rx * 1.1, 430), (200 - rx * 1.1, 430)]
    pits = [(x, yy) for x, yy in pen.scatter(200, y + 52, rx * 0.95, 32, 22, 0.1)]
    crust = [[(x, yy), (x + 12, yy - 4), (x + 22, yy + 3)] for x, yy in pen.scatter(190, y + 40, rx * 0.8, 30, 9, 0.15)]
    return [
        blob(body, down(oklch(0.5, 0.05, 340), oklch(0.22, 0.04, 290))),
        lines(crust, 7, flat(oklch(0.62, 0.11, 350), 0.5)),
        dots(pits, 4, flat("#0d0f24", 0.4)),
        Oval(200, y + 8, rx * 0.72, 14, flat("#0a1020", 0.3)),
    ]


GROUNDS = {"plug": plug, "sand": sand, "rock": rock}
