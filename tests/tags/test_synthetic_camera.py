"""The defaults for module sizes hold up in front of the synthetic camera; the floor and the conditions have teeth."""

import pytest

from tests.tags.synthetic_camera import CONDITIONS, decode_rate, photograph
from webapp.tags.pieces import PLUG_DISC_19, PLUG_DISC_25, TARGET_MODULE_MM, WARN_MODULE_MM, fits
from webapp.tags.symbol import make_symbol

pytestmark = pytest.mark.long

BY_NAME = {condition.name: condition for condition in CONDITIONS}
SYMBOL = make_symbol("http://SHOP.LOCAL/7K3QXM4")
PHOTOS = 4


@pytest.mark.parametrize("name", ["200 mm away", "tilted 35 degrees", "dim and noisy", "strong shadow", "blue light"])
def test_the_target_size_is_read_every_time(name):
    assert decode_rate(BY_NAME[name], TARGET_MODULE_MM, PHOTOS) == (1.0, 0)


@pytest.mark.parametrize(("piece", "name"), [(PLUG_DISC_19, "150 mm away"), (PLUG_DISC_25, "200 mm away")])
def test_usual_plug_tags_are_read_at_their_distance(piece, name):
    assert decode_rate(BY_NAME[name], fits(piece, SYMBOL, 203).module_mm, PHOTOS) == (1.0, 0)


def test_the_smallest_allowed_modules_are_rarely_read_from_afar():
    """That is why there is a warning size: a check of the camera as much as of the default."""
    far = BY_NAME["300 mm away"]
    small, _ = decode_rate(far, 0.339, PHOTOS)
    large, _ = decode_rate(far, 0.677, PHOTOS)
    assert small <= 0.5 < large == 1.0
    assert WARN_MODULE_MM > 0.339


def test_a_covered_symbol_is_not_read_as_something_else():
    rate, wrong = decode_rate(BY_NAME["algae on 20 %"], TARGET_MODULE_MM, PHOTOS)
    assert rate <= 0.5
    assert wrong == 0


def test_the_same_seed_takes_the_same_photo():
    take = lambda seed: photograph("http://SHOP.LOCAL/7K3QXM4", 0.375, BY_NAME["3 droplets"], seed)  # noqa: E731
    assert take(1) == take(1) != take(2)
