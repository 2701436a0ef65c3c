"""Printing labels through the pages: pieces, blank tags, large batches, old addresses, own sheets."""

import io
import re
import time
import zipfile

import pytest
import zxingcpp
from PIL import Image

from tests.shop_client import Visitor
from webapp.services import binding, label_sheets
from webapp.services.fragging import FragSession, frag
from webapp.services.label_jobs import LabelJobs
from webapp.services.recording import new_deed
from webapp.services.shop import load_shop, save_shop
from webapp.services.tagging import live_code
from webapp.storage.specimen import TagRow
from webapp.tags.page import Label
from webapp.tags.ready_sheets import READY_SHEETS


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


def tag_row(stage, code):
    with stage.database.reading() as session:
        return session.get(TagRow, code)


def test_blank_tags_are_made_and_printed(staff, stage):
    staff.open("/tags").send("/tags", count="3")
    codes = re.findall(r"data-code>([0-9A-Z]{7})<", staff.page)
    assert len(codes) == 3
    staff.send("/labels/print", form="png")
    pictures = zipfile.ZipFile(io.BytesIO(staff.data))
    found = [zxingcpp.read_barcodes(Image.open(pictures.open(name)).convert("L")) for name in pictures.namelist()]
    assert [one.text for (one,) in found] == [f"http://SHOP.LOCAL/{code}" for code in codes]
    assert {tag_row(stage, code).state for code in codes} == {"blank"}


def test_a_print_notes_the_address_and_the_side_of_the_symbol(staff, stage):
    """The side as an independent decoder sees it in a picture of 600 dots an inch."""
    staff.open(f"/labels?id={stage.mother}&sheet=a4-disc-25").send("/labels/print", form="png")
    (seen,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(staff.data)).convert("L"))
    side_mm = (seen.position.top_right.x - seen.position.top_left.x) * 25.4 / 600
    with stage.database.reading() as session:
        code = binding.find_target(session, "specimen", stage.mother).code
    assert "Label printed for SHOP.LOCAL." in staff.open(f"/tag/{code}").text
    row = tag_row(stage, code)
    assert row.printed_host == "SHOP.LOCAL:80"
    assert row.printed_side_mm == pytest.approx(side_mm, abs=0.15)


@pytest.mark.parametrize(("words", "a4", "letter"), label_sheets.PIECES.values(), ids=label_sheets.PIECES)
def test_every_piece_prints_on_both_pages(staff, stage, words, a4, letter):
    for key in (a4, letter):
        staff.open(f"/labels?id={stage.tank}&sheet={key}")
        assert words in staff.text
        assert "does not fit" not in staff.text
        staff.send("/labels/print", form="pdf")
        assert staff.data.startswith(b"%PDF")


def test_the_sheet_used_last_is_offered_first(staff, stage):
    staff.open(f"/labels?id={stage.tank}&sheet=roll-50x30-203").send("/labels/print", form="pdf")
    staff.open(f"/labels?id={stage.tank}")
    assert "Roll, 50 x 30 mm" in staff.find(r'action="/labels/print"[^>]*>(.*?)</form>')
    staff.open(f"/labels?id={stage.mother}")
    assert "discs of 25 mm" in staff.find(r'action="/labels/print"[^>]*>(.*?)</form>'), "plugs keep their own"


def test_what_does_not_fit_is_refused_with_the_least_size_that_would(staff, stage):
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), host="A-RATHER-LONG-NAME-FOR-A-SHOP-OF-FRAGS-AND-MORE.LOCAL")
    staff.open(f"/labels?id={stage.tank}&sheet=a4-disc-19")
    assert "does not fit" in staff.text
    assert "The smallest that fits is" in staff.text


def test_old_addresses_are_listed_and_printed_again(staff, stage):
    staff.open(f"/labels?id={stage.mother}").send("/labels/print", form="pdf")
    assert "Every printed label" in staff.open("/labels/old").text
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), host="FRAGS.LOCAL")
    staff.open("/labels/old")
    assert "1 label leads" in staff.text
    staff.open("/labels?old=1").send("/labels/print", form="pdf")
    assert "Every printed label" in staff.open("/labels/old").text


@pytest.mark.long
def test_a_thousand_blank_tags_are_a_batch_that_can_be_stopped(staff, stage):
    staff.open("/tags").send("/tags", count="1000")
    staff.send("/labels/print", form="pdf")
    assert "/labels/jobs/" in staff.path
    here = staff.path
    staff.send("/stop")
    for _ in range(100):
        if "Stopped" in staff.open(here).text:
            break
        time.sleep(0.1)
    assert "no label is noted as printed" in staff.text


def test_a_batch_ends_in_one_file(staff, stage):
    staff.open("/tags").send("/tags", count="100")
    staff.send("/labels/print", form="pdf", sheet="a4-5x13")
    here = staff.path
    for _ in range(200):
        if "ready" in staff.open(here).text:
            break
        time.sleep(0.1)
    staff.send("/file")
    assert staff.data.startswith(b"%PDF")
    assert staff.data.count(b"/Type /Page ") == 2
    with stage.database.reading() as session:
        assert session.query(TagRow).filter(TagRow.printed_host == "SHOP.LOCAL:80").count() == 100


def test_a_batch_that_fails_says_why_and_a_lost_one_is_not_found(staff):
    jobs = LabelJobs()
    job = jobs.start([Label("AAAAAAA", "http://SHOP.LOCAL/" + "A" * 200)], READY_SHEETS["a4-disc-19"], 1, "pdf")
    jobs.close()
    assert (job.state, job.path.exists()) == ("failed", False)
    assert "too small" in job.error
    assert staff.open(f"/labels/jobs/{new_deed()}").status == 404


def own_sheets(stage):
    with stage.database.reading() as session:
        return list(label_sheets.own_sheets(session).values())


def test_an_own_sheet_from_the_editor_to_the_print(staff, stage):
    staff.open("/labels/sheets/edit?copy=a4-5x13").send(
        "/labels/sheets/edit", name="Our <b>labels</b>", columns="2", rows="3", offset_x_mm="0,5"
    )
    assert "Our &lt;b&gt;labels" in staff.page
    key = staff.find(r'edit\?key=(own-[0-9a-f]{12})"')
    staff.open(f"/labels/sheets/test-page.pdf?key={key}")
    assert staff.data.startswith(b"%PDF")
    staff.open(f"/labels?id={stage.tank}&sheet={key}").send("/labels/print", form="pdf")
    assert staff.data.startswith(b"%PDF")
    staff.open("/labels/sheets").send("/labels/sheets/forget", key=key)
    assert own_sheets(stage) == []
    staff.open(staff.find(r'href="(/labels/sheets/edit\?name=[^"]+)"').replace("&amp;", "&"))
    staff.send("/labels/sheets/edit")
    (back,) = own_sheets(stage)
    assert (back.name, back.columns, back.rows, back.offset_x_mm) == ("Our <b>labels</b>", 2, 3, 0.5)


def test_a_label_too_small_for_the_shop_s_symbol_is_said_in_the_editor(staff):
    """8 modules of quiet zone and 25 of a version 2 symbol at the floor of 4 dots of 300 dpi are 11.2 mm."""
    staff.open("/labels/sheets/edit?copy=a4-5x13")
    assert "too small" not in staff.text
    staff.send("/labels/sheets/edit", label_width_mm="9", label_height_mm="9")
    staff.open(staff.find(r'href="(/labels/sheets/edit\?key=own-[^"]+)"'))
    assert "too small for this symbol" in staff.text
    assert "The smallest that fits is" in staff.text


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({"columns": "9"}, "of a page of 210 mm"),
        ({"pitch_x_mm": "20"}, "do not stand side by side"),
        ({"name": ""}, "Fill in: name"),
        ({"shape": "disc"}, "as wide as it is high"),
        ({"rows": "many"}, "not a whole number"),
    ],
)
def test_a_sheet_that_cannot_be_comes_back_with_a_sentence(staff, typed, words):
    staff.open("/labels/sheets/edit?copy=a4-5x13").send("/labels/sheets/edit", **typed)
    assert staff.status == 422
    assert words in staff.text


def test_the_picture_follows_the_measures_without_a_script(staff):
    measures = (
        "page=own&page_width_mm=50&page_height_mm=30&shape=rect&columns=1&rows=1&label_width_mm=50&label_height_mm=30"
        "&pitch_x_mm=50&pitch_y_mm=30&left_mm=0&top_mm=0&dpi=203"
    )
    staff.open(f"/labels/sheets/preview?name=x&{measures}")
    assert 'viewBox="0 0 50 30"' in staff.page
    assert staff.text == ""
    staff.open("/labels/sheets/preview?name=x&page=a4&columns=99")
    assert "<svg" not in staff.page
    assert "Fill in every measure" in staff.text


def test_tag_pages_are_for_staff(stage):
    for path in ("/tags", "/labels/old", "/labels/sheets", "/tags/help", "/labels/sheets/edit"):
        assert Visitor(stage, "public").open(path).status == 404
        assert Visitor(stage).sign_in().open(path).status == 200


def test_what_has_no_tag_is_given_one_and_its_label_printed(staff, stage):
    """A tag was retired: the way to a new label is one tap from there."""
    with stage.database.saving() as session:
        old = binding.find_target(session, "specimen", stage.mother).code
        binding.retire(session, stage.owner, new_deed(), old, "lost")
    staff.open(f"/labels?id={stage.mother}")
    assert "1 has no tag" in staff.text
    staff.send("/labels/tag")
    assert "Print 1 label" in staff.text
    staff.send("/labels/print", form="png")
    (seen,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(staff.data)).convert("L"))
    assert seen.text[-7:] != old
    assert tag_row(stage, seen.text[-7:]).target_id == stage.mother


def test_a_half_used_sheet_begins_at_the_label_that_is_tapped(staff, stage):
    staff.open(f"/labels?id={stage.mother}&sheet=a4-5x13")
    staff.open(staff.find(r'<a href="([^"]*start=12)"').replace("&amp;", "&"))
    assert "from position 12" in staff.text
    staff.open(f"/labels?id={stage.mother}&sheet=a4-5x13&start=66")
    assert "positions 1 to 65, not '66'" in staff.text
    assert "from position" not in staff.text


def test_each_piece_is_one_button_and_the_one_in_use_says_so(staff, stage):
    staff.open(f"/labels?id={stage.mother}&sheet=a4-strip")
    assert re.findall(r'name="sheet" value="([^"]+)" aria-pressed="true"', staff.page) == ["a4-strip"]


@pytest.mark.long
def test_a_batch_that_was_stopped_leads_back_to_its_choice(staff):
    staff.open("/tags").send("/tags", count="200")
    chosen = staff.path
    staff.send("/labels/print", form="pdf")
    staff.send("/stop")
    for _ in range(100):
        staff.open(staff.path)
        if "data-poll" not in staff.page:
            break
        time.sleep(0.05)
    back = staff.find(r'<a class="button quiet wide" href="([^"]+)"').replace("&amp;", "&")
    assert back.startswith(chosen)
    assert "Print 200 labels" in staff.open(back).text


def test_labels_of_another_port_are_old_too(staff, stage):
    """The app was served on 8000 because the system refused port 80; later 80 is allowed."""
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), port=8000)
    staff.open(f"/labels?id={stage.mother}&sheet=a4-disc-25").send("/labels/print", form="png")
    assert "Every printed label in use carries SHOP.LOCAL:8000." in staff.open("/labels/old").text
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), port=None)
    assert "1 label leads elsewhere than SHOP.LOCAL." in staff.open("/labels/old").text
    assert "SHOP.LOCAL:8000" in staff.text
    staff.open(staff.find(r'href="(/labels\?old=plugs)"')).send("/labels/print", form="png")
    (seen,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(staff.data)).convert("L"))
    assert seen.text.startswith("http://SHOP.LOCAL/")
    assert "Every printed label in use carries SHOP.LOCAL." in staff.open("/labels/old").text


def test_old_labels_are_printed_again_by_the_piece_they_go_on(staff, stage):
    everything = f"/labels?id={stage.mother}&id={stage.tank}&id={stage.rack}"
    with stage.database.saving() as session:
        (blank,) = binding.make_blanks(session, stage.owner, new_deed(), 1)
    staff.open(f"{everything}&code={blank}&sheet=a4-disc-25").send("/labels/print", form="pdf")
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), host="FRAGS.LOCAL")
    staff.open("/labels/old")
    assert "4 labels lead elsewhere" in staff.text
    assert "Tanks and racks: 2" in staff.text and "Plugs: 1" in staff.text and "Blank tags: 1" in staff.text
    places = staff.find(r'href="(/labels\?old=places)"')
    assert "Print 1 label" in staff.open("/labels?old=blank").text
    staff.open(places)
    assert "Print 2 labels" in staff.text
    assert "2 x 7 labels" in staff.find(r'action="/labels/print"[^>]*>(.*?)</form>'), "the piece of places"
    staff.send("/labels/print", form="pdf")
    assert "2 labels lead elsewhere" in staff.open("/labels/old").text


def test_every_plug_of_a_rack_is_labelled_from_the_rack_s_page(staff, stage):
    """A shop that begins: its racks are full and nothing carries a label. One of them has no tag yet."""
    with stage.database.saving() as session:
        ids = frag(session, stage.owner, new_deed(), FragSession(stage.mother, "scalpel", 5, stage.rack))
        binding.free(session, stage.owner, new_deed(), live_code(session, ids[2]))
    staff.open(f"/racks/{stage.rack}")
    staff.open(staff.find(r'href="(/labels\?rack=[0-9a-f]{32})"'))
    assert "1 has no tag" in staff.text
    staff.send("/labels/tag")
    assert "Print 6 labels" in staff.text
    staff.send("/labels/print", form="png")
    pictures = zipfile.ZipFile(io.BytesIO(staff.data))
    with stage.database.reading() as session:
        codes = [live_code(session, one) for one in (stage.mother, *ids)]
    assert [name[5:12] for name in pictures.namelist()] == codes, "by slot"
