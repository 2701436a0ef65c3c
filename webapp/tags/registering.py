"""Where exactly a tag's symbol lies in a photo: its known modules are shifted over the picture until they agree.

A decoder gives corners in whole pixels, a module off at worst. From there Gauss-Newton steps on all eight parameters of
the homography, with brightness and contrast that may change across the tag, compare every module with the picture
(image registration after Lucas and Kanade, 1981; the inverse use of residuals for the covariance is ordinary least
squares). Pixel coordinates have their origin at the picture's corner: the first pixel's middle is (0.5, 0.5).
"""

from dataclasses import dataclass

import numpy as np

from webapp.tags.symbol import Symbol

Array = np.ndarray

_SAMPLES = 4  # a module and axis
_BORDER = 1.5  # modules of the quiet zone that are compared too
_SOFTNESS = (0.9, 0.5, 0.3)  # blur in modules, coarse to fine
_STEPS = 12
_REST_PX = 0.002
_LEAST_AGREEMENT = 0.8
_CORNER_SD_PX = 1.5  # of a decoder's corners, where nothing better is found
_SQUARE = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)], float)


@dataclass(frozen=True)
class Registered:
    """`homography` takes mm on the tag (origin at the symbol's middle, x right, y down) to pixels; its last entry is 1.

    `covariance` is of its first eight entries, row by row. `agreement`: correlation of modules and picture, 0 to 1.
    """

    homography: Array
    covariance: Array
    agreement: float
    exact: bool


def register(luma: Array, corners: Array, symbol: Symbol, side_mm: float) -> Registered:
    """The homography of a symbol of `side_mm` whose corners (top left first, clockwise) a decoder found in `luma`.

    Where the modules do not agree with the picture (another symbol, most of it covered) the corners must do.
    """
    side_px = float(np.mean(np.linalg.norm(corners - np.roll(corners, 1, axis=0), axis=1)))
    module_px = side_px / symbol.size
    low = np.maximum(0, np.floor(corners.min(axis=0) - side_px / 2)).astype(int)
    high = np.ceil(corners.max(axis=0) + side_px / 2).astype(int)
    luma = np.asarray(luma[low[1] : high[1], low[0] : high[0]], float)
    corners = corners - low
    start = from_points(_SQUARE, corners)
    found, spread, agreement = start, None, 0.0
    for softness in _SOFTNESS:
        picture = _blurred(luma, softness * module_px / 2)
        points, tones = _template(symbol, softness)
        found, spread, agreement = _aligned(picture, found, points, tones)
        if found is None:
            break
    to_unit = np.diag([2 / side_mm, 2 / side_mm, 1.0])
    back = np.array([[1, 0, low[0]], [0, 1, low[1]], [0, 0, 1.0]])
    if found is None or spread is None or agreement < _LEAST_AGREEMENT:
        homography = back @ start @ to_unit
        covariance = _corner_covariance(_SQUARE * side_mm / 2, corners)
        return Registered(homography / homography[2, 2], covariance, max(0.0, agreement), False)
    change = moved_entries(back) @ np.diag(np.array([2 / side_mm, 2 / side_mm, 1] * 3)[:8])
    return Registered(back @ found @ to_unit, change @ spread @ change.T, agreement, True)


def from_points(plane: Array, pixels: Array) -> Array:
    """The homography that takes four or more points of a plane to pixels, by least squares; its last entry is 1."""
    rows, values = [], []
    for (x, y), (u, v) in zip(plane, pixels, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        values += [u, v]
    solved = np.linalg.lstsq(np.array(rows, float), np.array(values, float), rcond=None)[0]
    return np.append(solved, 1.0).reshape(3, 3)


def project(homography: Array, points: Array) -> Array:
    """Points taken through a homography."""
    taken = points @ homography[:, :2].T + homography[:, 2]
    return taken[:, :2] / taken[:, 2:]


def moved_entries(move: Array) -> Array:
    """What an affine `move` of the pixels does to a homography's first eight entries, as a matrix on them."""
    return np.kron(move, np.eye(3))[:8, :8]  # the ninth entry is 1: it shifts them and is not unsure


def _aligned(picture: Array, start: Array, points: Array, tones: Array) -> tuple[Array | None, Array | None, float]:
    """Gauss-Newton from `start`; None when it leaves the picture or does not come to rest."""
    h = start.copy()
    x, y = points.T
    ones = np.ones_like(x)
    light = np.stack([ones, x, y, tones, x * tones, y * tones], axis=1)
    fitting = np.linalg.solve(light.T @ light, light.T)  # the same for every step
    for _ in range(_STEPS):
        depth = h[2, 0] * x + h[2, 1] * y + 1
        u, v = ((h[i, 0] * x + h[i, 1] * y + h[i, 2]) / depth for i in (0, 1))
        if min(u.min(), v.min()) < 0.5 or u.max() > picture.shape[1] - 1.5 or v.max() > picture.shape[0] - 1.5:
            return None, None, 0.0
        seen, across, down = _sampled(picture, u, v)
        fitted = light @ (fitting @ seen)
        left = seen - fitted
        weight = _weights(left)
        pull = -(across * u + down * v)
        slope = np.stack([across * x, across * y, across, down * x, down * y, down, pull * x, pull * y], axis=1)
        slope /= depth[:, None]
        design = np.hstack([slope, -light])
        weighted = design * weight[:, None]
        normal = weighted.T @ design
        try:
            step = np.linalg.solve(normal + 1e-9 * np.diag(np.diag(normal)), -weighted.T @ left)
        except np.linalg.LinAlgError:
            return None, None, 0.0
        before = project(h, _SQUARE)
        h.ravel()[:8] += step[:8]
        if np.abs(project(h, _SQUARE) - before).max() < _REST_PX:
            break
    # Neighbouring samples share blur and noise: a module is taken as one independent observation.
    freedom = max(1.0, weight.sum() / _SAMPLES**2 - design.shape[1])
    noise = float((weight * left**2).sum()) / max(1.0, weight.sum()) * weight.sum() / freedom
    covariance = np.linalg.pinv(normal)[:8, :8] * noise
    agreement = float(np.corrcoef(seen, fitted)[0, 1])
    return h, covariance, agreement


def _weights(left: Array) -> Array:
    """Tukey's weights: what lies far from the rest (algae, a drop, a glint) does not count."""
    spread = 1.4826 * float(np.median(np.abs(left))) + 1e-6
    return np.clip(1 - (left / (4.685 * spread)) ** 2, 0, None) ** 2


def _template(symbol: Symbol, softness: float) -> tuple[Array, Array]:
    """Points of the symbol, -1 to 1 from edge to edge, and their tones (paper 1, ink 0) once blurred."""
    border = 4
    cells = np.pad(np.array(symbol.modules, float), border)
    fine = np.kron(1 - cells, np.ones((_SAMPLES, _SAMPLES)))
    soft = _blurred(fine, softness * _SAMPLES / 2)
    skip = round((border - _BORDER) * _SAMPLES)
    inner = soft[skip:-skip, skip:-skip]
    at = (np.arange(len(inner)) + 0.5) / _SAMPLES - _BORDER
    place = at / symbol.size * 2 - 1
    x, y = np.meshgrid(place, place)
    return np.stack([x.ravel(), y.ravel()], axis=1), inner.ravel()


def _blurred(picture: Array, sigma: float) -> Array:
    """A Gaussian blur; the edges repeat."""
    if sigma < 0.3:
        return picture
    reach = int(3 * sigma + 1)
    kernel = np.exp(-0.5 * (np.arange(-reach, reach + 1) / sigma) ** 2)
    kernel /= kernel.sum()
    for axis in (0, 1):
        wide = np.pad(picture, [(reach, reach) if axis == one else (0, 0) for one in (0, 1)], mode="edge")
        picture = np.apply_along_axis(np.convolve, axis, wide, kernel, "valid")
    return picture


def _sampled(picture: Array, u: Array, v: Array) -> tuple[Array, Array, Array]:
    """Bilinear tones at pixel coordinates and their slopes across and down."""
    x, y = u - 0.5, v - 0.5
    left, top = np.floor(x).astype(int), np.floor(y).astype(int)
    fx, fy = x - left, y - top
    a, b = picture[top, left], picture[top, left + 1]
    c, d = picture[top + 1, left], picture[top + 1, left + 1]
    tone = a * (1 - fx) * (1 - fy) + b * fx * (1 - fy) + c * (1 - fx) * fy + d * fx * fy
    return tone, (b - a) * (1 - fy) + (d - c) * fy, (c - a) * (1 - fx) + (d - b) * fx


def _corner_covariance(square: Array, corners: Array) -> Array:
    """Of the eight entries, when each corner is off by `_CORNER_SD_PX` both ways."""
    base = from_points(square, corners).ravel()[:8]
    slopes = []
    for number in range(8):
        moved = corners.astype(float).copy()
        moved.ravel()[number] += 0.1
        slopes.append((from_points(square, moved).ravel()[:8] - base) / 0.1)
    return np.array(slopes).T @ np.array(slopes) * _CORNER_SD_PX**2
