"""Turns figures into horizontal bars, in user units of an SVG picture. No rules live here."""

from collections.abc import Sequence
from dataclasses import dataclass

WIDTH, ROW, LABEL = 340.0, 34.0, 20.0
RIGHT = 60.0


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: its words above it, x and width from the zero line, y of its top, and what stands at its end."""

    label: str
    text: str
    x: float
    y: float
    width: float


@dataclass(frozen=True, slots=True)
class Bars:
    """A picture `height` high; zero: x of the zero line."""

    height: float
    zero: float
    bars: tuple[Bar, ...]


def bars(figures: Sequence[tuple[str, float, str]]) -> Bars | None:
    """Lay out (label, value, value in words), top to bottom; values below zero go to the left. None without any."""
    if not figures:
        return None
    low, high = min(0.0, *(value for _, value, _ in figures)), max(0.0, *(value for _, value, _ in figures))
    per_unit = (WIDTH - RIGHT) / ((high - low) or 1.0)
    zero = round(-low * per_unit, 1)
    made = []
    for number, (label, value, text) in enumerate(figures):
        width = round(abs(value) * per_unit, 1)
        x = zero if value >= 0 else round(zero - width, 1)
        made.append(Bar(label, text, x, number * ROW + LABEL, max(width, 1.0)))
    return Bars(len(figures) * ROW + 6, zero, tuple(made))
