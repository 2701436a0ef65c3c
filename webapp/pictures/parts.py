"""Pieces that many growth forms are put together from."""

import math
from collections.abc import Iterable, Sequence

from webapp.pictures.pen import Dome, Pen, down, flat, out, taper
from webapp.pictures.shapes import Oval, Place, Point, Shape, blob, blobs, dots, lines, rims

Limb = tuple[list[Point], float, float]


def limbs(pen: Pen, members: Sequence[Limb], light: float = 0.72, dark: float = 0.36, edge: float = 5) -> list[Shape]:
    """Round limbs `(line, width at foot, width at tip)`: dark edge, body lit from above, light on the left."""
    bodies = [taper(line, wide, narrow) for line, wide, narrow in members]
    lights = [
        [(x - (wide + (narrow - wide) * at / (len(line) - 1)) * 0.2, y) for at, (x, y) in enumerate(line)]
        for line, wide, narrow in members
    ]
    width = sum(narrow for _, _, narrow in members) / len(members) * 0.3
    return [
        rims(bodies, edge, flat(pen.deep(0.22))),
        blobs(bodies, down(pen.main(light), pen.main(dark))),
        lines(lights, max(1.5, width), down(pen.main(min(0.95, light + 0.17)), pen.main(light), 0.75, 0.1)),
    ]


def tentacles(
    pen: Pen, curves: Sequence[Sequence[Point]], width: float, light: float, tip: float = 0, tip_light: float = 0.88
) -> list[Shape]:
    """Soft tentacles of one layer: dark edge, body, and round ends of radius `tip`."""
    ends = [curve[-1] for curve in curves]
    shapes: list[Shape] = [
        lines(curves, width + 3, flat(pen.deep(0.2), 0.75)),
        lines(curves, width, down(pen.main(light), pen.main(light - 0.17))),
    ]
    if tip:
        shapes += [
            dots(ends, tip + 1.4, flat(pen.deep(0.24), 0.7)),
            dots(ends, tip, flat(pen.accent(tip_light))),
            dots([(x - tip * 0.3, y - tip * 0.35) for x, y in ends], tip * 0.36, flat("#ffffff", 0.75)),
        ]
    return shapes


def crown(pen: Pen, count: int, inner: float, outer: float, bend: float = 0.3, squash: float = 1) -> list[list[Point]]:
    """Tentacles that ring a mouth, around the origin."""
    curves = []
    for at in range(count):
        angle = math.tau * at / count + pen.spread(0.08)
        far, turn = pen.near(outer, 0.08), pen.spread(bend)
        middle = (inner + far) / 2
        curves.append(
            [
                (inner * math.cos(angle), inner * math.sin(angle) * squash),
                (middle * math.cos(angle + turn), middle * math.sin(angle + turn) * squash),
                (far * math.cos(angle), far * math.sin(angle) * squash),
            ]
        )
    return curves


def dome_body(pen: Pen, dome: Dome, light: float = 0.7, dark: float = 0.3, rough: float = 0.02) -> list[Shape]:
    """A rounded colony, lit from above, with a dark foot."""
    outline = dome.outline(pen, rough)
    return [
        Oval(dome.x, dome.y + dome.ry * 0.5, dome.rx * 1.02, dome.ry * 0.2, flat("#060a18", 0.5)),
        blob(outline, out(pen.main(light), pen.main(dark))),
    ]


def on_dome(dome: Dome, points: Iterable[Point], least: float = 0.12) -> list[Place]:
    """Places on a dome for stamps of unit scale, squeezed and turned as the surface turns away."""
    places = []
    for u, v in points:
        x, y, facing = dome.project(u, v)
        if facing < least:
            continue
        turn = math.degrees(math.atan2(y - (dome.y - dome.ry * math.cos(dome.tilt) * 0.4), x - dome.x))
        places.append(Place(x, y, max(0.35, facing), 1, turn))
    return sorted(places, key=lambda place: place.scale_x)


def unit_scatter(pen: Pen, count: int, jitter: float = 0.03) -> list[Point]:
    """Evenly spread points of the unit disc."""
    return pen.scatter(0, 0, 1, 1, count, jitter)


def hex_cells(pen: Pen, across: int, jitter: float) -> list[list[Point]]:
    """Six-sided cells that share their walls and fill the unit disc; `jitter` is a share of a cell."""
    side = 2 / (across * math.sqrt(3))
    corners: dict[tuple[int, int], Point] = {}

    def corner(x: float, y: float) -> Point:
        name = (round(x / side * 8), round(y / side * 8))
        if name not in corners:
            corners[name] = (x + pen.spread(jitter) * side, y + pen.spread(jitter) * side)
        return corners[name]

    cells = []
    rows = round(1 / (1.5 * side)) + 1
    for row in range(-rows, rows + 1):
        for column in range(-across, across + 1):
            x = (column + (row % 2) / 2) * side * math.sqrt(3)
            y = row * 1.5 * side
            if math.hypot(x, y) < 1:
                turns = (math.pi / 6 + math.pi / 3 * at for at in range(6))
                cells.append([corner(x + side * math.cos(a), y + side * math.sin(a)) for a in turns])
    return cells


def shrunk(loop: Sequence[Point], share: float) -> list[Point]:
    """The outline drawn in towards its middle."""
    x = sum(point[0] for point in loop) / len(loop)
    y = sum(point[1] for point in loop) / len(loop)
    return [(x + (px - x) * share, y + (py - y) * share) for px, py in loop]


def maze(pen: Pen, across: int, straightness: float = 0.4) -> list[list[Point]]:
    """Winding corridors over the unit disc that never close: walks through a jittered grid, each cell once."""
    step = 2 / across
    free = {
        (i, j)
        for i in range(-across, across)
        for j in range(-across, across)
        if math.hypot((i + 0.5) * step, (j + 0.5) * step) < 1
    }
    spot = {
        cell: ((cell[0] + 0.5 + pen.spread(0.16)) * step, (cell[1] + 0.5 + pen.spread(0.16)) * step)
        for cell in sorted(free)
    }
    corridors = []
    while free:
        cell = pen.chance.choice(sorted(free))
        free.remove(cell)
        walk, heading = [cell], (1, 0)
        while True:
            ways = [(i, j) for i, j in ((1, 0), (0, 1), (-1, 0), (0, -1)) if (cell[0] + i, cell[1] + j) in free]
            if not ways:
                break
            keep = heading in ways and pen.chance.random() < straightness
            heading = heading if keep else pen.chance.choice(ways)
            cell = (cell[0] + heading[0], cell[1] + heading[1])
            free.remove(cell)
            walk.append(cell)
        if len(walk) == 1:
            x, y = spot[walk[0]]
            corridors.append([(x, y), (x + step * 0.15, y)])
        else:
            corridors.append([spot[each] for each in walk])
    return corridors


def laid(dome: Dome, curves: Iterable[Sequence[Point]], least: float = 0.03) -> list[list[Point]]:
    """Curves of the unit disc laid over a dome; what faces away is cut off."""
    seen = []
    for curve in curves:
        run: list[Point] = []
        for u, v in curve:
            x, y, facing = dome.project(u, v)
            if facing > least:
                run.append((x, y))
            else:
                if len(run) > 1:
                    seen.append(run)
                run = []
        if len(run) > 1:
            seen.append(run)
    return seen


def flower(pen: Pen, petals: int, radius: float, width: float, middle: float = 0.3, light: float = 0.8) -> list[Shape]:
    """A small polyp seen from above, around the origin: separate tentacles and a mouth."""
    tips = crown(pen, petals, radius * 0.2, radius, 0.12)
    return [
        lines(tips, width + radius * 0.12, flat(pen.deep(0.22), 0.7)),
        lines(tips, width, flat(pen.main(light))),
        dots([(0, 0)], radius * middle, flat(pen.accent(0.84))),
        dots([(0, 0)], radius * middle * 0.4, flat(pen.deep(0.25))),
    ]
