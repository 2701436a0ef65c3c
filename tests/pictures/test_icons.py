"""The application's icons are those that their script draws."""

from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from demo.icons import main

ICONS = Path(__file__).parents[2] / "static" / "icons"
SIZES = {"icon-192.png": 192, "icon-512.png": 512, "maskable-512.png": 512, "apple-touch-icon.png": 180}


def pixels_of(path: Path) -> np.ndarray:
    with Image.open(path) as icon:
        return np.asarray(icon, dtype=int)


@pytest.fixture(scope="module")
def fresh(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("icons")
    main(folder)
    return folder


def test_committed_icons_are_what_the_script_draws(fresh):
    assert {path.name for path in fresh.iterdir()} == {path.name for path in ICONS.iterdir()}
    assert (fresh / "favicon.svg").read_text() == (ICONS / "favicon.svg").read_text()
    for name, size in SIZES.items():
        drawn, kept = pixels_of(fresh / name), pixels_of(ICONS / name)
        assert drawn.shape[:2] == kept.shape[:2] == (size, size)
        # A painter of another version may round an edge pixel otherwise; the picture must be the same.
        assert np.abs(drawn - kept).mean() < 0.5


def test_maskable_icon_keeps_its_motif_in_the_safe_zone():
    """W3C Web Application Manifest, 'Icon masks and safe zone': a circle of radius 2/5 of the icon's width."""
    pixels = pixels_of(ICONS / "maskable-512.png")
    y, x = np.mgrid[0:512, 0:512]
    outside = np.hypot(x - 255.5, y - 255.5) > 0.4 * 512
    ground = pixels[:, :1]
    assert np.abs(pixels - ground)[outside].max() <= 2
    assert np.abs(pixels - ground)[~outside].max() > 100


def test_touch_icon_has_no_transparency():
    with Image.open(ICONS / "apple-touch-icon.png") as icon:
        assert icon.mode == "RGB"


def test_favicon_needs_nothing_from_outside():
    root = ElementTree.parse(ICONS / "favicon.svg").getroot()
    assert not [element for element in root.iter() if element.tag.endswith(("script", "style", "image"))]
    assert all(element.get("href", "#").startswith("#") for element in root.iter())
