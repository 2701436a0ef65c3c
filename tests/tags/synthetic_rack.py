"""Photographs of whole frag racks made of arithmetic, from fixed seeds: 40 to 48 tags seen at a slant.

Each scene says what it shows: which tags can be seen, and which lie under an animal. The camera gives at most four
pixels a printed module; light falls off, water glints, the sensor is noisy, the file is a JPEG. A real lens and real
water differ; the numbers compare settings with each other.
"""

import io
import math
from dataclasses import dataclass
from functools import lru_cache
from random import Random

import cv2
import numpy as np
from PIL import Image

from webapp.tags.codes import new_code
from webapp.tags.symbol import QUIET_MODULES, make_symbol

MODULE_MM = 0.5
PLANE_PX_PER_MM = 16  # of the rack before the camera sees it: eight a module at 0.5 mm
PITCH_MM = 30.0
PLUG_MM = 25.0
PX_PER_MODULE = (3.2, 4.0)  # at the middle of the rack; less at its far edge
BLUE, WHITE = (0.35, 0.55, 1.0), (1.0, 1.0, 1.0)


@dataclass(frozen=True)
class Scene:
    """A JPEG of one rack; `corners` are the true outer corners of each tag's symbol in its pixels."""

    jpeg: bytes
    visible: tuple[str, ...]
    hidden: tuple[str, ...]
    tilt_deg: float
    corners: dict[str, np.ndarray]


def make_scene(seed: int, module_mm: float = MODULE_MM, px_per_module: float | None = None) -> Scene:
    """The scene of one seed: tilt 20 to 35 degrees, one tag in ten under an animal."""
    random = Random(seed)
    count = random.randint(40, 48)
    codes = random.sample(_codes(), count)
    hidden = set(random.sample(codes, round(count / 10)))
    plane, places = _rack(codes, hidden, module_mm, random)
    tilt = random.uniform(20, 35)
    px_per_module = px_per_module or random.uniform(*PX_PER_MODULE)
    view, size = _camera(plane.shape, math.radians(tilt), px_per_module / module_mm, random)
    # Drawn at twice the size and averaged, so that edges are as soft as a sensor's.
    double = np.diag([2.0, 2.0, 1.0]) @ view
    seen = cv2.warpPerspective(plane, double, (size[0] * 2, size[1] * 2), flags=cv2.INTER_LINEAR, borderValue=60)
    seen = cv2.resize(seen, size, interpolation=cv2.INTER_AREA)
    corners = {
        code: cv2.perspectiveTransform((np.array([quad]) * PLANE_PX_PER_MM - 0.5).astype(np.float64), view)[0]
        for code, quad in places.items()
    }
    visible = tuple(code for code in codes if code not in hidden)
    return Scene(_photographed(seen, random), visible, tuple(sorted(hidden)), tilt, corners)


def _rack(codes, hidden, module_mm, random):
    """The rack from straight above as reflectance 0 to 255, and each symbol's corners in mm."""
    columns, rows = 10, math.ceil(len(codes) / 10)
    width, height = (round((n * PITCH_MM + 10) * PLANE_PX_PER_MM) for n in (columns, rows))
    plane = _texture(width, height, random)
    places = {}
    for number, code in enumerate(codes):
        row, column = divmod(number, columns)
        x = 5 + (column + 0.5) * PITCH_MM + random.uniform(-1.5, 1.5)
        y = 5 + (row + 0.5) * PITCH_MM + random.uniform(-1.5, 1.5)
        places[code] = _plug(plane, code, x, y, module_mm, random)
        if code in hidden:  # an animal over at least the larger part of the symbol
            off = random.uniform(-1.5, 1.5), random.uniform(-1.5, 1.5)
            _animal(plane, x + off[0], y + off[1], random.uniform(8, 11), random)
        else:  # beside it, just off the symbol's quiet zone
            angle = random.uniform(0, 2 * math.pi)
            _animal(plane, x + 16 * math.cos(angle), y + 16 * math.sin(angle), random.uniform(1, 2.5), random)
    return plane, places


@lru_cache(maxsize=1)
def _codes() -> list[str]:
    """A stock of codes, so that their symbols are worked out once."""
    random = Random(18004)
    return [new_code(random) for _ in range(160)]


@lru_cache(maxsize=1)
def _noise() -> np.ndarray:
    return np.random.default_rng(18004).standard_normal(8_000_000, np.float32)


def _grain(height: int, width: int, random: Random) -> np.ndarray:
    start = random.randrange(len(_noise()) - height * width)
    return _noise()[start : start + height * width].reshape(height, width)


def _texture(width: int, height: int, random: Random) -> np.ndarray:
    """Dark egg-crate with slots, rough."""
    few = (height // 8 + 1, width // 8 + 1)
    small = cv2.resize(_grain(*few, random), (width, height), interpolation=cv2.INTER_LINEAR)
    plane = cv2.convertScaleAbs(small, alpha=9, beta=46)
    step = round(15 * PLANE_PX_PER_MM)
    for at in range(random.randrange(step), width, step):
        plane[:, at : at + 20] = 24
    for at in range(random.randrange(step), height, step):
        plane[at : at + 20, :] = 24
    return plane


def _plug(plane, code, x, y, module_mm, random):
    """A white disc with the symbol, turned at random; returns the symbol's corners in mm on the rack."""
    symbol = make_symbol(f"http://SHOP.LOCAL/{code}")
    cells = np.pad(np.array(symbol.modules), QUIET_MODULES)
    side = len(cells) * module_mm
    dots = round(module_mm * PLANE_PX_PER_MM)
    tile = np.where(np.kron(cells, np.ones((dots, dots), bool)), 16, 232).astype(np.uint8)
    middle = (round(x * PLANE_PX_PER_MM), round(y * PLANE_PX_PER_MM))
    radius = max(PLUG_MM / 2, side * 0.72)
    cv2.circle(plane, middle, round(radius * PLANE_PX_PER_MM), 232, -1, cv2.LINE_AA)
    turn = math.radians(random.uniform(-25, 25) + random.choice((0, 0, 0, 90, 180, 270)))
    scale = side * PLANE_PX_PER_MM / len(tile)
    cos, sin = math.cos(turn), math.sin(turn)
    reach = round(side * 0.72 * PLANE_PX_PER_MM)
    half = len(tile) / 2
    move = np.array([[cos * scale, -sin * scale, 0], [sin * scale, cos * scale, 0]])
    move[:, 2] = reach - 0.5 - move[:, :2] @ np.array([half - 0.5, half - 0.5])
    patch = plane[middle[1] - reach : middle[1] + reach, middle[0] - reach : middle[0] + reach]
    turned = cv2.warpAffine(tile, move, patch.shape[::-1], flags=cv2.INTER_LINEAR, borderValue=232)
    inside = cv2.warpAffine(np.full_like(tile, 255), move, patch.shape[::-1], borderValue=0) > 127
    patch[inside] = turned[inside]
    edge = symbol.size * module_mm / 2
    square = np.array([(-edge, -edge), (edge, -edge), (edge, edge), (-edge, edge)])
    return square @ np.array([[cos, sin], [-sin, cos]]) + np.array(middle) / PLANE_PX_PER_MM


def _animal(plane, x, y, radius_mm, random):
    """An irregular patch of tissue, mottled."""
    angles = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    radii = radius_mm * (1 + 0.12 * np.array([random.uniform(-1, 1) for _ in angles]))
    points = np.stack([x + radii * np.cos(angles), y + radii * np.sin(angles)], axis=1) * PLANE_PX_PER_MM
    shade = random.randint(60, 170)
    cv2.fillPoly(plane, [points.round().astype(np.int32)], shade, cv2.LINE_AA)
    for _ in range(max(3, round(radius_mm * 2))):
        angle, far = random.uniform(0, 6.3), radius_mm * math.sqrt(random.random()) * 0.8
        spot = [round(n * PLANE_PX_PER_MM) for n in (x + far * math.cos(angle), y + far * math.sin(angle))]
        tone = max(0, min(255, shade + random.randint(-50, 50)))
        cv2.circle(plane, spot, round(random.uniform(0.3, 1.2) * PLANE_PX_PER_MM), tone, -1, cv2.LINE_AA)


def _camera(shape, tilt: float, px_per_mm: float, random: Random):
    """A pinhole camera that leans by `tilt` along the rack's depth: from the rack's pixels to the photo's; its size."""
    height, width = (length / PLANE_PX_PER_MM for length in shape)
    away = 1.25 * width  # mm to the rack's middle: what a phone's main camera needs to see it whole
    focal = px_per_mm * away
    roll = math.radians(random.uniform(-4, 4))
    tilting = np.array([[1, 0, 0], [0, math.cos(tilt), -math.sin(tilt)], [0, math.sin(tilt), math.cos(tilt)]])
    rolling = np.array([[math.cos(roll), -math.sin(roll), 0], [math.sin(roll), math.cos(roll), 0], [0, 0, 1]])
    turned = rolling @ tilting
    pose = np.column_stack([turned[:, 0], turned[:, 1], [0, 0, away]])
    to_mm = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, PLANE_PX_PER_MM]]) / PLANE_PX_PER_MM
    centred = np.array([[1, 0, -width / 2], [0, 1, -height / 2], [0, 0, 1]])
    view = np.diag([focal, focal, 1]) @ pose @ centred @ to_mm
    plane = np.array([[(0, 0), (shape[1], 0), shape[::-1], (0, shape[0])]], np.float64)
    ends = cv2.perspectiveTransform(plane, view)[0]
    low, high = ends.min(axis=0) - 20, ends.max(axis=0) + 20
    size = tuple(int(n) for n in np.ceil(high - low))
    return np.array([[1, 0, -low[0]], [0, 1, -low[1]], [0, 0, 1]]) @ view, size


def _photographed(seen, random: Random) -> bytes:
    """Light that falls off, glints, blur, gamma, noise, JPEG."""
    height, width = seen.shape
    across, down = (np.linspace(-1, 1, count, dtype=np.float32) for count in (width, height))
    across, down = across[None, :], down[:, None]
    x, y = random.uniform(-0.6, 0.6), random.uniform(-0.6, 0.6)
    light = random.uniform(0.7, 1.0) * (1 - random.uniform(0.1, 0.3) * ((across - x) ** 2 + (down - y) ** 2) / 2)
    linear = seen.astype(np.float32) / 255 * light
    glints = np.zeros((height // 4, width // 4), np.float32)
    for _ in range(random.randint(0, 6)):  # on the water, small and soft
        spot = (random.randrange(width // 4), random.randrange(height // 4))
        cv2.circle(glints, spot, random.randint(1, 2), random.uniform(0.2, 0.6), -1)
    linear += cv2.resize(cv2.GaussianBlur(glints, (0, 0), 1), (width, height))
    linear = cv2.GaussianBlur(linear, (0, 0), random.uniform(0.4, 0.8))
    tones = 255 * np.clip(linear, 0, 1) ** (1 / 2.2)
    tint = random.choice((WHITE, WHITE, BLUE))
    sigma = random.uniform(2, 5)
    channels = []
    for share in tint:
        grain = _grain(height, width, random)
        channels.append(np.clip(tones * share ** (1 / 2.2) + sigma * grain, 0, 255).astype(np.uint8))
    out = io.BytesIO()
    Image.fromarray(np.stack(channels, axis=-1)).save(out, "JPEG", quality=random.randint(80, 92))
    return out.getvalue()
