"""Every kind has its drawing: small, well-formed, safe under a strict content security policy, steady."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from webapp.pictures.draw import draw_kind
from webapp.pictures.kinds import GROUP_KINDS, KINDS

ROOT = Path(__file__).parents[2]
PROFILES = json.loads((ROOT / "webapp/schemas/data/profiles.json").read_text(encoding="utf-8"))
SVG = "{http://www.w3.org/2000/svg}"
MOST_BYTES = 12 * 1024
#: What a picture may hold; anything that scripts, styles or fetches is not among it.
ELEMENTS = {"svg", "title", "defs", "g", "path", "ellipse", "use", "linearGradient", "radialGradient", "stop"}


def test_every_profile_has_a_drawing_of_its_own():
    assert set(PROFILES) == set(KINDS)
    assert len({kind.form for kind in KINDS.values()}) == len(KINDS)


@pytest.mark.parametrize("key", KINDS)
def test_drawing_is_small_well_formed_and_refers_only_to_itself(key):
    for hue, seed in ((None, 0), (200, 7)):
        text = draw_kind(key, hue, seed, title="A <rare> & bright one")
        assert len(text.encode()) <= MOST_BYTES
        root = ElementTree.fromstring(text)
        assert root.get("role") == "img"
        assert root.find(f"{SVG}title").text == "A <rare> & bright one"
        assert {element.tag.removeprefix(SVG) for element in root.iter()} <= ELEMENTS
        names = {name for element in root.iter() for name in element.attrib}
        assert "style" not in names
        assert not [name for name in names if name.startswith("on")]
        ids = [element.get("id") for element in root.iter() if element.get("id")]
        assert len(ids) == len(set(ids))
        values = [value for element in root.iter() for value in element.attrib.values()]
        wanted = {element.get("href") for element in root.iter() if element.get("href")}
        wanted |= {reference for value in values for reference in re.findall(r"url\((.*?)\)", value)}
        assert wanted == {f"#{name}" for name in ids}


def test_ids_of_two_pictures_on_one_page_do_not_clash():
    ids = [
        set(re.findall(r'id="([^"]+)"', draw_kind(key, hue, seed)))
        for key, hue, seed in (("zoanthus", None, 0), ("zoanthus", 30, 0), ("zoanthus", None, 1), ("favites", None, 0))
    ]
    assert sum(map(len, ids)) == len(set.union(*ids))


def test_hue_seed_and_size_change_what_they_say():
    plain = draw_kind("zoanthus")
    assert draw_kind("zoanthus") == plain
    assert draw_kind("zoanthus", size=160) == plain.replace('width="320" height="320"', 'width="160" height="160"')

    def paths(text):
        return re.findall(r' d="([^"]+)"', text)

    def colours(text):
        return re.findall(r"#[0-9a-f]{6}", text)

    other_hue, other_seed = draw_kind("zoanthus", 300), draw_kind("zoanthus", seed=1)
    assert paths(other_hue) == paths(plain)
    assert colours(other_hue) != colours(plain)
    assert paths(other_seed) != paths(plain)
    assert set(colours(other_seed)) == set(colours(plain))


def test_same_in_another_process():
    code = "import sys; from webapp.pictures.draw import draw_kind; sys.stdout.write(draw_kind('acropora', 120, 5))"
    run = subprocess.run(
        [sys.executable, "-c", code],
        env=os.environ | {"PYTHONHASHSEED": "7"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert run.stdout == draw_kind("acropora", 120, 5)


@pytest.mark.parametrize("group", sorted({profile["group"] for profile in PROFILES.values()}))
def test_unknown_kind_takes_the_form_of_its_group(group):
    assert PROFILES[GROUP_KINDS[group]]["group"] == group
    text = draw_kind("not_drawn_yet", group=group)
    assert "<title>not drawn yet</title>" in text
    ElementTree.fromstring(text)
