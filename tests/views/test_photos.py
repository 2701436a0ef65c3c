"""Scanning and counting by photo, over plain http, with photos from strangers."""

import io
import re
import zlib
from random import Random

import pytest
from PIL import Image
from sqlalchemy import select

from tests.shop_client import Visitor
from webapp.services import updating
from webapp.services.fragging import FragSession, frag
from webapp.services.recording import new_deed
from webapp.services.shop import load_shop, save_shop
from webapp.storage.specimen import CountPhotoRow, SpecimenRow
from webapp.tags.codes import new_code
from webapp.tags.labels import to_png
from webapp.tags.page import Label
from webapp.tags.pieces import PLUG_SQUARE_20


def photo_of(urls, per_row=8):
    """A photo of labels that carry these addresses."""
    picture = Image.new("RGB", (per_row * 260 + 40, (len(urls) // per_row + 1) * 260 + 40), (70, 70, 60))
    for number, url in enumerate(urls):
        tag = Image.open(io.BytesIO(to_png(Label(url[-7:], url), PLUG_SQUARE_20, 300))).convert("RGB")
        picture.paste(tag, (40 + number % per_row * 260, 40 + number // per_row * 260))
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=90)
    return out.getvalue()


def file(data, name="IMG_1.jpg"):
    return {"photo": (io.BytesIO(data), name)}


@pytest.fixture
def codes(stage):
    """Codes of the mother and of three frags, on rack N1."""
    with stage.database.saving() as session:
        ids = frag(session, stage.owner, new_deed(), FragSession(stage.mother, "scalpel", 3, stage.rack))
        return [session.get(SpecimenRow, one).code for one in (stage.mother, *ids)]


def url(code, host="SHOP.LOCAL"):
    return f"http://{host}/{code}"


def test_a_walk_in_scans_one_tag_without_a_cookie_and_without_a_script(stage, codes):
    page = Visitor(stage, "public").open("/scan")
    assert "csrf" not in page.page
    page.send("/scan", files=file(photo_of([url(codes[1])])))
    assert page.path == f"/{codes[1]}"
    assert "Ember Ring" in page.text


def test_several_tags_are_numbered_to_choose_from(stage, codes):
    page = Visitor(stage, "public").open("/scan").send("/scan", files=file(photo_of([url(c) for c in codes])))
    assert page.status == 200
    assert page.page.count("<polygon") == 2 * len(codes)
    assert all(f'href="/{code}"' in page.page for code in codes)


def test_an_address_that_is_not_ours_is_never_followed(stage):
    code = new_code(Random(1))
    page = Visitor(stage, "public").open("/scan").send("/scan", files=file(photo_of([url(code, "OTHER.LOCAL")])))
    assert page.path == "/scan?no=not_ours"
    assert "not one of ours" in page.text
    assert "OTHER.LOCAL" not in page.page


def test_labels_with_an_old_address_still_work_by_photo_and_by_typing(stage, codes):
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), host="FRAGS.LOCAL")
    page = Visitor(stage, "public").open("/scan").send("/scan", files=file(photo_of([url(codes[1])])))
    assert page.path == f"/{codes[1]}"
    assert page.open(f"/find?code=http://SHOP.LOCAL/{codes[2]}").path == f"/{codes[2]}"
    staff = Visitor(stage).sign_in().open("/count").send("/count", files=file(photo_of([url(c) for c in codes])))
    assert "4 of 4 seen" in staff.text


def bomb():
    """A small PNG that says it has 400 million pixels."""
    head = (20000).to_bytes(4, "big") * 2 + b"\x08\x00\x00\x00\x00"
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\x00" * 1000))


def chunk(kind, body):
    return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "photo first"),
        (b"just text", "not a picture"),
        (b"\x00\x00\x00\x18ftypheic" + b"\x00" * 40, "HEIC"),
        (bomb(), "too many pixels"),
        (photo_of([])[:900], "damaged"),
    ],
    ids=["nothing", "text", "HEIC", "bomb", "cut short"],
)
def test_bad_photos_get_one_sentence(stage, data, words):
    """Each on a page that has an address: Back and reload ask for nothing to be sent again."""
    walk_in = Visitor(stage, "public").open("/scan").send("/scan", files=file(data))
    assert re.fullmatch(r"/scan\?no=[a-z_]+", walk_in.path)
    assert words in walk_in.text
    assert words in Visitor(stage, "public").open(walk_in.path).text
    staff = Visitor(stage).sign_in().open("/count").send("/count", files=file(data))
    assert staff.path == "/count/again"
    assert words in staff.text
    staff.open("/do").send("/do", files=file(data))
    assert staff.path == "/do" and words in staff.text


def test_a_refused_photo_is_explained_in_the_reader_s_language(stage):
    walk_in = Visitor(stage, "public").open("/scan?lang=de").send("/scan", files=file(b"just text"))
    assert "kein Bild, das gelesen werden kann" in walk_in.open(walk_in.path + "&lang=de").text


def test_photos_may_be_large_and_nothing_else_may(stage):
    large = photo_of([]) + b"\x00" * 20_000_000  # what follows the end of a JPEG is not looked at
    visitor = Visitor(stage, "public")
    assert posted(visitor, "/scan", large) == 303
    assert posted(visitor, "/scan", large + b"\x00" * 12_000_000) == 413
    assert posted(Visitor(stage).sign_in(), "/stock/new", large) == 413


def posted(visitor, path, data):
    """The status of a form sent as bytes that are made once: the client's own way leaves temporary files open."""
    edge = b"--edge\r\nContent-Disposition: form-data; name=photo; filename=a.jpg\r\n\r\n"
    body = edge + data + b"\r\n--edge--\r\n"
    answer = visitor._client.post(
        path, data=body, content_type="multipart/form-data; boundary=edge", environ_overrides=visitor._environ()
    )
    return answer.status_code


def test_a_rack_from_two_overlapping_photos_to_the_events(stage, codes):
    staff = Visitor(stage).sign_in().open("/count")
    staff.send("/count", files=file(photo_of([url(c) for c in codes[:2]])))
    assert staff.status == 200, staff.text[:300]
    assert "2 of 4 seen, 2 not seen" in staff.text
    assert "North, N1" in staff.text
    staff.send("/count", files=file(photo_of([url(c) for c in codes[1:3]])))
    assert "3 of 4 seen, 1 not seen" in staff.text
    staff.send("/count/confirm")
    assert "3 seen, 1 not seen, 0 moved here" in staff.text
    assert staff.path == f"/racks/{stage.rack}"
    staff.open("/stock?state=missing")
    assert "1 specimen" in staff.text
    staff.open(staff.find(r'href="(/s/[0-9a-f]{32})"'))
    assert "Not seen in the count of" in staff.text


@pytest.fixture
def laid_out(stage):
    """Nine frags in slots A1 to A5 and B1 to B5 beside their mother, and a stranger that stands in B3; a photo of them
    as they stand, and the stranger's id."""
    with stage.database.saving() as session:
        ids = frag(session, stage.owner, new_deed(), FragSession(stage.mother, "scalpel", 9, stage.rack))
        slots = [f"{letter}{number}" for letter in "AB" for number in range(1, 6)]
        for one, slot in zip(ids, slots[1:], strict=True):
            place = {"tank_id": stage.tank, "rack_id": stage.rack, "slot": slot}
            updating.move(session, stage.owner, new_deed(), [one], place)
        stranger = ids[6]
        place = {"tank_id": stage.other_tank, "rack_id": stage.other_rack, "slot": "A1"}
        updating.move(session, stage.owner, new_deed(), [stranger], place)
        codes = [session.get(SpecimenRow, one).code for one in (stage.mother, *ids)]
    return photo_of([url(code) for code in codes], per_row=5), stranger


def test_a_plug_from_elsewhere_is_offered_the_slot_that_the_photo_shows(stage, laid_out):
    data, stranger = laid_out
    staff = Visitor(stage).sign_in().open("/count").send("/count", files=file(data))
    assert "9 of 9 seen, 0 not seen, 1 from elsewhere" in staff.text
    assert "as the photo shows it" in staff.text
    staff.send("/count/confirm")
    assert "9 seen, 0 not seen, 1 moved here" in staff.text
    with stage.database.reading() as session:
        row = session.get(SpecimenRow, stranger)
        assert (row.rack_id, row.slot) == (stage.rack, "B3")


def test_without_neighbours_the_slot_is_asked_for(stage, codes):
    with stage.database.saving() as session:
        stranger = session.scalar(select(SpecimenRow.id).where(SpecimenRow.code == codes[3]))
        place = {"tank_id": stage.other_tank, "rack_id": stage.other_rack, "slot": "A1"}
        updating.move(session, stage.owner, new_deed(), [stranger], place)
    staff = Visitor(stage).sign_in().open("/count").send("/count", files=file(photo_of([url(c) for c in codes])))
    assert "the photo does not tell" in staff.text
    staff.send("/count/confirm", **{f"slot-{stranger}": "D4"})
    assert "1 moved here" in staff.text
    with stage.database.reading() as session:
        assert session.get(SpecimenRow, stranger).slot == "D4"


def test_every_photo_of_a_count_is_shown_and_the_page_has_an_address(stage, codes):
    """Back, reload and a restart of the shop's computer cost neither what was read nor the pictures."""
    staff = Visitor(stage).sign_in().open("/count")
    for part in (codes[:2], codes[1:3]):
        staff.send("/count", files=file(photo_of([url(code) for code in part])))
    assert re.findall(r"Photo (\d) of 2", staff.text) == ["2", "1"]
    assert staff.page.count('<polygon class="here"') == 4
    shown = staff.find(r'href="(/count/photo/[0-9a-f]{32}\.jpg)"')
    address = staff.path
    picture = staff.open(shown)
    assert picture.headers["Content-Type"] == "image/jpeg"
    assert "3 of 4 seen" in staff.open(address).text
    after = Visitor(stage).sign_in().open(address)
    assert "3 of 4 seen" in after.text
    assert after.page.count('<polygon class="here"') == 4
    assert Visitor(stage, "public").open(shown).status == 404
    after.send("/count/confirm")
    with stage.database.reading() as session:
        assert session.query(CountPhotoRow).count() == 0
    after.open(address)
    assert "3 of 4 seen" in after.text
    assert "2 of the photos cannot be shown any more" in after.text


def test_photos_of_a_count_that_nobody_ended_are_let_go_after_a_day(stage, codes, monkeypatch):
    staff = Visitor(stage).sign_in().open("/count").send("/count", files=file(photo_of([url(codes[0])])))
    monkeypatch.setattr("webapp.views.rack_photos.now", lambda: stage.later(days=2))
    staff.open("/count").send("/count", files=file(photo_of([url(codes[1])])))
    with stage.database.reading() as session:
        assert session.query(CountPhotoRow).count() == 1


def test_a_rack_is_counted_by_eye_where_no_tag_can_be_read(stage, codes):
    """An empty rack, or one whose tags are all overgrown: a stocktake must come to its end there too."""
    staff = Visitor(stage).sign_in().open("/count")
    assert "Choose the rack" in staff.open("/count/found?place=&codes=").text
    staff.open("/count").send("/count/found", place=f"rack:{stage.rack}")
    staff.open(f"/count/found?place=rack:{stage.rack}")
    assert "0 of 4 seen, 4 not seen" in staff.text
    staff.send("/count/confirm", by_eye=[stage.mother])
    assert "1 seen, 3 not seen, 0 moved here" in staff.text
    staff.open(f"/count/found?place=rack:{stage.other_rack}").send("/count/confirm")
    assert "0 seen, 0 not seen, 0 moved here" in staff.text


def test_a_bad_second_photo_loses_nothing(stage, codes):
    staff = Visitor(stage).sign_in().open("/count").send("/count", files=file(photo_of([url(c) for c in codes[:2]])))
    staff.send("/count", files=file(b"just text"), typed=codes[3])
    assert staff.path.startswith("/count/found?")
    assert "not a picture" in staff.text
    assert f'value="{codes[3]}"' in staff.page
    assert "2 of 4 seen" in staff.text
    staff.send("/count", files=file(photo_of([url(c) for c in codes[2:]])))
    assert "4 of 4 seen" in staff.text


def test_a_stocktake_ends_in_a_report_and_a_table(stage, codes):
    staff = Visitor(stage).sign_in().open("/stocktake")
    staff.open(staff.find(r'href="(/stocktake/[0-9a-f]{32})"'))
    staff.open(staff.find(r'href="(/count\?place=rack[^"]*)"').replace("&amp;", "&"))
    staff.send("/count", files=file(photo_of([url(c) for c in codes[:3]])))
    staff.send("/count/confirm")
    assert staff.path.startswith("/stocktake/")
    assert "-1" in staff.text
    assert staff.text.index("Not seen Those") < staff.text.index("Counted")
    again = staff.find(r'Count a place again.*?href="([^"]+)"').replace("&amp;", "&")
    assert again.startswith(f"/count?place=rack:{stage.rack}&count=")
    staff.open(staff.path + ".csv")
    assert staff.headers["Content-Type"].startswith("text/csv")
    lines = staff.data.decode("utf-8-sig").splitlines()
    assert len(lines) == 5
    assert sum(",missing," in line for line in lines) == 1


def test_another_shop_s_rack_is_said_and_not_followed(stage, codes):
    data = photo_of([url(new_code(Random(n)), "OTHER.LOCAL") for n in range(3)])
    staff = Visitor(stage).sign_in().open("/count").send("/count", files=file(data))
    assert staff.path == "/count/again"
    assert "3 symbols are somebody else's" in staff.text
    assert "OTHER.LOCAL" not in staff.page


def test_a_code_that_could_not_be_read_is_typed(stage, codes):
    staff = Visitor(stage).sign_in().open("/count").send("/count", files=file(photo_of([url(codes[0])])))
    staff.send("/count", typed=codes[1].lower(), files={})
    assert "2 of 4 seen" in staff.text
    staff.send("/count", typed="nonsense", files={})
    assert "not a whole code" in staff.text and 'value="nonsense"' in staff.page and "2 of 4 seen" in staff.text


def test_counting_is_for_staff(stage):
    for path in ("/count", "/stocktake"):
        assert Visitor(stage, "public").open(path).status == 404
