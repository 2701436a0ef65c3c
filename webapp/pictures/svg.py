"""Writes shapes as SVG: attributes only, no style, no script, nothing fetched from outside the picture.

An outline that comes more than once, moved or in another paint, is written once and then referred to.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from html import escape

from webapp.pictures.shapes import CANVAS, Blob, Dots, Lines, Oval, Paint, Place, Point, Shape, Stamp

WORTH_SHARING_CHARS = 40


def _number(value: float) -> str:
    text = f"{value:.1f}".removesuffix(".0")
    if text in ("-0", "0"):
        return "0"
    return text.replace("0.", ".", 1) if text.lstrip("-").startswith("0.") else text


def _numbers(values: Iterable[float]) -> str:
    joined = ""
    for value in values:
        text = _number(value)
        joined += text if not joined or text.startswith("-") else f" {text}"
    return joined


def _middle(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


class _Trace:
    """Path data in relative coordinates from an origin, rounded so that errors do not add up."""

    def __init__(self, origin: Point, decimals: int) -> None:
        self.origin, self.decimals, self.x, self.y, self.data = origin, decimals, 0.0, 0.0, ""
        self.last = ""

    def step(self, command: str, *points: Point) -> None:
        parts: list[float] = []
        for x, y in points:
            at_x, at_y = round(x - self.origin[0], self.decimals), round(y - self.origin[1], self.decimals)
            parts += [at_x - self.x, at_y - self.y]
        self.x, self.y = at_x, at_y
        numbers = _numbers(parts)
        if command == self.last != "m":
            self.data += numbers if numbers.startswith("-") else f" {numbers}"
        else:
            self.data += command + numbers
        self.last = command

    def open(self, curve: Sequence[Point]) -> None:
        self.step("m", curve[0])
        if len(curve) == 2:
            self.step("l", curve[1])
        for at in range(1, len(curve) - 1):
            end = curve[-1] if at == len(curve) - 2 else _middle(curve[at], curve[at + 1])
            self.step("q", curve[at], end)

    def closed(self, loop: Sequence[Point], sharp: bool) -> None:
        start = loop[0] if sharp else _middle(loop[-1], loop[0])
        self.step("m", start)
        for at, point in enumerate(loop):
            if sharp and at:
                self.step("l", point)
            elif not sharp:
                self.step("q", point, _middle(point, loop[(at + 1) % len(loop)]))
        self.data += "z"
        self.last = "z"
        self.x, self.y = (round(part - zero, self.decimals) for part, zero in zip(start, self.origin, strict=True))

    def dot(self, point: Point) -> None:
        self.step("m", point)
        self.data += "h0"
        self.last = "h"


def _transform(place: Place, decimals: int = 1) -> str:
    parts = [f"translate({_numbers((round(place.x, decimals), round(place.y, decimals)))})"]
    if round(place.turn):
        parts.append(f"rotate({place.turn:.0f})")
    if (place.scale_x, place.scale_y) != (1, 1):
        both = (place.scale_x,) if place.scale_x == place.scale_y else (place.scale_x, place.scale_y)
        parts.append(f"scale({' '.join(f'{scale:.2f}'.removeprefix('0') for scale in both)})")
    return "".join(parts)


class SvgWriter:
    """Collects definitions (gradients, stamps, shared outlines) while shapes are written.

    `prefix` keeps ids apart on one page; `uses` tells how often each outline came in an earlier writing.
    """

    def __init__(self, prefix: str, uses: Counter | None = None) -> None:
        self.prefix, self.uses = prefix, uses or Counter()
        self.seen: Counter = Counter()
        self.definitions: list[str] = []
        self._ids: dict[object, str] = {}

    def _define(self, thing: object, tag: str, rest: str) -> str:
        if thing not in self._ids:
            self._ids[thing] = f"{self.prefix}{len(self._ids)}"
            self.definitions.append(f'<{tag} id="{self._ids[thing]}"{rest}')
        return self._ids[thing]

    def _paint(self, attribute: str, paint: Paint) -> str:
        if paint.run == "flat":
            _, colour, opacity = paint.stops[0]
            faint = f' {attribute}-opacity="{opacity:.2g}"' if opacity < 1 else ""
            return f'{attribute}="{colour}"{faint}'
        stops = "".join(
            f'<stop offset="{offset:.2g}" stop-color="{colour}"' + (f' stop-opacity="{o:.2g}"' if o < 1 else "") + "/>"
            for offset, colour, o in paint.stops
        )
        if paint.run == "down":
            name = self._define(paint, "linearGradient", f' x2="0" y2="1">{stops}</linearGradient>')
        elif paint.run == "out":
            name = self._define(paint, "radialGradient", f' cy=".36" r=".66">{stops}</radialGradient>')
        else:
            name = self._define(paint, "radialGradient", f">{stops}</radialGradient>")
        return f'{attribute}="url(#{name})"'

    def _path(self, trace: _Trace, attributes: str) -> str:
        self.seen[trace.data] += 1
        x, y = trace.origin
        if self.uses[trace.data] > 1 and len(trace.data) > WORTH_SHARING_CHARS:
            name = self._define(trace.data, "path", f' d="{trace.data}"/>')
            return f'<use href="#{name}" {attributes} transform="{_transform(Place(x, y))}"/>'
        start = f"M{_numbers((x, y))}"
        return f'<path {attributes} d="{start}{trace.data}"/>'

    def shape(self, shape: Shape, decimals: int = 0) -> str:
        """One shape as an element."""
        match shape:
            case Blob():
                trace = _Trace(shape.loops[0][0], decimals)
                for loop in shape.loops:
                    trace.closed(loop, shape.sharp)
                return self._path(trace, self._paint("fill", shape.paint))
            case Lines():
                trace = _Trace(shape.curves[0][0], decimals)
                for curve in shape.curves:
                    if shape.closed:
                        trace.closed(curve, shape.sharp)
                    else:
                        trace.open(curve)
                return self._path(trace, self._stroke(shape.width, shape.paint))
            case Dots():
                trace = _Trace(shape.points[0], decimals)
                for point in shape.points:
                    trace.dot(point)
                return self._path(trace, self._stroke(2 * shape.radius, shape.paint))
            case Oval():
                turn = f' transform="rotate({_numbers((shape.turn, shape.x, shape.y))})"' if round(shape.turn) else ""
                names = (("cx", shape.x), ("cy", shape.y), ("rx", shape.rx), ("ry", shape.ry))
                where = " ".join(f'{name}="{_number(value)}"' for name, value in names)
                return f"<ellipse {where} {self._paint('fill', shape.paint)}{turn}/>"
            case Stamp():
                inner = "".join(self.shape(part, 1) for part in shape.shapes)
                name = self._define(shape.shapes, "g", f">{inner}</g>")
                return "".join(f'<use href="#{name}" transform="{_transform(place, 0)}"/>' for place in shape.places)

    def _stroke(self, width: float, paint: Paint) -> str:
        return f'{self._paint("stroke", paint)} stroke-width="{_number(width)}"'


def document(shapes: Sequence[Shape], title: str, prefix: str, size: int) -> str:
    """A complete picture, `size` CSS pixels square, with `title` as its accessible name."""
    trial = SvgWriter(prefix)
    for shape in shapes:
        trial.shape(shape)
    writer = SvgWriter(prefix, trial.seen)
    body = "".join(writer.shape(shape) for shape in shapes)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{size}" height="{size}" '
        f'viewBox="0 0 {CANVAS} {CANVAS}"><title>{escape(title)}</title>'
        f"<defs>{''.join(writer.definitions)}</defs>"
        f'<g fill="none" stroke-linecap="round" stroke-linejoin="round">{body}</g></svg>'
    )
