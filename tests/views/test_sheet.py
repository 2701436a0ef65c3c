"""Sheets over the web: on other paper, for several animals, kept in a file, as a message, and issued for good."""

import re
from dataclasses import replace
from html import unescape

import pytest

from tests.browser.pseudo import speaking_pseudo
from tests.browser.sheets import TANKS, one_of_each_kind
from tests.shop_client import Visitor
from tests.stage import Stage
from webapp.services import cards, fragging, sheets
from webapp.services.recording import new_deed
from webapp.services.tagging import live_code
from webapp.views.sheet_layout import GIVES_WAY, PAPERS, Head, sides
from webapp.words.take_home import Section

TANK = "temp=24&temp_unit=c&salinity=33&salinity_unit=ppt&alk=8&alk_unit=dkh&volume=200&volume_unit=l&age=12"


@pytest.fixture
def stage(tmp_path):
    stage = Stage(tmp_path)
    yield stage
    stage.close()


@pytest.fixture
def codes(stage) -> list[str]:
    with stage.database.saving() as session:
        said = fragging.FragSession(stage.mother, "scalpel", 2, stage.rack, price_cents=1250)
        return [live_code(session, one) for one in fragging.frag(session, stage.owner, new_deed(), said)]


@pytest.fixture
def walk_in(stage) -> Visitor:
    return Visitor(stage, "public")


@pytest.mark.parametrize("paper", ["a4", "letter", "a5", "roll"])
def test_the_paper_is_chosen_on_the_page(walk_in, codes, paper):
    sheet = walk_in.open(f"/{codes[0]}/sheet?{TANK}").send("/sheet", paper=paper, **{"from": "14:30"})
    assert f"take-home p-{paper}" in sheet.page
    assert "14:30" in sheet.text
    assert re.search(r"<td>24(:|<)", sheet.page), "the tank is still in the address"


@pytest.mark.parametrize("typed", ["", "99:99", "noon", "14.30", "<b>"])
def test_an_hour_that_is_none_is_now(walk_in, codes, typed):
    assert walk_in.open(f"/{codes[0]}/sheet?from={typed}").status == 200


def test_the_file_to_keep_stands_alone(walk_in, codes):
    """No address is left in it that would have to be fetched: style and pictures are inside."""
    kept = walk_in.open(f"/{codes[0]}/keep?{TANK}")
    assert kept.headers["Content-Disposition"] == f"attachment; filename={codes[0]}.html"
    fetched = re.findall(r"""(?:src|href)=["']([^"']+)""", kept.page)
    assert fetched
    assert all(one.startswith("data:") for one in fetched)
    assert "<script" not in kept.page
    assert re.findall(r"url\((?!#)", kept.page) == [], "only parts of the drawing itself"
    assert "palytoxin" in kept.text


def test_the_message_holds_every_section_of_the_sheet(walk_in, codes):
    titles = re.findall(r"<h3>([^<]+)</h3>", walk_in.open(f"/{codes[0]}/sheet?{TANK}").page)
    message = walk_in.open(f"/{codes[0]}/sheet.txt?{TANK}")
    assert message.headers["Content-Type"].startswith("text/plain")
    assert all(title.upper() in message.page for title in titles)
    assert "<" not in message.page


def test_the_page_of_a_roll_is_as_long_as_its_sheet_and_a_style_sheet_says_so(walk_in, codes):
    """CSS Paged Media 3, section 7.1: `size` gives the page's width and height; only a length known here can be one."""
    longer = walk_in.open(f"/{codes[0]}/sheet?paper=roll&{TANK}").find(r'href="/sheet/roll-(\d+).css"')
    shorter = walk_in.open(f"/{codes[0]}/sheet?paper=roll").find(r'href="/sheet/roll-(\d+).css"')
    assert int(longer) > int(shorter) > 200
    rule = walk_in.open(f"/sheet/roll-{longer}.css")
    assert rule.headers["Content-Type"].startswith("text/css")
    assert f"size: 80mm {longer}mm".encode() in rule.data
    assert walk_in.open("/sheet/roll-99999.css").status == walk_in.open("/sheet/roll-7.css").status == 404
    assert "roll-" not in walk_in.open(f"/{codes[0]}/sheet?paper=a4").page


def test_several_animals_have_one_plan_and_a_part_each(walk_in, codes):
    sheet = walk_in.open(f"/sheets?code={codes[0]}&code={codes[1]}&code={codes[0]}&{TANK}")
    assert sheet.page.count('class="piece"') == 2
    assert sheet.text.count("Who goes in first") == 1
    assert "may touch" in sheet.text, "two of one kind"


def test_a_sheet_for_nobody_or_for_a_strange_code_is_refused(walk_in):
    assert walk_in.open("/sheets").status == 404
    assert walk_in.open("/sheets?code=0000000").status == 404


def test_an_issued_sheet_keeps_its_text_its_language_and_its_paper(stage, codes):
    staff = Visitor(stage).sign_in()
    staff.open(f"/{codes[0]}/sheet?{TANK}&paper=a5&lang=de&from=14:00").send("/sheet?")
    first = staff.find(r'(<article class="take-home.*</article>)')
    assert 'lang="de"' in first
    assert "p-a5" in first
    assert "Blatt 1" in staff.text
    assert staff.open("/sheet/1").find(r'(<article class="take-home.*</article>)') == first


def test_several_animals_are_kept_in_one_file_and_told_in_one_message(walk_in, codes):
    asked = f"code={codes[0]}&code={codes[1]}&{TANK}"
    kept = walk_in.open(f"/sheets/keep?{asked}")
    fetched = re.findall(r"""(?:src|href)=["']([^"']+)""", kept.page)
    assert len(fetched) == 3, "a style sheet and two pictures"
    assert all(one.startswith("data:") for one in fetched)
    message = walk_in.open(f"/sheets.txt?{asked}")
    assert all(code in message.page for code in codes)
    assert message.page.count("WHO GOES IN FIRST") == 1
    assert "<" not in message.page


def test_the_till_and_its_receipt_lead_to_one_sheet_for_all_of_a_sale(stage, codes):
    staff = Visitor(stage).sign_in()
    staff.open("/till").send("/till/add", code=" ".join(codes))
    address = unescape(staff.find(r'href="(/sheets\?[^"]+)"'))
    assert [code in address for code in codes] == [True, True]
    assert staff.open(address).page.count('class="piece"') == 2
    staff.open("/till").send("/till/sell", talk="y")
    assert staff.path.startswith("/sale/"), staff.text
    assert unescape(staff.find(r'href="(/sheets\?[^"]+)"')) == address
    assert staff.open(address).page.count('class="piece"') == 2, "also of animals that are sold"


def test_several_issued_have_a_number_each_and_keep_one_text(stage, codes):
    staff = Visitor(stage).sign_in()
    staff.open(f"/sheets?code={codes[0]}&code={codes[1]}&{TANK}&from=14:00").send("/sheets?")
    first = staff.find(r'(<article class="take-home.*</article>)')
    assert "sheets 1 to 2" in first
    assert staff.open("/sheet/2").find(r'(<article class="take-home.*</article>)') == first
    with stage.database.saving() as session:
        numbered = [sheets.issued_for(session, cards.find(session, code).target_id)[0][0] for code in codes]
    assert numbered == [1, 2], "the till finds it for each of them"


def test_a_reprint_keeps_its_text_and_says_when_the_profile_changed(stage, codes):
    """The shop's own page changes a range; what was issued before stays as it was."""
    staff = Visitor(stage).sign_in()
    staff.open(f"/{codes[0]}/sheet?from=14:00").send("/sheet?")
    first = staff.find(r'(<article class="take-home.*</article>)')
    assert "has changed since" not in staff.text
    new = {"limit_low": "28", "ideal_low": "30", "ideal_high": "33", "limit_high": "36", "reason": "what was seen here"}
    staff.open("/kinds/zoanthus/salinity").send("/kinds/zoanthus/salinity", **new)
    staff.send("/kinds/zoanthus/salinity", do="save")
    again = staff.open("/sheet/1")
    assert again.find(r'(<article class="take-home.*</article>)') == first
    assert "has changed since" in again.text


def test_a_listed_kind_shows_the_permit_of_its_mother_and_no_supplier(stage, walk_in):
    from webapp.services import intake

    with stage.database.saving() as session:
        mother = intake.take_in(
            session, stage.owner, new_deed(),
            {"profile_key": "acropora", "name": "Dawn", "origin": "bought_in", "status": "mother", "papers": "P-77/3",
             "supplier": "a farm far away", "cost_cents": 9900, "tank_id": stage.tank, "rack_id": stage.rack,
             "slot": "B1"},
        )[0]  # fmt: skip
        said = fragging.FragSession(mother, "cutter", 1, stage.rack)
        code = live_code(session, fragging.frag(session, stage.owner, new_deed(), said)[0])
    sheet = walk_in.open(f"/{code}/sheet")
    assert "P-77/3" in sheet.text
    assert "far away" not in sheet.page
    assert "99" not in re.findall(r"€\s*([\d.]+)", sheet.text)


def test_the_longer_language_of_the_printed_sheets_is_longer_by_two_fifths(stage, walk_in, monkeypatch):
    """So that what is printed for 40 % more is: each whole sheet, counted in characters, numbers and names with it."""
    codes = one_of_each_kind(stage, ("acropora", "palythoa", "gorgonian_nonphotosynthetic"))
    speaking_pseudo(monkeypatch)
    for code in codes.values():
        for tank in TANKS.values():
            plain, longer = (
                len(walk_in.open(f"/{code}/sheet.txt?lang={one}&from=14:00&{tank}").page) for one in ("en", "xa")
            )
            assert 1.4 * plain <= longer <= 1.5 * plain, (code, tank)


def test_sections_leave_a_side_in_the_stated_order_and_never_what_is_dangerous():
    """The order of DEVELOPERS.md, on a paper that holds less and less. No browser: the layout alone."""
    keys = ("caution", "targets", "where", "changes", "hours", "light", "weeks", "food", "normal", "terms")
    texts = [Section(key, key.title(), ("A line that is as long as others are. " * 12, "Call.")) for key in keys]
    head, moved = Head("Shop", "Name", "kind", "CODE", ()), []
    for high in range(260, 60, -20):
        first, *_ = sides(texts, replace(PAPERS["a5"], height=float(high)), head)
        gone = set(keys) - {one.key for one in first.sections}
        assert not gone & {"caution", "hours"}
        assert "changes" not in gone or gone == set(GIVES_WAY) & set(keys), "what to change first goes last of all"
        moved.append(len(gone))
    assert moved == sorted(moved)
    assert moved[0] < moved[-1]
