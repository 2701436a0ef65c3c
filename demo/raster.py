"""Paints the shapes of `webapp.pictures` as pixels with Pillow: flat antialiased shapes, no light effects."""

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from PIL import Image, ImageChops, ImageColor, ImageDraw

from webapp.pictures.shapes import CANVAS, Blob, Dots, Lines, Oval, Paint, Place, Point, Shape, Stamp

Box = tuple[float, float, float, float]
STEPS_PER_BEND = 5
SWATCH_PX = 64


def _spline(control: Sequence[Point], closed: bool) -> list[Point]:
    """A uniform quadratic B-spline as straight pieces."""
    count = len(control)
    if count == 2 and not closed:
        return list(control)
    points: list[Point] = []
    for at in range(count) if closed else range(1, count - 1):
        (x0, y0), (x1, y1), (x2, y2) = control[at - 1], control[at], control[(at + 1) % count]
        start = (x0, y0) if not closed and at == 1 else ((x0 + x1) / 2, (y0 + y1) / 2)
        end = (x2, y2) if not closed and at == count - 2 else ((x1 + x2) / 2, (y1 + y2) / 2)
        for step in range(0 if at in (0, 1) else 1, STEPS_PER_BEND + 1):
            t = step / STEPS_PER_BEND
            a, b, c = (1 - t) ** 2, 2 * t * (1 - t), t * t
            points.append((a * start[0] + b * x1 + c * end[0], a * start[1] + b * y1 + c * end[1]))
    return points


@lru_cache(maxsize=8)
def _ramp(run: str) -> np.ndarray:
    """How far each point of a unit box lies along a gradient, 0..1."""
    if run == "down":
        return np.linspace(0, 1, SWATCH_PX)[:, None]
    y, x = np.mgrid[0:SWATCH_PX, 0:SWATCH_PX] / (SWATCH_PX - 1)
    middle, reach = (0.36, 0.66) if run == "out" else (0.5, 0.5)
    return np.clip(np.hypot(x - 0.5, y - middle) / reach, 0, 1)


@lru_cache(maxsize=1024)
def _swatch(paint: Paint) -> tuple[Image.Image, Image.Image | None]:
    """A gradient over a unit box as a small picture, and its opacity where it is not solid."""
    ramp = _ramp(paint.run)
    offsets = [offset for offset, _, _ in paint.stops]
    rgb = np.array([ImageColor.getrgb(colour) for _, colour, _ in paint.stops], dtype=float)
    colours = np.stack([np.interp(ramp, offsets, rgb[:, part]) for part in range(3)], axis=-1)
    picture = Image.fromarray(colours.round().astype(np.uint8))
    opacities = [255 * opacity for _, _, opacity in paint.stops]
    if min(opacities) == 255:
        return picture, None
    return picture, Image.fromarray(np.interp(ramp, offsets, opacities).round().astype(np.uint8))


def _bounds(points: Sequence[Point]) -> Box:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


class Painter:
    """Paints on a square RGB canvas; coordinates are those of the picture."""

    def __init__(self, canvas: Image.Image) -> None:
        self.scale = canvas.width / CANVAS
        self.image = canvas

    def paint(self, shapes: Sequence[Shape]) -> Image.Image:
        """Paint back to front; gives the picture."""
        for shape in shapes:
            self._shape(shape, (self.scale, 0.0, 0.0, 0.0, self.scale, 0.0))
        return self.image

    def _shape(self, shape: Shape, matrix: tuple[float, ...]) -> None:
        match shape:
            case Blob():
                loops = [list(loop) if shape.sharp else _spline(loop, True) for loop in shape.loops]
                self._fill([self._to(matrix, loop) for loop in loops], shape.paint)
            case Lines():
                curves = []
                for curve in shape.curves:
                    points = list(curve) if shape.sharp else _spline(curve, shape.closed)
                    curves.append(self._to(matrix, points + points[:1] if shape.closed else points))
                self._stroke(curves, shape.width * _zoom(matrix), shape.paint)
            case Dots():
                self._dots(shape, matrix)
            case Oval():
                cos, sin = math.cos(math.radians(shape.turn)), math.sin(math.radians(shape.turn))
                edge = []
                for at in range(40):
                    u, v = shape.rx * math.cos(math.tau * at / 40), shape.ry * math.sin(math.tau * at / 40)
                    edge.append((shape.x + u * cos - v * sin, shape.y + u * sin + v * cos))
                self._fill([self._to(matrix, edge)], shape.paint)
            case Stamp():
                for place in shape.places:
                    moved = _joined(matrix, place)
                    for part in shape.shapes:
                        self._shape(part, moved)

    @staticmethod
    def _to(matrix: tuple[float, ...], points: Sequence[Point]) -> list[Point]:
        a, b, c, d, e, f = matrix
        return [(a * x + b * y + c, d * x + e * y + f) for x, y in points]

    def _fill(self, loops: list[list[Point]], paint: Paint) -> None:
        def draw(pencil: ImageDraw.ImageDraw, ink: object, dx: float, dy: float) -> None:
            for loop in loops:
                pencil.polygon([(x - dx, y - dy) for x, y in loop], fill=ink)

        self._apply(draw, _bounds([point for loop in loops for point in loop]), 0, paint)

    def _stroke(self, curves: list[list[Point]], width: float, paint: Paint) -> None:
        half = max(0.5, width / 2)

        def draw(pencil: ImageDraw.ImageDraw, ink: object, dx: float, dy: float) -> None:
            for curve in curves:
                moved = [(x - dx, y - dy) for x, y in curve]
                pencil.line(moved, fill=ink, width=max(1, round(width)), joint="curve" if width > 6 else None)
                if width > 3:
                    for x, y in (moved[0], moved[-1]):
                        pencil.ellipse((x - half, y - half, x + half, y + half), fill=ink)

        self._apply(draw, _bounds([point for curve in curves for point in curve]), half, paint)

    def _dots(self, shape: Dots, matrix: tuple[float, ...]) -> None:
        a, b, _, d, e, _ = matrix
        points = self._to(matrix, shape.points)
        rx, ry = shape.radius * math.hypot(a, d), shape.radius * math.hypot(b, e)
        if (
            abs(rx - ry) > 0.02 * rx and max(abs(b), abs(d)) > 0.02 * self.scale
        ):  # squeezed and turned: no upright ellipse
            turns = [math.tau * at / 20 for at in range(20)]
            ring = [(shape.radius * math.cos(turn), shape.radius * math.sin(turn)) for turn in turns]
            edge = [(a * u + b * v, d * u + e * v) for u, v in ring]
            self._fill([[(x + u, y + v) for u, v in edge] for x, y in points], shape.paint)
            return

        def draw(pencil: ImageDraw.ImageDraw, ink: object, dx: float, dy: float) -> None:
            for x, y in points:
                pencil.ellipse((x - dx - rx, y - dy - ry, x - dx + rx, y - dy + ry), fill=ink)

        self._apply(draw, _bounds(points), max(rx, ry), shape.paint)

    def _apply(self, draw, box: Box, margin: float, paint: Paint) -> None:
        """Straight onto the canvas where one solid colour will do, else through a mask as large as the shape."""
        if paint.run == "flat" and paint.stops[0][2] >= 1:
            draw(ImageDraw.Draw(self.image), paint.stops[0][1], 0, 0)
            return
        box = (box[0] - 0.5, box[1] - 0.5, box[2] + 0.5, box[3] + 0.5)
        left, top = max(0, math.floor(box[0] - margin)), max(0, math.floor(box[1] - margin))
        right = min(self.image.width, math.ceil(box[2] + margin) + 1)
        bottom = min(self.image.height, math.ceil(box[3] + margin) + 1)
        if right <= left or bottom <= top:
            return
        opacity = round(255 * paint.stops[0][2]) if paint.run == "flat" else 255
        mask = Image.new("L", (right - left, bottom - top))
        draw(ImageDraw.Draw(mask), opacity, left, top)
        if paint.run == "flat":
            self.image.paste(paint.stops[0][1], (left, top, right, bottom), mask)
            return
        self._gradient(paint, box, (left, top, right, bottom), mask)

    def _gradient(self, paint: Paint, box: Box, area: tuple[int, int, int, int], mask: Image.Image) -> None:
        """Stretch the swatch over the box and show the part of it that falls in the area."""
        left, top, right, bottom = area
        colours, opacity = _swatch(paint)
        step_x = colours.width / max(1e-6, box[2] - box[0])
        step_y = colours.height / max(1e-6, box[3] - box[1])
        part = (
            max(0, (left - box[0]) * step_x),
            max(0, (top - box[1]) * step_y),
            min(colours.width, (right - box[0]) * step_x),
            min(colours.height, (bottom - box[1]) * step_y),
        )
        if opacity:
            mask = ImageChops.multiply(mask, opacity.resize(mask.size, Image.Resampling.BILINEAR, part))
        self.image.paste(colours.resize(mask.size, Image.Resampling.BILINEAR, part), (left, top), mask)


def _joined(matrix: tuple[float, ...], place: Place) -> tuple[float, ...]:
    a, b, c, d, e, f = matrix
    cos, sin = math.cos(math.radians(place.turn)), math.sin(math.radians(place.turn))
    p, q, r, s = cos * place.scale_x, -sin * place.scale_y, sin * place.scale_x, cos * place.scale_y
    return (
        a * p + b * r,
        a * q + b * s,
        a * place.x + b * place.y + c,
        d * p + e * r,
        d * q + e * s,
        d * place.x + e * place.y + f,
    )


def _zoom(matrix: tuple[float, ...]) -> float:
    a, b, _, d, e, _ = matrix
    return math.sqrt(abs(a * e - b * d))


def render(shapes: Sequence[Shape], size: int, oversample: int = 2) -> Image.Image:
    """The picture as `size` x `size` pixels RGB, painted larger and averaged down."""
    return Painter(Image.new("RGB", (size * oversample, size * oversample))).paint(shapes).reduce(oversample)
