"""A camera made of arithmetic: photographs of one printed tag under chosen conditions, from fixed seeds.

`python -m tests.tags.synthetic_camera` writes the share of photos read, by condition and by size of the printed module,
to the README beside it; the defaults of `webapp.tags.pieces` were chosen by that table. Numbers compare conditions with
each other; a real lens and a real wet tag differ.
"""

import io
import math
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random

import numpy as np
from PIL import Image
from scipy.ndimage import gaussian_filter, map_coordinates

from tests.tags.making import HOSTS
from webapp.tags.codes import new_code
from webapp.tags.photo import read_tags
from webapp.tags.symbol import make_symbol

DOTS_PER_MODULE = 12  # of the tag as printed, before the camera sees it
TAG_MARGIN = 4  # modules of white around the symbol, as printed


@dataclass(frozen=True)
class Condition:
    """How a photo is taken. Lengths in mm or camera pixels as named; light as a share of full white."""

    name: str
    px_per_mm: float = 9.2  # 150 mm away, 26 mm equivalent lens, 1920 pixels wide
    tilt_deg: float = 12
    blur_px: float = 0.6
    noise: float = 3
    light_fall: float = 0.15
    contrast: float = 1.0
    algae_share: float = 0.0
    droplets: int = 0
    jpeg_quality: int = 85
    blue: bool = False


USUAL = Condition("150 mm away")
CONDITIONS = (
    replace(USUAL, name="100 mm away", px_per_mm=13.9),
    USUAL,
    replace(USUAL, name="200 mm away", px_per_mm=6.9),
    replace(USUAL, name="300 mm away", px_per_mm=4.6),
    replace(USUAL, name="tilted 35 degrees", tilt_deg=35),
    replace(USUAL, name="tilted 50 degrees", tilt_deg=50),
    replace(USUAL, name="out of focus", blur_px=1.4),
    replace(USUAL, name="dim and noisy", contrast=0.35, noise=9),
    replace(USUAL, name="strong shadow", light_fall=0.75),
    replace(USUAL, name="blue light", blue=True),
    replace(USUAL, name="3 droplets", droplets=3),
    replace(USUAL, name="algae on 5 %", algae_share=0.05),
    replace(USUAL, name="algae on 10 %", algae_share=0.10),
    replace(USUAL, name="algae on 20 %", algae_share=0.20),
)
README = Path(__file__).with_name("README.md")
HEAD = """# How large a tag's modules should be

Written by `python -m tests.tags.synthetic_camera`: the share of simulated photos whose tag was read, by condition and
by the size of one printed module. The symbol is version 2, level Q (an address such as SHOP.LOCAL); where nothing else
is said the camera is 150 mm away with 9.2 pixels a millimetre, and the tag leans by 12 degrees.

"""
MODULES_MM = (0.339, 0.375, 0.423, 0.5, 0.677)


def decode_rate(condition: Condition, module_mm: float, photos: int, hostname: str = "SHOP.LOCAL") -> tuple[float, int]:
    """The share of `photos` photos that read as their own code, and how many read as any other (which must be none)."""
    right = wrong = 0
    for seed in range(photos):
        code = new_code(Random(f"{condition.name} {seed}"))
        found = read_tags(photograph(f"http://{hostname}/{code}", module_mm, condition, seed), HOSTS)
        right += any(tag.code == code for tag in found)
        wrong += any(tag.code != code for tag in found)
    return right / photos, wrong


def photograph(text: str, module_mm: float, condition: Condition, seed: int) -> bytes:
    """A JPEG of the tag on a rough dark plug, turned and tilted at random within the condition."""
    rng = np.random.default_rng([seed, *condition.name.encode()])
    tag, modules = _printed(text)
    tag = _dirtied(tag, condition, rng)
    side_px = modules * module_mm * condition.px_per_mm
    frame = int(side_px * 1.6) + 20
    seen = _projected(tag, frame, side_px, condition, rng)
    seen = _lit(seen, condition, rng)
    return _developed(seen, condition, rng)


def _printed(text: str) -> tuple[np.ndarray, int]:
    """Reflectance of the tag, ink 0.06 and paper 0.9, with its margin."""
    symbol = make_symbol(text)
    dark = np.pad(np.array(symbol.modules), TAG_MARGIN)
    return np.kron(np.where(dark, 0.06, 0.9), np.ones((DOTS_PER_MODULE, DOTS_PER_MODULE))), len(dark)


def _dirtied(tag: np.ndarray, condition: Condition, rng: np.random.Generator) -> np.ndarray:
    """Patches of algae over a share of the symbol; droplets that shift what is under them and shine at one spot."""
    size = len(tag)
    if condition.algae_share:
        field = gaussian_filter(rng.normal(size=tag.shape), 1.0 * DOTS_PER_MODULE)
        inner = slice(TAG_MARGIN * DOTS_PER_MODULE, size - TAG_MARGIN * DOTS_PER_MODULE)
        grown = field > np.quantile(field[inner, inner], 1 - condition.algae_share)
        tag = np.where(grown, 0.22, tag)
    ys, xs = np.mgrid[0:size, 0:size].astype(float)
    for _ in range(condition.droplets):
        x, y = rng.uniform(0.1, 0.9, 2) * size
        radius = rng.uniform(1.5, 3.0) * DOTS_PER_MODULE
        distance = np.hypot(xs - x, ys - y)
        pull = np.where(distance < radius, 0.6 + 0.4 * distance / radius, 1.0)
        bent = map_coordinates(tag, [y + (ys - y) * pull, x + (xs - x) * pull], order=1, mode="nearest")
        shine = np.hypot(xs - x + radius / 3, ys - y + radius / 3) < radius / 4
        tag = np.where(shine, 1.0, bent)
    return tag


def _projected(tag, frame: int, side_px: float, condition: Condition, rng: np.random.Generator) -> np.ndarray:
    """A pinhole camera's view of the tilted tag, sampled three times each way and averaged."""
    turn, direction = rng.uniform(0, 2 * math.pi, 2)
    tilt = math.radians(condition.tilt_deg)
    fine = 3
    ys, xs = np.mgrid[0 : frame * fine, 0 : frame * fine] / fine - frame / 2
    away = 6 * side_px  # the camera stands six tags away, in pixels of the picture
    # rays from (0, 0, -away) through (x, y, 0) meet the plane through the origin that leans by `tilt` along `direction`
    along = xs * math.cos(direction) + ys * math.sin(direction)
    across = -xs * math.sin(direction) + ys * math.cos(direction)
    stretch = away / (away - along * math.tan(tilt))
    u, v = along * stretch / math.cos(tilt), across * stretch
    x = (u * math.cos(turn) - v * math.sin(turn)) / side_px + 0.5
    y = (u * math.sin(turn) + v * math.cos(turn)) / side_px + 0.5
    plug = 0.18 + 0.06 * gaussian_filter(rng.normal(size=xs.shape), 4) * 8
    on_tag = (x > 0) & (x < 1) & (y > 0) & (y < 1)
    drawn = map_coordinates(tag, [y * len(tag) - 0.5, x * len(tag) - 0.5], order=1, mode="nearest")
    picture = np.where(on_tag, drawn, plug)
    return picture.reshape(frame, fine, frame, fine).mean(axis=(1, 3))


def _lit(seen: np.ndarray, condition: Condition, rng: np.random.Generator) -> np.ndarray:
    """Light that falls off across the picture in a random direction."""
    direction = rng.uniform(0, 2 * math.pi)
    ys, xs = np.mgrid[0:1:1j * len(seen), 0:1:1j * len(seen)]
    ramp = (xs - 0.5) * math.cos(direction) + (ys - 0.5) * math.sin(direction) + 0.5
    return seen * (1 - condition.light_fall * np.clip(ramp, 0, 1)) * condition.contrast


def _developed(seen: np.ndarray, condition: Condition, rng: np.random.Generator) -> bytes:
    """Blur, gamma 2.2, noise in each channel, JPEG."""
    blurred = np.clip(gaussian_filter(seen, condition.blur_px), 0, 1)
    light = (0.03, 0.08, 1.0) if condition.blue else (1.0, 1.0, 1.0)
    channels = [255 * (blurred * share) ** (1 / 2.2) + rng.normal(0, condition.noise, seen.shape) for share in light]
    out = io.BytesIO()
    pixels = np.clip(np.stack(channels, axis=-1), 0, 255).astype(np.uint8)
    Image.fromarray(pixels).save(out, "JPEG", quality=condition.jpeg_quality)
    return out.getvalue()


def report(photos: int = 25) -> str:
    """A Markdown table of shares read, one row a condition, one column a module size."""
    lines = ["| condition | " + " | ".join(f"{m} mm" for m in MODULES_MM) + " |", "|---" * (len(MODULES_MM) + 1) + "|"]
    wrong = 0
    for condition in CONDITIONS:
        cells = []
        for module_mm in MODULES_MM:
            rate, misread = decode_rate(condition, module_mm, photos)
            wrong += misread
            cells.append(f"{rate:.2f}")
        lines.append(f"| {condition.name} | " + " | ".join(cells) + " |")
    total = photos * len(CONDITIONS) * len(MODULES_MM)
    lines.append(f"\n{photos} photos a cell; {wrong} of {total} read as another code.")
    return "\n".join(lines)


if __name__ == "__main__":
    README.write_text(HEAD + report() + "\n", encoding="utf-8")
