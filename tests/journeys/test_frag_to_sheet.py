"""The main job, end to end, through the pages: from a frag session to the sheet in the hand."""

import io
import re

import pytest
import zxingcpp
from PIL import Image

from tests.shop_client import Visitor


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


def fragged(staff, stage, pieces=3):
    """The codes of frags cut from the stage's mother colony."""
    staff.open(f"/s/{stage.mother}/frag").send("/frag", method="scalpel", pieces=pieces, rack=stage.rack, price="12.50")
    assert staff.status == 200

    return list(dict.fromkeys(re.findall(r"data-code>([0-9A-Z]{7})<", staff.page)))


def test_a_frag_session_makes_specimens_with_codes_parentage_and_places(staff, stage):
    codes = fragged(staff, stage)
    assert len(codes) == 3
    walk_in = Visitor(stage, "public").open(f"/{codes[0].lower()}")
    assert walk_in.status == 200
    assert "Ember Ring" in walk_in.text
    assert "healing" in walk_in.text
    assert "A2" in walk_in.text
    assert "cut with a scalpel" in walk_in.text
    staff.open("/stock?state=healing")
    assert "3 specimens" in staff.text


def test_a_double_tap_on_the_frag_form_cuts_once(staff, stage):
    staff.open(f"/s/{stage.mother}/frag")
    form = staff.page
    for _ in range(2):
        staff.page, staff.path = form, f"/s/{stage.mother}/frag"
        staff.send("/frag", method="scalpel", pieces=2, rack=stage.rack)
    staff.open("/stock?state=healing")
    assert "2 specimens" in staff.text


def test_labels_come_as_a_pdf_and_a_png_that_an_independent_decoder_reads(staff, stage):
    codes = fragged(staff, stage, 1)
    staff.send("/labels/print", form="png", sheet="a4-disc-25")
    assert staff.headers["Content-Type"] == "image/png"
    picture = Image.open(io.BytesIO(staff.data)).convert("L")
    assert [found.text for found in zxingcpp.read_barcodes(picture)] == [f"http://SHOP.LOCAL/{codes[0]}"]


def test_the_pdf_is_named_and_the_labels_remember_their_address(staff, stage):
    fragged(staff, stage, 2)
    staff.send("/labels/print", form="pdf")
    assert staff.headers["Content-Type"] == "application/pdf"
    assert staff.data.startswith(b"%PDF")


def test_a_walk_in_sees_no_cost_supplier_or_staff_note(staff, stage):
    staff.open(f"/s/{stage.mother}").send("/note", note__text="paid too much for this one")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    card = Visitor(stage, "public").open(f"/{code}")
    assert card.status == 200
    for secret in ("farm far away", "42.00", "paid too much", "Noor"):
        assert secret not in card.page


def test_every_deed_shows_on_the_card_at_once_and_undo_takes_it_back(staff, stage):
    staff.open(f"/s/{stage.mother}")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    card = Visitor(stage, "public")
    before = card.open(f"/{code}").headers["ETag"]
    staff.send("/status", status__status="for_sale")
    staff.send("/price", price__price="35")
    assert "€ 35.00" in card.open(f"/{code}").text
    assert card.headers["ETag"] != before
    staff.send("/undo/")
    assert "€ 35.00" not in card.open(f"/{code}").text


@pytest.mark.parametrize(
    ("deed", "typed", "sentence"),
    [
        ("measure", {"measure__size_mm": "41", "measure__heads": "6"}, "41 mm"),
        ("note", {"note__text": "Opens by noon.", "note__public": "y"}, "Opens by noon."),
        ("hold", {"hold__word": "pearl", "hold__hours": "24"}, "on hold"),
        ("sell", {"sell__price": "30"}, "sold"),
        ("lose", {"lose__cause": "pest"}, "died"),
        ("name", {"name__name": "Dusk Ring"}, "Dusk Ring"),
        ("kind", {"kind__profile_key": "palythoa", "kind__name": "Dusk"}, "Palythoa"),
    ],
)
def test_each_deed_reaches_the_card(staff, stage, deed, typed, sentence):
    staff.open(f"/s/{stage.mother}")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    staff.send(f"/{deed}", **typed)
    assert staff.status == 200, staff.text[:800]
    assert sentence in Visitor(stage, "public").open(f"/{code}").text


def test_a_picture_is_shown_without_its_camera_data(staff, stage):
    picture = Image.effect_mandelbrot((640, 480), (-2, -1.5, 1, 1.5), 60).convert("RGB")
    exif = Image.Exif()
    exif[0x010F] = "a camera"
    out = io.BytesIO()
    picture.save(out, "JPEG", exif=exif)
    staff.open(f"/s/{stage.mother}")
    code = staff.find(r"data-code>([0-9A-Z]{7})<")
    staff.send("/photo", files={"photo-picture": (io.BytesIO(out.getvalue()), "IMG_1.jpg")})
    assert staff.status == 200, staff.text[:500]
    card = Visitor(stage, "public").open(f"/{code}")
    card.open(card.find(r"(/photo/[0-9a-f]{32}\.webp)"))
    assert Image.open(io.BytesIO(card.data)).format == "WEBP"
    assert b"a camera" not in card.data


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"not a picture at all", "This is not a picture"),
        (b"", "The photo is empty"),
        (b"\xff\xd8\xff\xe0 broken", "This is not a picture"),
    ],
)
def test_a_file_that_is_no_picture_gets_a_clear_sentence(staff, stage, data, words):
    staff.open(f"/s/{stage.mother}").send("/photo", files={"photo-picture": (io.BytesIO(data), "x.jpg")})
    assert words in staff.text


def test_a_natural_split_and_a_merge(staff, stage):
    staff.open(f"/s/{stage.mother}").send(
        "/split", split__rack=f"{stage.tank}:{stage.rack}", split__slot="C3", split__heads="2", split__left_heads="5"
    )
    staff.open("/stock?q=Ember")
    assert "2 specimens" in staff.text
    codes = list(set(re.findall(r"\b([0-9A-Z]{7}) ·", staff.text)))
    staff.open(f"/s/{stage.mother}")
    mother_code = staff.find(r"data-code>([0-9A-Z]{7})<")
    other = next(code for code in codes if code != mother_code)
    staff.open(f"/{other}")
    staff.open(staff.find(r'href="(/s/[0-9a-f]{32})"')).send("/merge", merge__into=mother_code, merge__heads="7")
    assert staff.status == 200, staff.text[:800]
    assert "7" in staff.open(f"/s/{stage.mother}").text
    staff.open("/stock?q=Ember")
    assert "1 specimen" in staff.text


def test_the_sheet_goes_home(staff, stage):
    codes = fragged(staff, stage, 1)
    query = "temp=25&temp_unit=c&salinity=35&salinity_unit=ppt&volume=200&volume_unit=l&age=12"
    sheet = Visitor(stage, "public").open(f"/{codes[0]}/sheet?{query}")
    assert sheet.status == 200
    assert "<td>25</td>" in sheet.page, "the buyer's temperature beside the ideal one"
    for words in ("Ember Ring", codes[0], "From the bag into the tank", "palytoxin"):
        assert words in sheet.text
    staff.open(f"/{codes[0]}/sheet?{query}").send("/sheet?")
    assert "issued" in staff.text
    assert "<td>25</td>" in staff.page
