"""Zoanthids: colonies of button polyps joined by a mat."""

from webapp.pictures.parts import crown
from webapp.pictures.pen import Pen, down, flat, out, taper
from webapp.pictures.shapes import Oval, Place, Shape, blob, dots, lines, stamp


def ringed_mat(pen: Pen) -> list[Shape]:
    """A crowded mat of flat discs with coloured rings and a short skirt."""
    skirt = crown(pen, 26, 24, 36, 0.05)
    polyp: list[Shape] = [
        dots([(0, 0)], 37, flat("#050a16", 0.35)),
        lines(skirt, 3.4, flat(pen.main(0.66))),
        dots([(0, 0)], 27, flat(pen.deep(0.24))),
        dots([(0, 0)], 25, flat(pen.main(0.55))),
        dots([(0, 0)], 20, flat(pen.accent(0.84))),
        dots([(0, 0)], 13, flat(pen.main(0.42))),
        dots([(0, 0)], 5, flat(pen.accent(0.92))),
        lines([[(-3, 0), (3, 0)]], 1.6, flat(pen.deep())),
        Oval(-8, -12, 9, 5, flat("#ffffff", 0.28), -30),
    ]
    places = []
    for x, y in pen.scatter(200, 258, 122, 66, 19, 0.03):
        size = 0.78 + (y - 190) / 330
        places.append(Place(x, y, size, size * 0.8, pen.spread(14)))
    return [blob(pen.ring(200, 290, 122, 46, 12), down(pen.main(0.4), pen.main(0.18))), stamp(polyp, places)]


def stalked_polyps(pen: Pen) -> list[Shape]:
    """Few large polyps on thick sandy stalks, plain disc with a slit, long skirt."""
    heads = [(108, 206, 0.95), (292, 196, 0.95), (200, 148, 1.0), (152, 256, 1.05), (262, 262, 1.1)]
    stalks = [
        taper([(200 + (x - 200) * 0.5, 336), (200 + (x - 200) * 0.8, 290), (x, y + 6)], 52, 58) for x, y, _ in heads
    ]
    skirt = crown(pen, 34, 44, 70, 0.12, 0.62)
    head: list[Shape] = [
        lines(skirt, 6, flat(pen.deep(0.22))),
        lines(skirt, 3.4, flat(pen.accent(0.7))),
        Oval(0, 0, 49, 30, out(pen.main(0.72), pen.main(0.4))),
        Oval(0, 0, 30, 17, flat(pen.main(0.8), 0.5)),
        Oval(0, 0, 14, 4, flat(pen.deep(0.18))),
    ]
    shapes: list[Shape] = []
    for (x, y, size), stalk in sorted(zip(heads, stalks, strict=True), key=lambda pair: pair[0][1]):
        specks = [
            (x + pen.spread(22) + (200 - x) * 0.3 * share, y + 26 + (326 - y) * share)
            for share in (0.1, 0.3, 0.4, 0.5, 0.6, 0.8)
        ]
        shapes += [
            blob(stalk, down(pen.main(0.58), pen.main(0.28))),
            dots(specks, 2.4, flat(pen.bone(0.88), 0.7)),
            stamp(head, [Place(x, y, size, size, pen.spread(8))]),
        ]
    return [blob(pen.ring(200, 326, 108, 22, 10), down(pen.main(0.4), pen.main(0.2))), *shapes]


def slender_polyps(pen: Pen) -> list[Shape]:
    """Slender yellow polyps, each a stem and a star of long pointed tentacles."""
    heads = sorted(pen.scatter(200, 216, 132, 88, 15, 0.06), key=lambda p: p[1])
    stems = [[(200 + (x - 200) * 0.72, 334), (200 + (x - 200) * 0.95, 290), (x, y)] for x, y in heads]
    star = crown(pen, 18, 8, 38, 0.2, 0.75)
    head: list[Shape] = [
        lines(star, 4.4, flat(pen.deep(0.24), 0.7)),
        lines(star, 2.4, flat(pen.main(0.86))),
        Oval(0, 0, 12, 9, out(pen.main(0.8), pen.main(0.5))),
        Oval(0, 0, 4, 2, flat(pen.accent(0.4))),
    ]
    places = [Place(x, y, size, size, pen.spread(20)) for (x, y) in heads for size in (pen.near(1, 0.12),)]
    return [
        blob(pen.ring(200, 332, 116, 16, 10), down(pen.main(0.55), pen.main(0.3))),
        lines(stems, 15, flat(pen.deep(0.25))),
        lines(stems, 11, down(pen.main(0.78), pen.main(0.42))),
        stamp(head, places),
    ]
