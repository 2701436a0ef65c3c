"""No two kinds alike once colour is removed.

Distance = root mean square difference of grey values (0..255) of the whole picture at 96 x 96 pixels, slightly blurred
so that a speck does not count. Two photographs of one scene in the same light differ by noise, a few grey values; a
difference of 10 is 4 % of full scale and is plainly seen.
"""

import numpy as np
import pytest
from PIL import ImageFilter

from tests.pictures.contact_sheet import drawn
from webapp.pictures.kinds import KINDS

pytestmark = pytest.mark.long

LEAST_DISTANCE = 10
PIXELS = 96


def grey(key: str, seed: int) -> np.ndarray:
    return np.asarray(drawn(key, PIXELS, seed).convert("L").filter(ImageFilter.GaussianBlur(1)), dtype=float)


def distances(some: np.ndarray, others: np.ndarray) -> np.ndarray:
    return np.sqrt(((some[:, None] - others[None]) ** 2).mean(axis=(2, 3)))


@pytest.fixture(scope="module")
def first() -> np.ndarray:
    return np.array([grey(key, 0) for key in KINDS])


def test_no_two_kinds_are_alike_in_grey(first):
    between = distances(first, first)
    keys = list(KINDS)
    close = [(keys[i], keys[j]) for i, j in np.argwhere(between < LEAST_DISTANCE) if i < j]
    assert close == []


def test_another_individual_is_still_recognised_by_its_nearest_picture(first):
    """The differences are those of the kinds, not of chance: a second individual lies nearest to its own kind."""
    second = np.array([grey(key, 1) for key in KINDS])
    nearest = distances(second, first).argmin(axis=1)
    assert np.mean(nearest == np.arange(len(KINDS))) >= 0.9
