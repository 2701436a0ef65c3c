"""Pages of care, shipments, pests and thresholds on a phone and a desk, full and empty; a day without scripts."""

from datetime import UTC, datetime, timedelta

import pytest

from tests.browser.conftest import Shop, follow, sign_in
from tests.browser.test_pages import look
from webapp.services import fragging, pests, readings, receiving, tending, updating
from webapp.services.recording import new_deed

PAGES = (
    "/tanks/{tank}", "/tanks/{other}", "/tanks/{tank}/readings", "/racks/{rack}", "/s/{mother}", "/s/{frag}",
    "/s/{mother}/frag", "/pests", "/pests/new?tank={tank}", "/pests/{pest}", "/shipments", "/shipments/new",
    "/shipments/{shipment}", "/shipments/{shipment}/lines/{line}", "/settings/thresholds",
)  # fmt: skip
EMPTY = ("/pests", "/shipments", "/tanks/{other}")


@pytest.fixture(scope="module")
def full(seen_shop: Shop) -> dict[str, str]:
    """A shop in which every one of these pages has something to say."""
    return fill(seen_shop)


def fill(shop: Shop) -> dict[str, str]:
    """Do and log what these pages tell of; what stands for the names in braces."""
    stage, now = shop.stage, datetime.now(UTC)
    with stage.database.saving() as session:
        for day in range(60, 0, -4):
            water = [{"quantity": "temp", "value": 25 + day % 3, "unit": "c"},
                     {"quantity": "alk", "value": 8.1, "unit": "dkh"}]  # fmt: skip
            at = now - timedelta(days=day)
            readings.log_readings(session, stage.owner, new_deed(), stage.tank, water, at)
        hot = [{"quantity": "temp", "value": 31.0, "unit": "c"}]
        readings.log_readings(session, stage.owner, new_deed(), stage.tank, hot)
        tending.tend(session, stage.owner, new_deed(), "fed", stage.tank, {"food": "meaty"})
        for day, size in ((90, 30), (45, 36), (1, 43)):
            at = now - timedelta(days=day)
            updating.update(session, stage.owner, new_deed(), "measured", [stage.mother], {"size_mm": size}, at)
        said = fragging.FragSession(stage.mother, "scalpel", 3, stage.rack, heads=3)
        frag = fragging.frag(session, stage.owner, new_deed(), said, now - timedelta(days=100))[0]
        seen = {"holds": True, "slime": True}
        updating.update(session, stage.owner, new_deed(), "checked", [frag], seen)
        updating.update(session, stage.owner, new_deed(), "dipped", [frag], {"dip": "iodine", "repeat": True})
        found = {"tank_id": stage.tank, "pest": "acropora_flatworm", "stops_sale": True}
        pest = pests.report_pest(session, stage.owner, new_deed(), found)
        shipment, line = _shipment(session, stage, now)
    places = {"tank": stage.tank, "other": stage.other_tank, "rack": stage.rack, "mother": stage.mother}
    return places | {"frag": frag, "pest": pest, "shipment": shipment, "line": line}


def _shipment(session, stage, now):
    box = {"supplier": "a farm far away", "opened_at": now.isoformat()}
    box["packed_at"] = (now - timedelta(hours=26)).isoformat()
    shipment = receiving.set_shipment(session, stage.owner, new_deed(), box)
    given = {"profile_key": "zoanthus", "name": "Green Rim", "count": 5, "origin": "wild"}
    line = receiving.add_line(session, stage.owner, new_deed(), shipment, given)
    bag = {"line": line, "tank_id": stage.tank, "bag_temp_c": 17.0, "bag_salinity_ppt": 28.0}
    dead = {"line": line, "alive": 0, "dead": 2}
    receiving.tell(session, stage.owner, new_deed(), shipment, "bag_measured", bag)
    receiving.tell(session, stage.owner, new_deed(), shipment, "line_arrived", dead)
    return shipment, line


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_every_page_is_whole(seen_shop, full, size, request):
    page = request.getfixturevalue(size)
    sign_in(page, seen_shop)
    for path in PAGES:
        look(page, seen_shop.url + path.format(**full))


def test_empty_pages_are_whole(shop, phone):
    sign_in(phone, shop)
    for path in EMPTY:
        look(phone, shop.url + path.format(other=shop.stage.other_tank))


def test_a_round_of_the_rack_without_scripts(shop, phone_without_scripts):
    page, full = phone_without_scripts, fill(shop)
    sign_in(page, shop)
    page.goto(f"{shop.url}/tanks/{full['tank']}/readings")
    page.fill("#alk", "12.5")
    follow(page, "text=Save readings")
    page.check("input[name=meant]", force=True)
    follow(page, "text=Save readings")
    assert "12.5\N{NO-BREAK SPACE}dKH" in page.inner_text("main")
    page.click("summary:text-is('Feed')")
    page.select_option("#feed select", index=1)
    follow(page, "#feed button:text-is('Fed')")
    assert "Feeding noted." in page.inner_text("main")
    follow(page, "button:text-is('Undo') >> nth=0")
    page.goto(f"{shop.url}/s/{full['frag']}")
    follow(page, "text=Looked: holds, open, clean")
    assert "Noted: all is well." in page.inner_text("main")
    assert "off sale until a look says otherwise" not in page.inner_text("main")


def test_primary_controls_are_large_enough_for_a_wet_thumb(seen_shop, full, phone):
    sign_in(phone, seen_shop)
    for path in (f"/s/{full['frag']}", f"/pests/{full['pest']}", f"/tanks/{full['tank']}"):
        phone.goto(seen_shop.url + path)
        heights = phone.eval_on_selector_all(
            "main .tiles .button", "buttons => buttons.map(one => one.getBoundingClientRect().height)"
        )
        assert heights and min(heights) >= 64, path


def test_back_after_a_refused_form_and_its_correction_asks_for_nothing_to_be_sent_again(shop, phone):
    """A page that answers a form cannot be opened again without sending the form: browsers ask, or show an error."""
    sign_in(phone, shop)
    stage = shop.stage
    for page, deed, wrong, right in (
        (f"/pests/new?tank={stage.tank}", "text=Note the finding", {"#code": "000"}, {"#code": ""}),
        (f"/s/{stage.mother}", "text=Note the size", {"#measure-size_mm": "-3"}, {"#measure-size_mm": "40"}),
    ):
        phone.goto(shop.url + page)
        phone.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true })")
        if "/pests" in page:
            phone.select_option("#pest", "other")
            phone.fill("#note", "on the back wall")
        for typed in (wrong, right):
            for field, value in typed.items():
                phone.fill(field, value)
            phone.click(deed)
            phone.wait_for_selector(".errors" if typed is wrong else ".undo")
            if "/pests" in page and typed is wrong:
                assert phone.input_value("#note") == "on the back wall"
            assert typed is right or phone.url == shop.url + page
            # What was done and the way back are in sight, however far down the deed stood.
            assert typed is wrong or 0 <= phone.locator("main > .undo").bounding_box()["y"] < 300
        phone.go_back()
        assert phone.locator("h1").count() == 1 and not phone.locator(".errors").count()
