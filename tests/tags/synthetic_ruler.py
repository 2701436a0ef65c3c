"""Photographs of one tag from known poses: where every point on its plane and above it appears is known."""

import math
from dataclasses import dataclass

import cv2
import numpy as np

from webapp.tags.codes import new_code
from webapp.tags.symbol import QUIET_MODULES, Symbol, make_symbol

_DOTS = 12  # a module of the tag as printed


@dataclass(frozen=True)
class View:
    """A picture in 8 bits, the camera as a 3 x 4 matrix from mm (z away from the camera) to pixels, and its lens."""

    luma: np.ndarray
    camera: np.ndarray
    focal_px: float
    centre: tuple[float, float]
    symbol: Symbol
    side_mm: float

    def pixels(self, points_mm) -> np.ndarray:
        """Where points (x, y, height above the tag) appear."""
        points = np.asarray(points_mm, float)
        solid = np.column_stack([points[:, :2], -points[:, 2], np.ones(len(points))])
        seen = solid @ self.camera.T
        return seen[:, :2] / seen[:, 2:]

    @property
    def corners(self) -> np.ndarray:
        """The symbol's true corners."""
        half = self.side_mm / 2
        return self.pixels([(-half, -half, 0), (half, -half, 0), (half, half, 0), (-half, half, 0)])


def make_view(
    random, tilt_deg: float, px_per_mm: float, module_mm: float = 0.5, size=(900, 900), blur_px: float = 0.7,
    noise: float = 3.0, off_centre_mm: float = 0.0,
) -> View:  # fmt: skip
    """The tag lies in the picture's middle, `off_centre_mm` beside it, turned at random, the camera leaning."""
    symbol = make_symbol(f"http://SHOP.LOCAL/{new_code(random)}")
    focal = random.uniform(1800, 3600)
    away = focal / px_per_mm
    tilt, towards, turn = math.radians(tilt_deg), random.uniform(0, 2 * math.pi), random.uniform(0, 2 * math.pi)
    turned = _about_z(towards) @ _about_x(tilt) @ _about_z(turn - towards)
    angle = random.uniform(0, 2 * math.pi)
    beside = [off_centre_mm * math.cos(angle), off_centre_mm * math.sin(angle)]
    centre = (size[0] / 2, size[1] / 2)
    lens = np.array([[focal, 0, centre[0]], [0, focal, centre[1]], [0, 0, 1]])
    camera = lens @ np.column_stack([turned, [*beside, away]])
    cells = np.pad(np.array(symbol.modules), QUIET_MODULES)
    dots = np.where(np.kron(cells, np.ones((_DOTS, _DOTS), bool)), 16, 232).astype(np.uint8)
    middle = len(dots) / 2
    per_mm = _DOTS / module_mm
    to_mm = np.array([[1 / per_mm, 0, (0.5 - middle) / per_mm], [0, 1 / per_mm, (0.5 - middle) / per_mm], [0, 0, 1]])
    fine = 3
    to_fine = np.array([[fine, 0, -0.5], [0, fine, -0.5], [0, 0, 1]])  # pixels' middles, from edges
    view = to_fine @ camera[:, [0, 1, 3]] @ to_mm
    drawn = np.full(size[::-1], 90, np.uint8)
    low, high = _seen_box(view, len(dots), fine, size)  # only there is anything to be drawn
    shifted = np.array([[1, 0, -fine * low[0]], [0, 1, -fine * low[1]], [0, 0, 1]]) @ view
    box = tuple(int(one) for one in high - low)
    grid = (box[0] * fine, box[1] * fine)
    tag = cv2.warpPerspective(dots, shifted, grid, flags=cv2.INTER_LINEAR, borderValue=90)
    drawn[low[1] : high[1], low[0] : high[0]] = cv2.resize(tag, box, interpolation=cv2.INTER_AREA)
    drawn = drawn.astype(np.float32) / 255
    ramp = np.linspace(1, random.uniform(0.7, 1.0), size[0], dtype=np.float32)[None, :]
    tones = 255 * cv2.GaussianBlur(drawn * ramp, (0, 0), blur_px) ** (1 / 2.2)
    grain = np.random.default_rng(random.randrange(2**32)).normal(0, noise, tones.shape)
    return View(np.clip(tones + grain, 0, 255).astype(np.uint8), camera, focal, centre, symbol, symbol.size * module_mm)


def _seen_box(view, dots: int, fine: int, size) -> tuple[np.ndarray, np.ndarray]:
    """The part of the picture, in whole pixels, that the tag of `dots` dots a side lies in."""
    corners = np.array([[(-1, -1), (dots, -1), (dots, dots), (-1, dots)]], float)
    seen = cv2.perspectiveTransform(corners, view)[0] / fine
    return np.clip(np.floor(seen.min(axis=0)) - 1, 0, size).astype(int), np.clip(
        np.ceil(seen.max(axis=0)) + 2, 0, size
    ).astype(int)


def _about_z(angle: float) -> np.ndarray:
    return np.array([[math.cos(angle), -math.sin(angle), 0], [math.sin(angle), math.cos(angle), 0], [0, 0, 1]])


def _about_x(angle: float) -> np.ndarray:
    return np.array([[1, 0, 0], [0, math.cos(angle), -math.sin(angle)], [0, math.sin(angle), math.cos(angle)]])
