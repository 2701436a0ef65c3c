"""The illustrator's hand: a palette from one hue, a steady source of chance, and the outlines that many forms share."""

import math
from collections.abc import Iterator
from random import Random

from webapp.pictures.colour import oklch
from webapp.pictures.shapes import Paint, Point

GOLDEN_ANGLE = math.pi * (3 - math.sqrt(5))


def flat(colour: str, opacity: float = 1) -> Paint:
    """One colour."""
    return Paint(((0, colour, opacity),))


def down(top: str, bottom: str, top_opacity: float = 1, bottom_opacity: float = 1) -> Paint:
    """From top to bottom."""
    return Paint(((0, top, top_opacity), (1, bottom, bottom_opacity)), "down")


def out(middle: str, edge: str, middle_opacity: float = 1, edge_opacity: float = 1, turn_at: float = 0.1) -> Paint:
    """From a lit point outwards."""
    return Paint(((turn_at, middle, middle_opacity), (1, edge, edge_opacity)), "out")


def glow(colour: str, opacity: float) -> Paint:
    """A soft round light that fades to nothing."""
    return Paint(((0, colour, opacity), (0.55, colour, opacity * 0.45), (1, colour, 0)), "glow")


class Pen:
    """Palette and chance of one picture. Tones take a lightness 0..1, so any hue keeps light and shade."""

    def __init__(self, key: str, hue: float, accent: float, seed: int, chroma: float = 0.17) -> None:
        self.chance = Random(f"{key}/{seed}")
        self.hue, self.accent_hue, self.chroma = hue, accent, chroma

    def main(self, lightness: float, share: float = 1) -> str:
        """Body colour; `share` of the full chroma."""
        return oklch(lightness, self.chroma * share, self.hue)

    def accent(self, lightness: float, share: float = 1) -> str:
        """Colour of mouths, tips and rims."""
        return oklch(lightness, self.chroma * share, self.accent_hue)

    def bone(self, lightness: float) -> str:
        """Bare skeleton."""
        return oklch(lightness, 0.035, 75)

    def deep(self, lightness: float = 0.2) -> str:
        """Shade: the body colour drawn towards the blue of the water."""
        return oklch(lightness, 0.07, (self.hue + 250) / 2 if abs(self.hue - 250) < 180 else 285)

    def spread(self, amount: float) -> float:
        """A number between -amount and +amount."""
        return self.chance.uniform(-amount, amount)

    def near(self, value: float, share: float = 0.15) -> float:
        """`value` give or take a share of it."""
        return value * (1 + self.spread(share))

    def ring(self, x: float, y: float, rx: float, ry: float, count: int = 12, rough: float = 0.05) -> list[Point]:
        """A closed, slightly uneven outline."""
        points = []
        for at in range(count):
            angle = math.tau * at / count
            size = 1 + self.spread(rough)
            points.append((x + rx * size * math.cos(angle), y + ry * size * math.sin(angle)))
        return points

    def frill(self, x: float, y: float, rx: float, ry: float, waves: int, depth: float, lift: float = 0) -> list[Point]:
        """A closed outline that waves in and out; `lift` also moves it up and down, as a ruffled edge does."""
        points = []
        start = self.chance.uniform(0, math.tau)
        for at in range(2 * waves):
            angle = start + math.tau * at / (2 * waves)
            size = 1 + (depth if at % 2 else -depth) * self.near(1, 0.5)
            rise = (lift if at % 2 else -lift) * self.near(1, 0.5)
            points.append((x + rx * size * math.cos(angle), y + ry * size * math.sin(angle) + rise))
        return points

    def scatter(self, x: float, y: float, rx: float, ry: float, count: int, jitter: float = 0.04) -> list[Point]:
        """Evenly spread points in an ellipse, far ones first."""
        points = []
        for at in range(count):
            size, angle = math.sqrt((at + 0.5) / count), at * GOLDEN_ANGLE
            points.append(
                (
                    x + rx * (size * math.cos(angle) + self.spread(jitter)),
                    y + ry * (size * math.sin(angle) + self.spread(jitter)),
                )
            )
        return sorted(points, key=lambda point: point[1])

    def bend(self, start: Point, angle_deg: float, length: float, curl_deg: float = 0, steps: int = 3) -> list[Point]:
        """An open line that starts at an angle (0 right, 90 up) and turns by `curl_deg` on its way."""
        points = [start]
        for at in range(steps):
            angle = math.radians(angle_deg + curl_deg * at / max(1, steps - 1))
            x, y = points[-1]
            points.append((x + math.cos(angle) * length / steps, y - math.sin(angle) * length / steps))
        return points


def rays(
    x: float, y: float, rx: float, ry: float, count: int, inner: float = 0.3, outer: float = 0.95
) -> list[list[Point]]:
    """Straight lines from near the middle of an ellipse to near its edge."""
    curves = []
    for at in range(count):
        angle = math.tau * (at + 0.5) / count
        cos, sin = math.cos(angle), math.sin(angle)
        curves.append([(x + rx * inner * cos, y + ry * inner * sin), (x + rx * outer * cos, y + ry * outer * sin)])
    return curves


def ellipse_points(x: float, y: float, rx: float, ry: float, count: int, start: float = 0) -> list[Point]:
    """Points on an ellipse, evenly turned from `start` in radians."""
    angles = (start + math.tau * at / count for at in range(count))
    return [(x + rx * math.cos(angle), y + ry * math.sin(angle)) for angle in angles]


def taper(line: list[Point], wide: float, narrow: float) -> list[Point]:
    """The closed outline of a limb along a line, `wide` at its start and `narrow` at its round end (full widths)."""
    left, right = [], []
    for at, (x, y) in enumerate(line):
        before, after = line[max(0, at - 1)], line[min(len(line) - 1, at + 1)]
        dx, dy = after[0] - before[0], after[1] - before[1]
        length = math.hypot(dx, dy) or 1
        half = (wide + (narrow - wide) * at / (len(line) - 1)) / 2
        left.append((x - dy / length * half, y + dx / length * half))
        right.append((x + dy / length * half, y - dx / length * half))
    (x0, y0), (x1, y1) = line[-2], line[-1]
    length = math.hypot(x1 - x0, y1 - y0) or 1
    cap = (x1 + (x1 - x0) / length * narrow * 0.7, y1 + (y1 - y0) / length * narrow * 0.7)
    return [*left, cap, *right[::-1]]


def shifted(points: list[Point], dx: float, dy: float) -> list[Point]:
    """The same points, moved."""
    return [(x + dx, y + dy) for x, y in points]


def along(line: list[Point], spacing: float) -> Iterator[tuple[Point, Point]]:
    """Points at equal spacing along straight pieces, each with its unit normal."""
    left_over = 0.0
    for (x0, y0), (x1, y1) in zip(line, line[1:], strict=False):
        length = math.hypot(x1 - x0, y1 - y0) or 1
        ux, uy = (x1 - x0) / length, (y1 - y0) / length
        at = left_over
        while at < length:
            yield (x0 + ux * at, y0 + uy * at), (-uy, ux)
            at += spacing
        left_over = at - length


class Dome:
    """A half ball seen from the front and a little above."""

    def __init__(self, x: float, y: float, rx: float, ry: float, tilt_deg: float = 28) -> None:
        self.x, self.y, self.rx, self.ry = x, y, rx, ry
        self.tilt = math.radians(tilt_deg)

    def project(self, u: float, v: float) -> tuple[float, float, float]:
        """A point of the unit disc (seen from above) to x, y and how much it faces us (1 square on, 0 edge on)."""
        polar = min(1.0, math.hypot(u, v)) * math.pi / 2
        turn = math.atan2(v, u)
        east, south, up = math.sin(polar) * math.cos(turn), math.sin(polar) * math.sin(turn), math.cos(polar)
        facing = south * math.cos(self.tilt) + up * math.sin(self.tilt)
        rise = up * math.cos(self.tilt) - south * math.sin(self.tilt)
        return self.x + self.rx * east, self.y - self.ry * rise, facing

    def outline(self, pen: Pen, rough: float = 0.02) -> list[Point]:
        """The edge of the ball above its base, and the base."""
        top = [
            (
                self.x + self.rx * math.cos(a) * (1 + pen.spread(rough)),
                self.y - self.ry * math.sin(a) * (1 + pen.spread(rough)),
            )
            for a in (math.pi * at / 11 for at in range(12))
        ]
        base = self.ry * math.sin(self.tilt)
        foot = [
            (self.x + self.rx * math.cos(a), self.y + base * math.sin(-a))
            for a in (math.pi + math.pi * at / 8 for at in range(1, 8))
        ]
        return top + foot
