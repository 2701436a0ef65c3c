"""Measuring in a photo through the pages, without a script: the picture is an image button."""

import io
import re
from random import Random

import numpy as np
import pytest
from PIL import Image

from tests.shop_client import Visitor
from tests.tags.synthetic_ruler import make_view
from webapp.services import binding
from webapp.services.recording import NewEvent, new_deed, record
from webapp.storage.history import happened
from webapp.storage.specimen import Photo, RulerPhoto, SpecimenRow


@pytest.fixture
def view():
    """A photo of one printed tag, under the half megabyte above which the test client leaves files open."""
    return make_view(Random(11), 20, 14, size=(2000, 1500), noise=1)


@pytest.fixture
def staff(stage, view):
    """The mother carries the tag in the photo."""
    code = view.symbol.text[-7:]
    with stage.database.saving() as session:
        record(session, stage.owner, [NewEvent("tag_made", code)])
        binding.bind(session, stage.owner, new_deed(), code, "specimen", stage.mother)
        printed = {"host": "SHOP.LOCAL", "side_mm": view.side_mm}
        record(session, stage.owner, [NewEvent("printed", code, printed)])
    return Visitor(stage).sign_in()


def jpeg(view):
    out = io.BytesIO()
    Image.fromarray(view.luma).convert("RGB").save(out, "JPEG", quality=80)
    return out.getvalue()


def begun(staff, stage, view):
    staff.open(f"/s/{stage.mother}/ruler").send("/ruler", files={"photo": (io.BytesIO(jpeg(view)), "a.jpg")})
    assert re.fullmatch(r"/ruler/[0-9a-f]{32}", staff.path), staff.text[:500]
    return staff


def tapped(staff, stage, view, points_mm):
    """Taps at points on the tag's plane, as a browser sends them: in CSS pixels of the picture as it is shown."""
    with stage.database.reading() as session:
        row = session.get(RulerPhoto, staff.path.partition("?")[0][-32:])
    homography = np.array(row.ruler["homography"])
    for x, y in points_mm:
        u, v, w = homography @ [x, y, 1]
        width = int(staff.find(r'type="image"[^>]* width="(\d+)"'))
        at = (u / w * width / row.width, v / w * width / row.width)
        staff.send("/ruler/", **{"tap.x": round(at[0]), "tap.y": round(at[1])})
        assert staff.status == 200


def test_two_taps_become_millimetres_and_an_event_with_its_photo(staff, stage, view):
    begun(staff, stage, view)
    staff.send("/ruler/", w="640")
    tapped(staff, stage, view, [(-12, 4), (14, 4)])
    assert "2 tapped" in staff.text
    staff.send("/keep")
    assert staff.path == f"/s/{stage.mother}"
    assert "give or take" in staff.text
    with stage.database.reading() as session:
        (event,) = [one for one in happened(session, stage.mother) if one.kind == "measured"]
        assert event.payload["size_mm"] == pytest.approx(26, abs=event.payload["error_mm"])
        assert 0 < event.payload["error_mm"] < 2
        assert session.get(Photo, event.payload["photo_id"]) is not None
        assert session.query(RulerPhoto).count() == 0
        assert session.get(SpecimenRow, stage.mother).size_mm == event.payload["size_mm"]


def test_an_outline_becomes_an_area(staff, stage, view):
    begun(staff, stage, view)
    staff.send("/ruler/", w="640", what="area")
    tapped(staff, stage, view, [(-12, -6), (12, -6), (12, 6), (-12, 6)])
    assert "cm²" in staff.text
    staff.send("/keep")
    with stage.database.reading() as session:
        row = session.get(SpecimenRow, stage.mother)
    assert row.area_mm2 == pytest.approx(24 * 12, rel=0.08)


def test_a_tap_too_many_is_taken_back_and_height_changes_the_answer(staff, stage, view):
    begun(staff, stage, view)
    tapped(staff, stage, view, [(-12, 4), (14, 4), (0, 30)])
    staff.send("/ruler/", do="undo")
    assert "2 tapped" in staff.text
    level = float(staff.find(r"<b>([\d.]+) mm</b>"))
    staff.send("/ruler/", high="20")
    assert float(staff.find(r"<b>([\d.]+) mm</b>")) < level - 1


def test_a_photo_without_a_tag_and_a_tag_of_unknown_size_are_explained(staff, stage, view):
    out = io.BytesIO()
    Image.new("RGB", (800, 600), (90, 90, 90)).save(out, "JPEG")
    staff.open(f"/s/{stage.mother}/ruler").send("/ruler", files={"photo": (io.BytesIO(out.getvalue()), "a.jpg")})
    assert staff.path == f"/s/{stage.mother}/ruler?refused=1"
    assert "No tag of ours was read" in staff.text
    other = make_view(Random(12), 20, 14, size=(1200, 900))
    staff.send("/ruler", files={"photo": (io.BytesIO(jpeg(other)), "a.jpg")})
    assert "printed size of this tag is not noted" in staff.text
    staff.send("/ruler", files={"photo": (io.BytesIO(b"just text"), "a.jpg")}, side_mm="12.5")
    assert 'value="12.5"' in staff.page
    staff.send("/ruler", files={"photo": (io.BytesIO(jpeg(other)), "a.jpg")}, side_mm="12.5")
    assert "The ruler is tag" in staff.text


def test_a_tag_too_small_in_the_frame_is_refused(staff, stage):
    far = make_view(Random(11), 20, 3.4, size=(1500, 1100), blur_px=0.4, noise=1)
    staff.open(f"/s/{stage.mother}/ruler").send("/ruler", files={"photo": (io.BytesIO(jpeg(far)), "a.jpg")})
    assert "refused=1" in staff.path
    assert "too small" in staff.text


def test_photos_wait_a_day_and_no_longer(staff, stage, view, monkeypatch):
    begun(staff, stage, view)
    old = staff.path
    monkeypatch.setattr("webapp.views.measuring.now", lambda: stage.later(days=2))
    begun(staff, stage, view)
    assert staff.open(old).status == 404


def test_what_is_tapped_stands_in_the_address_so_that_back_and_reload_lose_nothing(staff, stage, view):
    begun(staff, stage, view)
    tapped(staff, stage, view, [(-12, 4), (14, 4)])
    two = staff.path + "?p=" + "&p=".join(re.findall(r'name="p" value="([^"]+)"', staff.find("data-taps(.*?)</form>")))
    said = staff.find(r'id="measured"[^>]*>(.*?)</div>')
    tapped(staff, stage, view, [(0, 30)])
    assert "3 tapped" in staff.text
    staff.open(two)
    assert "2 tapped" in staff.text
    assert staff.find(r'id="measured"[^>]*>(.*?)</div>') == said
