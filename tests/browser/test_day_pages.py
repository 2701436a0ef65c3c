"""The pages of the day on a phone and a desk, full and empty: from Today and the till to insight and trouble."""

from datetime import UTC, datetime, timedelta

import pytest

from tests.browser.conftest import Shop, follow, sign_in
from tests.browser.test_pages import look
from tests.stage import PIN
from webapp.services import fragging, intake, pests, readings, selling, selling_after, updating
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.recording import NewEvent, new_deed, record
from webapp.services.shop import revision
from webapp.services.tagging import live_code

PAGES = (
    "/today", "/today/price_review", "/till", "/sales", "/sale/1", "/holds", "/losses", "/insight",
    "/insight?by=method", "/insight/growth", "/trouble", "/s/{mother}/answers", "/s/{frag}/answers",
)  # fmt: skip
EMPTY = ("/today", "/till", "/sales", "/holds", "/losses", "/insight", "/insight/growth", "/today/price_review")


@pytest.fixture(scope="module")
def full(seen_shop: Shop) -> dict[str, str]:
    """A shop in which every one of these pages has something to say."""
    return fill(seen_shop)


def fill(shop: Shop) -> dict[str, str]:
    """Do and sell what these pages tell of; what stands for the names in braces."""
    stage, now = shop.stage, datetime.now(UTC)
    long_ago = now - timedelta(days=100)
    with stage.database.saving() as session:
        said = fragging.FragSession(stage.mother, "scalpel", 12, stage.rack, heads=3, price_cents=100)
        frags = fragging.frag(session, stage.owner, new_deed(), said, long_ago)
        record(session, stage.owner, [
            *(NewEvent("lost", frags[day], {"cause": "pest"}, now - timedelta(days=day + 2)) for day in range(3)),
            *(NewEvent("status_set", one, {"status": "for_sale"}, now - timedelta(days=90)) for one in frags[3:9]),
            NewEvent("checked", frags[3], {"slime": True}),
        ])  # fmt: skip
        for day, size in ((90, 30), (45, 36), (1, 43)):
            at = now - timedelta(days=day)
            updating.update(session, stage.owner, new_deed(), "measured", [stage.mother], {"size_mm": size}, at)
            water = [{"quantity": "temp", "value": 25 + day / 20, "unit": "c"}]
            readings.log_readings(session, stage.owner, new_deed(), stage.tank, water, at)
        hot = [{"quantity": "temp", "value": 31.0, "unit": "c"}]
        readings.log_readings(session, stage.owner, new_deed(), stage.tank, hot)
        updating.hold(session, stage.owner, new_deed(), frags[4], "pearl", now + timedelta(hours=9), now)
        discs = intake.take_in(session, stage.owner, new_deed(), {
            "profile_key": "discosoma", "name": "Disc", "origin": "own", "status": "for_sale", "price_cents": 1500,
            "tank_id": stage.other_tank}, 2)  # fmt: skip
        kinds = newest_profiles(session, Memory(), revision(session))
        lines = [selling.Line(discs[0], 1500), selling.Line(discs[1], 1200, "a torn edge")]
        selling.sell(session, stage.owner, new_deed(), selling.Till(lines), kinds, now)
        claim = {"specimen_id": discs[0], "trouble": "died", "readings": "alk 5 dKH", "note": "It went white."}
        selling_after.claim(session, stage.owner, new_deed(), 1, claim)
        found = {"tank_id": stage.tank, "pest": "acropora_flatworm", "stops_sale": True}
        pests.report_pest(session, stage.owner, new_deed(), found, now - timedelta(days=9))
        code = live_code(session, frags[5])
    return {"mother": stage.mother, "frag": frags[5], "code": code}


@pytest.mark.parametrize("size", ["phone", "desk"])
def test_every_page_is_whole(seen_shop, full, size, request):
    page = request.getfixturevalue(size)
    sign_in(page, seen_shop)
    page.goto(seen_shop.url + "/till")
    page.fill("#code", full["code"])
    follow(page, "text=Put it on the till")
    for path in PAGES:
        look(page, seen_shop.url + path.format(**full))


def test_empty_pages_are_whole(shop, phone):
    sign_in(phone, shop)
    for path in EMPTY:
        look(phone, shop.url + path)


def test_a_day_at_the_counter_without_scripts(shop, phone_without_scripts):
    page = phone_without_scripts
    fill(shop)
    page.goto(shop.url + "/sign-in")
    page.fill("#person", "Noor")
    page.fill("#secret", PIN)
    follow(page, "main form button")
    assert page.inner_text("h1") == "Today"
    follow(page, "text=Take it off sale >> nth=0")
    assert "Off sale." in page.inner_text("main")
    follow(page, "button:text-is('Undo') >> nth=0")
    page.goto(shop.url + "/sale/1")
    page.select_option("#settle-outcome", "credit")
    page.fill("#settle-amount", "12")
    follow(page, "text=Settle it")
    assert "Claim settled." in page.inner_text("main")


def test_primary_controls_are_large_enough_for_a_wet_thumb(seen_shop, full, phone):
    sign_in(phone, seen_shop)
    for path in ("/today", "/till", "/holds"):
        phone.goto(seen_shop.url + path)
        heights = phone.eval_on_selector_all(
            "main .tiles .button, main .button.wide",
            "buttons => buttons.filter(one => one.checkVisibility()).map(one => one.getBoundingClientRect().height)",
        )
        assert heights and min(heights) >= 64, path
