"""Photograph-like pictures of the demonstration."""

from io import BytesIO

import numpy as np
from PIL import Image

from demo.photos import photo_image, photo_webp


def test_photo_is_a_plain_webp_without_hidden_data():
    data = photo_webp("favites", 140, 3, 300)
    photo = Image.open(BytesIO(data))
    assert (photo.format, photo.size, photo.mode) == ("WEBP", (300, 300), "RGB")
    assert len(photo.getexif()) == 0
    assert not {"exif", "xmp", "icc_profile"} & set(photo.info)
    assert photo_webp("favites", 140, 3, 300) == data


def test_other_hue_and_other_individual_look_different():
    plain, other_hue, other_one = (
        np.asarray(photo_image("euphyllia_glabrescens", hue, seed, 200), dtype=float)
        for hue, seed in ((20, 0), (200, 0), (20, 1))
    )
    assert np.abs(plain - other_hue).mean() > 5
    assert np.abs(plain - other_one).mean() > 5


def test_photo_has_detail_in_the_middle_and_soft_water_above():
    grey = np.asarray(photo_image("acanthastrea", seed=2, size=400).convert("L"), dtype=float)

    def busy(part: np.ndarray) -> float:
        return float(np.abs(np.diff(part, axis=1)).mean())

    assert busy(grey[180:300, 100:300]) > 2 * busy(grey[0:80])
