"""The tag as a ruler: millimetres and square millimetres from taps on a photo, with an error.

Points on the tag's own plane follow from the homography. For an animal that stands higher, the camera's pose is taken
from the same homography and the lens's focal length, and the plane is raised. The error adds what each of these is
unsure of: the symbol's place, the taps, the height, the focal length, and print and lens as a share of the length.
"""

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from webapp.errors import BadInput
from webapp.tags.registering import moved_entries, project

Array = np.ndarray
Point = tuple[float, float]

LEAST_SIDE_PX = 75  # three pixels a module of the usual 25
FAR_SIDES = 4.0  # beyond so many sides of the symbol an error in its slant grows large
STEEP_DEG = 50
_PRINT_AND_LENS = 0.005  # share of the length: printer's scale and a phone's corrected lens, common practice
_FOCAL_SHARE = 0.15
_LEAST_HEIGHT_SD_MM = 0.5
_HEIGHT_SHARE = 0.2
_WIDE = 2.0  # half width in standard deviations: holds the truth about 19 times in 20


@dataclass(frozen=True)
class Ruler:
    """What a tag in a photo tells. `focal_px`, `centre`: the lens's, in this picture's pixels; `side_px`: the tag's."""

    homography: Array
    covariance: Array
    focal_px: float
    centre: Point
    side_mm: float
    side_px: float
    exact: bool
    code: str = ""

    def kept(self) -> dict[str, Any]:
        """As JSON."""
        lists = {"homography": self.homography.tolist(), "covariance": self.covariance.tolist()}
        plain = {name: getattr(self, name) for name in ("focal_px", "side_mm", "side_px", "exact", "code")}
        return lists | plain | {"centre": list(self.centre)}

    @classmethod
    def from_kept(cls, kept: dict[str, Any]) -> "Ruler":
        """From JSON."""
        arrays = {name: np.array(kept[name]) for name in ("homography", "covariance")}
        return cls(**kept | arrays | {"centre": tuple(kept["centre"])})

    def scaled(self, left: float, top: float, scale: float) -> "Ruler":
        """For a picture cut out at (left, top) and made `scale` times as large."""
        move = np.array([[scale, 0, -left * scale], [0, scale, -top * scale], [0, 0, 1.0]])
        change = moved_entries(move)
        cx, cy = self.centre
        return Ruler(
            move @ self.homography, change @ self.covariance @ change.T, self.focal_px * scale,
            ((cx - left) * scale, (cy - top) * scale), self.side_mm, self.side_px * scale, self.exact, self.code,
        )  # fmt: skip

    @property
    def tilt_deg(self) -> float:
        """How far the camera looked from straight above."""
        turned = _pose(self.homography, self.focal_px, self.centre)[0]
        return float(np.degrees(np.arccos(min(1.0, abs(turned[2, 2])))))


@dataclass(frozen=True)
class Measurement:
    """A length along the taps, or an area and its longest way across. Errors: half widths, 19 times in 20."""

    length_mm: float
    error_mm: float
    area_mm2: float | None
    area_error_mm2: float | None
    warnings: tuple[str, ...]


def measure(
    ruler: Ruler, points: Sequence[Point], *, area: bool = False, height_mm: float = 0.0, tap_px: float = 1.0
) -> Measurement:
    """Millimetres from taps in pixels. `height_mm`: how far the animal stands above the tag; `tap_px`: one tap's error.

    Raises BadInput for too few taps, or one beyond the horizon of the tag's plane.
    """
    least = 3 if area else 2
    if len(points) < least:
        raise BadInput(f"Tap at least {least} points.", "points")
    taps = np.array(points, float)
    place = _on_plane(ruler, taps, height_mm)
    depth = place @ ruler.homography[2, :2] + 1  # below nothing: beyond the horizon of the tag's plane
    if not np.isfinite(place).all() or np.abs(place).max() > 100 * ruler.side_mm or depth.min() <= 0:
        raise BadInput("One of the taps is too far from the tag to be measured.", "points")
    length, error = _with_error(ruler, taps, height_mm, tap_px, _across if area else _along)
    spread = spread_error = None
    if area:
        spread, spread_error = _with_error(ruler, taps, height_mm, tap_px, _area, share=2 * _PRINT_AND_LENS)
    return Measurement(length, error, spread, spread_error, tuple(_warnings(ruler, place)))


def _warnings(ruler: Ruler, place: Array) -> list[str]:
    found = []
    far = float(np.linalg.norm(place, axis=1).max())
    if ruler.side_px < LEAST_SIDE_PX:
        found.append(
            f"The tag is small in this photo, {ruler.side_px:.0f} pixels a side. Go closer: {LEAST_SIDE_PX} or more."
        )
    if far > FAR_SIDES * ruler.side_mm:
        found.append(f"A tap lies {far:.0f} mm from the tag. Hold the tag nearer to the animal: the error grows.")
    if ruler.tilt_deg > STEEP_DEG:
        found.append(f"The camera looked from the side, {ruler.tilt_deg:.0f} degrees. Hold it straight above.")
    if not ruler.exact:
        found.append("The tag is partly covered or blurred, so its corners are only roughly known.")
    return found


def _with_error(
    ruler: Ruler,
    taps: Array,
    height_mm: float,
    tap_px: float,
    size: Callable[[Array], float],
    share: float = _PRINT_AND_LENS,
) -> tuple[float, float]:
    """A size and its error: each unsure number is moved a little, and what that does is added up in squares."""

    def value(entries: Array, where: Array, height: float, focal: float) -> float:
        homography = np.append(entries, 1.0).reshape(3, 3)
        return size(_on_plane(_replaced(ruler, homography, focal), where, height))

    entries = ruler.homography.ravel()[:8]
    focal, height_sd = ruler.focal_px, max(_LEAST_HEIGHT_SD_MM, _HEIGHT_SHARE * height_mm)
    best = value(entries, taps, height_mm, focal)
    steps = np.sqrt(np.diag(ruler.covariance)) * 0.1 + 1e-12
    slope = np.array(
        [(value(entries + np.eye(8)[n] * steps[n], taps, height_mm, focal) - best) / steps[n] for n in range(8)]
    )
    variance = float(slope @ ruler.covariance @ slope)
    for number in range(taps.size):
        moved = taps.copy()
        moved.ravel()[number] += 0.5
        variance += ((value(entries, moved, height_mm, focal) - best) / 0.5 * tap_px) ** 2
    variance += ((value(entries, taps, height_mm + 0.5, focal) - best) / 0.5 * height_sd) ** 2
    variance += (value(entries, taps, height_mm, focal * (1 + _FOCAL_SHARE)) - best) ** 2
    return best, _WIDE * float(np.sqrt(variance + (share * best) ** 2))


def _replaced(ruler: Ruler, homography: Array, focal: float) -> Ruler:
    return Ruler(homography, ruler.covariance, focal, ruler.centre, ruler.side_mm, ruler.side_px, ruler.exact)


def _on_plane(ruler: Ruler, taps: Array, height_mm: float) -> Array:
    """Where taps lie, in mm, on the plane `height_mm` above the tag."""
    raised = ruler.homography
    if height_mm:
        turned, scale = _pose(ruler.homography, ruler.focal_px, ruler.centre)
        lens = np.array([[ruler.focal_px, 0, ruler.centre[0]], [0, ruler.focal_px, ruler.centre[1]], [0, 0, 1.0]])
        raised = ruler.homography.copy()
        raised[:, 2] -= height_mm * scale * (lens @ turned[:, 2])
    return project(np.linalg.inv(raised), taps)


def _pose(homography: Array, focal_px: float, centre: Point) -> tuple[Array, float]:
    """The tag's axes as the camera sees them (the third points away from it), and the homography's scale."""
    lens = np.array([[focal_px, 0, centre[0]], [0, focal_px, centre[1]], [0, 0, 1.0]])
    first, second, place = np.linalg.solve(lens, homography).T
    scale = (np.linalg.norm(first) + np.linalg.norm(second)) / 2 * (1 if place[2] > 0 else -1)
    u, _, vt = np.linalg.svd(np.column_stack([first, second]) / scale, full_matrices=False)
    flat = u @ vt
    return np.column_stack([flat, np.cross(flat[:, 0], flat[:, 1])]), float(scale)


def _along(points: Array) -> float:
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def _across(points: Array) -> float:
    return max(float(np.linalg.norm(a - b)) for a, b in itertools.combinations(points, 2))


def _area(points: Array) -> float:
    """Inside the outline, by the shoelace formula."""
    x, y = points.T
    return abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1))) / 2
