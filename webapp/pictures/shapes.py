"""What a picture is made of: a handful of plain shapes on a canvas of 400 x 400 units, y downwards.

The same shapes are written as SVG for the pages and painted as pixels for photographs of invented animals, so nothing
here knows how it is drawn. Curves are uniform quadratic B-splines: control points in, a smooth line out.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

CANVAS = 400

Point = tuple[float, float]
Curve = Sequence[Point]


@dataclass(frozen=True)
class Paint:
    """Colour stops `(offset 0..1, '#rrggbb', opacity 0..1)`.

    `run` says how they run over the bounding box of a shape: 'flat', 'down' (top to bottom), 'out' (from a point above
    the middle outwards, as light from above falls on a round body) or 'glow' (from the middle to the nearest edge).
    """

    stops: tuple[tuple[float, str, float], ...]
    run: str = "flat"


@dataclass(frozen=True)
class Blob:
    """A filled outline; smooth through its control points, or with straight sides when `sharp`."""

    loops: tuple[tuple[Point, ...], ...]
    paint: Paint
    sharp: bool = False


@dataclass(frozen=True)
class Lines:
    """Smooth strokes of one width with round ends; closed, they run round an outline as a `Blob` fills it."""

    curves: tuple[tuple[Point, ...], ...]
    width: float
    paint: Paint
    closed: bool = False
    sharp: bool = False


@dataclass(frozen=True)
class Dots:
    """Discs of one radius."""

    points: tuple[Point, ...]
    radius: float
    paint: Paint


@dataclass(frozen=True)
class Oval:
    """An ellipse, turned clockwise by `turn` degrees."""

    x: float
    y: float
    rx: float
    ry: float
    paint: Paint
    turn: float = 0


@dataclass(frozen=True)
class Place:
    """Where a stamp goes: moved to x, y, turned clockwise by `turn` degrees, scaled."""

    x: float
    y: float
    scale_x: float = 1
    scale_y: float = 1
    turn: float = 0


@dataclass(frozen=True)
class Stamp:
    """A few shapes around their own origin, drawn once at each place."""

    shapes: tuple["Shape", ...]
    places: tuple[Place, ...] = field(default=())


Shape = Blob | Lines | Dots | Oval | Stamp


def blob(points: Iterable[Point], paint: Paint, sharp: bool = False) -> Blob:
    """A blob with one outline."""
    return Blob((tuple(points),), paint, sharp)


def blobs(loops: Iterable[Iterable[Point]], paint: Paint, sharp: bool = False) -> Blob:
    """Several outlines of one paint."""
    return Blob(tuple(tuple(loop) for loop in loops), paint, sharp)


def lines(curves: Iterable[Iterable[Point]], width: float, paint: Paint) -> Lines:
    """Strokes of one width."""
    return Lines(tuple(tuple(curve) for curve in curves), width, paint)


def rims(loops: Iterable[Iterable[Point]], width: float, paint: Paint, sharp: bool = False) -> Lines:
    """Strokes round closed outlines."""
    return Lines(tuple(tuple(loop) for loop in loops), width, paint, True, sharp)


def dots(points: Iterable[Point], radius: float, paint: Paint) -> Dots:
    """Discs of one size."""
    return Dots(tuple(points), radius, paint)


def stamp(shapes: Iterable[Shape], places: Iterable[Place]) -> Stamp:
    """A stamp and its places."""
    return Stamp(tuple(shapes), tuple(places))
