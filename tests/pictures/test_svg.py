"""Path data read back by a small reader written from the grammar of SVG 2, chapter 9.3 (paths)."""

import re

from hypothesis import given
from hypothesis import strategies as st

from webapp.pictures.pen import flat
from webapp.pictures.shapes import blob, dots, lines
from webapp.pictures.svg import SvgWriter

INK = flat("#123456")
COORDINATE = st.floats(-50, 450)
POINTS = st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=30)
LENGTHS = {"m": 2, "l": 2, "q": 4, "h": 1}


def stops(element: str) -> list[tuple[float, float]]:
    """The end point of every segment of a path, absolute."""
    data = re.search(r' d="([^"]+)"', element).group(1)
    ends, x, y, start = [], 0.0, 0.0, (0.0, 0.0)
    for command, rest in re.findall(r"([A-Za-z])([^A-Za-z]*)", data):
        numbers = [float(number) for number in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", rest)]
        if command == "z":
            x, y = start
            continue
        step = LENGTHS[command.lower()]
        assert numbers
        assert len(numbers) % step == 0
        for at in range(0, len(numbers), step):
            part = numbers[at : at + step]
            dx, dy = (part[0], 0.0) if command == "h" else part[-2:]
            x, y = (dx, dy) if command == "M" else (x + dx, y + dy)
            if command in "Mm" and at == 0:
                start = (x, y)
            ends.append((x, y))
    return ends


def near(some: tuple[float, float], other: tuple[float, float], within: float) -> bool:
    return abs(some[0] - other[0]) <= within and abs(some[1] - other[1]) <= within


@given(POINTS)
def test_dots_lie_where_they_were_put(points):
    ends = stops(SvgWriter("k").shape(dots(points, 2, INK)))[1:]
    assert all(near(end, point, 0.56) for end, point in zip(ends[::2], points, strict=True))


@given(POINTS)
def test_open_line_starts_and_ends_at_its_points(points):
    ends = stops(SvgWriter("k").shape(lines([points, points[::-1]], 2, INK)))
    assert near(ends[1], points[0], 0.56)
    assert near(ends[-1], points[0], 0.56)
    assert near(ends[len(points) - 1], points[-1], 0.56)


@given(POINTS)
def test_outline_closes_on_itself(points):
    ends = stops(SvgWriter("k").shape(blob(points, INK)))
    assert near(ends[1], ends[-1], 0.11)
