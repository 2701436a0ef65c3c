"""Draws the application's icons into `static/icons`: a printed tag with a punched hole and an inked sprig of coral.

python -m demo.icons
"""

import math
from collections.abc import Sequence
from pathlib import Path

from PIL import Image

from demo.raster import Painter
from webapp.pictures.pen import down, flat, shifted
from webapp.pictures.shapes import CANVAS, Oval, Shape, blob, lines
from webapp.pictures.svg import document

FOLDER = Path(__file__).parent.parent / "static" / "icons"
INK, PAPER, PAPER_SHADE = "#0d2b45", "#fbf6e9", "#e4d9bd"
WATER_TOP, WATER_DEEP = "#14698c", "#08263f"
CORAL_TOP, CORAL_FOOT = "#e8573f", "#b4283f"
OVERSAMPLE = 4

# The tag: a slip of paper with two cut corners at its top, a hole between them and a string through it.
TAG = [(128, 62), (272, 62), (318, 112), (318, 348), (82, 348), (82, 112)]
SPRIG = (
    [(200, 312), (200, 262), (198, 190)],
    [(200, 288), (164, 262), (152, 196)],
    [(200, 270), (238, 248), (246, 182)],
    [(164, 256), (128, 246), (116, 222)],
    [(238, 236), (272, 228), (284, 206)],
)


def _rounded(size: float, radius: float) -> list[tuple[float, float]]:
    """A square over the canvas with rounded corners, for straight-sided filling."""
    points = []
    for corner_x, corner_y, start in ((1, 1, 0), (0, 1, 90), (0, 0, 180), (1, 0, 270)):
        x = CANVAS / 2 + (size / 2 - radius) * (1 if corner_x else -1)
        y = CANVAS / 2 + (size / 2 - radius) * (1 if corner_y else -1)
        for turn in range(0, 91, 10):
            angle = math.radians(start + turn)
            points.append((x + radius * math.cos(angle), y + radius * math.sin(angle)))
    return points


def motif(scale: float = 1) -> list[Shape]:
    """The tag and its sprig, drawn in towards the middle by `scale`."""

    def fit(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        return [(200 + (x - 200) * scale, 204 + (y - 204) * scale) for x, y in points]

    ((hole_x, hole_y),) = fit([(200, 106)])
    tag, sprig = fit(TAG), [fit(branch) for branch in SPRIG]
    tips = [branch[-1] for branch in sprig]
    return [
        lines([fit([(200, 106), (214, 60), (262, 26)])], 9 * scale, flat(PAPER_SHADE)),
        blob(shifted(tag, 0, 9 * scale), flat("#000000", 0.35), sharp=True),
        blob(tag, down(PAPER, PAPER_SHADE), sharp=True),
        Oval(hole_x, hole_y, 25 * scale, 25 * scale, flat(INK)),
        Oval(hole_x, hole_y, 16 * scale, 16 * scale, flat(WATER_DEEP)),
        lines(sprig, 27 * scale, down(CORAL_TOP, CORAL_FOOT)),
        *[Oval(x, y, 17 * scale, 17 * scale, flat(CORAL_TOP)) for x, y in tips],
        *[Oval(x, y - 3 * scale, 6 * scale, 6 * scale, flat(PAPER)) for x, y in tips],
        lines([fit([(122, 318), (278, 318)])], 17 * scale, flat(INK)),
    ]


def icon(corner: float, scale: float) -> list[Shape]:
    """The motif on water; `corner` is the radius of the ground's corners in units of the canvas."""
    ground = blob(_rounded(CANVAS, corner), down(WATER_TOP, WATER_DEEP), sharp=True)
    return [ground, *motif(scale)]


def _pixels(corner: float, scale: float, size: int) -> Image.Image:
    large = Painter(Image.new("RGB", (size * OVERSAMPLE, size * OVERSAMPLE))).paint(icon(corner, scale))
    if not corner:
        return large.reduce(OVERSAMPLE)
    white = Image.new("RGB", large.size)
    mask = Painter(white).paint([blob(_rounded(CANVAS, corner), flat("#ffffff"), sharp=True)]).convert("L")
    large.putalpha(mask)
    return large.reduce(OVERSAMPLE)


def main(folder: Path = FOLDER) -> None:
    """Write every icon file."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, corner, scale, size in (
        ("icon-192.png", 72, 1, 192),
        ("icon-512.png", 72, 1, 512),
        ("maskable-512.png", 0, 0.74, 512),  # inside the circle that no mask cuts
        ("apple-touch-icon.png", 0, 0.94, 180),
    ):
        _pixels(corner, scale, size).save(folder / name, optimize=True)
    favicon = document(icon(72, 1), "Rackside", "i", 64)
    (folder / "favicon.svg").write_text(favicon + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
