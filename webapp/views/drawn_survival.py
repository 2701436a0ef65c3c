"""Turns a survival curve into the geometry of a step drawing, in user units of an SVG picture."""

from dataclasses import dataclass

from webapp.science.survival import SurvivalCurve

WIDTH, HEIGHT = 340.0, 170.0
LEFT, RIGHT, TOP, BOTTOM = 6.0, 52.0, 10.0, 22.0


@dataclass(frozen=True, slots=True)
class SurvivalDrawing:
    """line: the steps; band: the interval around them, for a polygon; ticks: (y, percent); end: (x, y, percent)."""

    line: str
    band: str
    ticks: tuple[tuple[float, int], ...]
    end: tuple[float, float, int]
    days: float


def survival_drawing(curve: SurvivalCurve) -> SurvivalDrawing:
    """Lay out a curve over the days that any of its animals was followed, from 0 to 100 %."""
    days = max(curve.longest, 1.0)

    def x(when: float) -> float:
        return round(LEFT + when / days * (WIDTH - LEFT - RIGHT), 1)

    def y(share: float) -> float:
        return round(HEIGHT - BOTTOM - share * (HEIGHT - TOP - BOTTOM), 1)

    line, below, above = [(x(0), y(1.0))], [(x(0), y(1.0))], [(x(0), y(1.0))]
    for when, share, low, high in zip(curve.times, curve.shares, curve.low, curve.high, strict=True):
        for steps, value in ((line, share), (below, low), (above, high)):
            _step(steps, x(when), y(value))
    for steps in (line, below, above):
        steps.append((x(days), steps[-1][1]))
    last = curve.shares[-1] if curve.shares else 1.0
    return SurvivalDrawing(
        _points(line), _points(above + below[::-1]), tuple((y(pct / 100), pct) for pct in (0, 50, 100)),
        (line[-1][0], line[-1][1], round(100 * last)), days,
    )  # fmt: skip


def _step(steps: list[tuple[float, float]], px: float, py: float) -> None:
    """Go level to px, then to py; steps at one px are one, since thousands of deaths make no more than the picture is
    wide."""
    level = steps[-1][1]
    if len(steps) > 1 and steps[-1][0] == steps[-2][0] == px:
        steps[-1] = (px, py)
    elif py != level:
        steps += [(px, level), (px, py)]


def _points(steps: list[tuple[float, float]]) -> str:
    return " ".join(f"{px:g},{py:g}" for px, py in steps)
