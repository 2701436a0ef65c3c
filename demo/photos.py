"""Makes photograph-like pictures of invented animals, so that a demonstration shop has photos on its cards.

The geometry is that of `webapp.pictures`; light, blur, glow and grain are added here. The same
arguments give the same bytes.
"""

from functools import lru_cache
from io import BytesIO

import numpy as np
from PIL import Image, ImageChops, ImageFilter

from demo.raster import Painter
from webapp.pictures.draw import layers

OVERSAMPLE = 2
ACTINIC = np.array([0.92, 0.99, 1.1], dtype=np.float32)  # a blue-heavy lamp: red down, blue up


@lru_cache(maxsize=2)
def _grain(size: int) -> np.ndarray:
    """Sensor noise around 0, the same for every photo and rolled to another place for each."""
    rng = np.random.default_rng(20)
    fine, coarse = rng.normal(0, 3.4, (size, size)), rng.normal(0, 2.4, (size // 3 + 1, size // 3 + 1))
    return (fine + np.kron(coarse, np.ones((3, 3)))[:size, :size]).astype(np.float32)


def _caustics(size: int, rng: np.random.Generator) -> np.ndarray:
    """A web of light as rippled water casts it, brightest at the top; 0..1, computed small and enlarged."""
    small = 150
    y, x = np.mgrid[0:small, 0:small] / small
    web = np.zeros((small, small))
    for _ in range(4):
        angle, phase, waves = rng.uniform(0, np.pi), rng.uniform(0, 6.3), rng.uniform(12, 20)
        bend = 0.09 * np.sin(waves * 0.45 * (x * np.sin(angle) - y * np.cos(angle)) + phase)
        web += np.sin(waves * (x * np.cos(angle) + y * np.sin(angle) + bend) + phase)
    light = np.clip(1 - np.abs(web) / 1.2, 0, 1) ** 3 * np.clip(1.05 - y, 0, 1)
    return np.asarray(Image.fromarray(light.astype(np.float32)).resize((size, size), Image.Resampling.BILINEAR))


def _out_of_focus(image: Image.Image, size: int, rng: np.random.Generator) -> Image.Image:
    """The water behind the animal: blurred, with a few round lights far away."""
    far = image.resize((150, 150), Image.Resampling.BILINEAR)
    pixels = np.asarray(far, dtype=np.float32).copy()
    y, x = np.mgrid[0:150, 0:150]
    for _ in range(7):
        at_x, at_y, radius = rng.uniform(0, 150), rng.uniform(0, 95), rng.uniform(5, 14)
        colour = rng.uniform(25, 70, 3) * (0.5, 0.8, 1.1)
        pixels += np.clip(radius - np.hypot(x - at_x, y - at_y), 0, 1)[..., None] * colour * 0.55
    soft = Image.fromarray(np.clip(pixels, 0, 255).astype(np.uint8)).filter(ImageFilter.GaussianBlur(1.6))
    return soft.resize((size, size), Image.Resampling.BICUBIC)


def _relief(photo: Image.Image, size: int) -> np.ndarray:
    """Light and shade as if brighter parts stood out, lit from the upper left; around 1, computed at half size."""
    half = np.asarray(photo.convert("L").reduce(2).filter(ImageFilter.GaussianBlur(size / 360)), dtype=np.float32)
    slope = np.zeros_like(half)
    slope[2:-2, 2:-2] = 0.7 * (half[4:, 2:-2] - half[:-4, 2:-2]) + 0.4 * (half[2:-2, 4:] - half[2:-2, :-4])
    shade = Image.fromarray(1 + np.clip(slope / 120, -0.34, 0.4)).resize((size, size), Image.Resampling.BILINEAR)
    return np.asarray(shade)


def _focused(photo: Image.Image, size: int) -> Image.Image:
    """Sharp across the middle, soft towards the top and the near edge below, as a close-up lens draws."""
    small = photo.reduce(2).filter(ImageFilter.GaussianBlur(size / 240)).resize((size, size), Image.Resampling.BILINEAR)
    rows = np.abs(np.linspace(-0.56, 0.44, size) / 0.5) ** 3 * 210
    blend = Image.fromarray(np.broadcast_to(np.clip(rows, 0, 255).astype(np.uint8)[:, None], (size, size)).copy())
    return Image.composite(small, photo.filter(ImageFilter.GaussianBlur(size / 900)), blend)


def _developed(photo: Image.Image, mask: Image.Image, size: int, rng: np.random.Generator) -> Image.Image:
    """Relief, glow of fluorescent parts, ripples of light, a blue lamp, a dark surround and grain."""
    relief = _relief(photo, size)
    photo = _focused(photo, size)
    quarter = photo.reduce(4)
    bright = quarter.point(lambda level: max(0, level - 96) * 3 // 2).filter(ImageFilter.GaussianBlur(size / 90))
    bloom = bright.point(lambda level: level * 0.5).resize((size, size), Image.Resampling.BILINEAR)
    pixels = np.asarray(ImageChops.screen(photo, bloom), dtype=np.float32)
    on_animal = np.asarray(mask, dtype=np.float32) / 255
    line = np.linspace(-1, 1, size, dtype=np.float32)
    surround = 1.06 - 0.36 * (line[:, None] ** 2 + line[None, :] ** 2) ** 1.5 / 2
    light = relief * surround * (0.96 + _caustics(size, rng) * (0.1 + 0.3 * on_animal))
    grain = np.roll(_grain(size), (int(rng.integers(size)), int(rng.integers(size))), (0, 1))
    channels = [np.clip(pixels[..., part] * (light * ACTINIC[part]) + grain, 0, 255) for part in range(3)]
    return Image.fromarray(np.stack(channels, axis=-1).astype(np.uint8))


def photo_image(key: str, hue: int | None = None, seed: int = 0, size: int = 900) -> Image.Image:
    """The photo as `size` x `size` pixels RGB; see `webapp.pictures.draw` for key, hue and seed."""
    rng = np.random.default_rng([seed, sum(key.encode())])
    water, animal = layers(key, hue, seed)
    behind = _out_of_focus(Painter(Image.new("RGB", (300, 300))).paint(water), size, rng)
    large = behind.resize((size * OVERSAMPLE, size * OVERSAMPLE), Image.Resampling.NEAREST)
    photo = Painter(large).paint(animal).reduce(OVERSAMPLE)
    difference = ImageChops.difference(photo, behind).convert("L").point(lambda level: 255 if level > 10 else 0)
    mask = difference.resize((size // 4, size // 4)).filter(ImageFilter.GaussianBlur(2)).resize((size, size))
    photo = _developed(photo, mask, size, rng)
    margin = rng.uniform(0, 0.09) * size
    left, top = rng.uniform(0, margin), rng.uniform(0, margin)
    photo = photo.resize(
        (size, size), Image.Resampling.BILINEAR, (left, top, size - margin + left, size - margin + top)
    )
    return photo.transpose(Image.Transpose.FLIP_LEFT_RIGHT) if rng.random() < 0.5 else photo


def photo_webp(key: str, hue: int | None = None, seed: int = 0, size: int = 900) -> bytes:
    """The photo as a WebP file."""
    file = BytesIO()
    photo_image(key, hue, seed, size).save(file, "WEBP", quality=78, method=2)
    return file.getvalue()
