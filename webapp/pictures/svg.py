"""Writes shapes as SVG: attributes only, no style, no script, nothing fetched from outside the picture."""

from collections.abc import Iterable
from html import escape

from webapp.pictures.shapes import CANVAS, Blob, Dots, Lines, Oval, Paint, Place, Point, Shape, Stamp


def _number(value: float) -> str:
    text = f"{value:.1f}" if abs(value) < 10 else f"{value:.0f}"
    text = text.removesuffix(".0")
    if text in ("-0", "0"):
        return "0"
    return text.replace("0.", ".", 1) if text.lstrip("-").startswith("0.") else text


def _numbers(values: Iterable[float]) -> str:
    joined = ""
    for value in values:
        text = _number(value)
        joined += text if not joined or text.startswith("-") else f" {text}"
    return joined


class _Cursor:
    """Path data in relative coordinates, rounded so that errors do not add up."""

    def __init__(self, decimals: int) -> None:
        self.decimals, self.x, self.y, self.data = decimals, 0.0, 0.0, ""

    def step(self, command: str, *points: Point) -> None:
        parts: list[float] = []
        for x, y in points:
            parts += [round(x, self.decimals) - self.x, round(y, self.decimals) - self.y]
        self.x, self.y = (round(part, self.decimals) for part in points[-1])
        self.data += command + _numbers(parts)


def _middle(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _open_path(curves: Iterable[tuple[Point, ...]], decimals: int) -> str:
    cursor = _Cursor(decimals)
    for curve in curves:
        cursor.step("m" if cursor.data else "M", curve[0])
        if len(curve) == 2:
            cursor.step("l", curve[1])
        for at in range(1, len(curve) - 1):
            end = curve[-1] if at == len(curve) - 2 else _middle(curve[at], curve[at + 1])
            cursor.step("q", curve[at], end)
    return cursor.data


def _closed_path(loops: Iterable[tuple[Point, ...]], sharp: bool, decimals: int) -> str:
    data = ""
    for loop in loops:
        cursor = _Cursor(decimals)
        if sharp:
            cursor.step("M", loop[0])
            for point in loop[1:]:
                cursor.step("l", point)
        else:
            cursor.step("M", _middle(loop[-1], loop[0]))
            for at, point in enumerate(loop):
                cursor.step("q", point, _middle(point, loop[(at + 1) % len(loop)]))
        data += cursor.data + "z"
    return data


def _dots_path(points: Iterable[Point], decimals: int) -> str:
    cursor = _Cursor(decimals)
    for point in points:
        cursor.step("m" if cursor.data else "M", point)
        cursor.data += "h0"
    return cursor.data


def _transform(place: Place) -> str:
    parts = [f"translate({_numbers((round(place.x), round(place.y)))})"]
    if round(place.turn):
        parts.append(f"rotate({place.turn:.0f})")
    if (place.scale_x, place.scale_y) != (1, 1):
        both = (place.scale_x,) if place.scale_x == place.scale_y else (place.scale_x, place.scale_y)
        parts.append(f"scale({' '.join(f'{scale:.2f}'.removeprefix('0') for scale in both)})")
    return "".join(parts)


class SvgWriter:
    """Collects definitions (gradients, stamps) while shapes are written. `prefix` keeps ids apart on one page."""

    def __init__(self, prefix: str) -> None:
        self.prefix = prefix
        self.definitions: list[str] = []
        self._ids: dict[object, str] = {}

    def _define(self, thing: object, text: str) -> str:
        if thing not in self._ids:
            self._ids[thing] = f"{self.prefix}{len(self._ids)}"
            self.definitions.append(text.replace(" ", f' id="{self._ids[thing]}" ', 1))
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
            text = f'<linearGradient x2="0" y2="1">{stops}</linearGradient>'
        else:
            text = f'<radialGradient cy=".36" r=".66">{stops}</radialGradient>'
        return f'{attribute}="url(#{self._define(paint, text)})"'

    def shape(self, shape: Shape, decimals: int = 0) -> str:
        """One shape as an element."""
        match shape:
            case Blob():
                path = _closed_path(shape.loops, shape.sharp, decimals)
                return f'<path {self._paint("fill", shape.paint)} d="{path}"/>'
            case Lines():
                return self._stroke(_open_path(shape.curves, decimals), shape.width, shape.paint)
            case Dots():
                return self._stroke(_dots_path(shape.points, decimals), 2 * shape.radius, shape.paint)
            case Oval():
                turn = f' transform="rotate({_numbers((shape.turn, shape.x, shape.y))})"' if round(shape.turn) else ""
                names = (("cx", shape.x), ("cy", shape.y), ("rx", shape.rx), ("ry", shape.ry))
                where = " ".join(f'{name}="{_number(value)}"' for name, value in names)
                return f'<ellipse {where} {self._paint("fill", shape.paint)}{turn}/>'
            case Stamp():
                inner = "".join(self.shape(part, 1) for part in shape.shapes)
                name = self._define(shape.shapes, f"<g >{inner}</g>")
                return "".join(f'<use href="#{name}" transform="{_transform(place)}"/>' for place in shape.places)

    def _stroke(self, path: str, width: float, paint: Paint) -> str:
        return f'<path {self._paint("stroke", paint)} stroke-width="{_number(width)}" d="{path}"/>'


def document(shapes: Iterable[Shape], title: str, prefix: str, size: int) -> str:
    """A complete picture, `size` CSS pixels square, with `title` as its accessible name."""
    writer = SvgWriter(prefix)
    body = "".join(writer.shape(shape) for shape in shapes)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{size}" '
        f'height="{size}" viewBox="0 0 {CANVAS} {CANVAS}"><title>{escape(title)}</title>'
        f"<defs>{''.join(writer.definitions)}</defs>"
        f'<g fill="none" stroke-linecap="round" stroke-linejoin="round">{body}</g></svg>'
    )
