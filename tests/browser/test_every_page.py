"""Every page of the map of addresses is opened in a browser and held to its promises; one that no list names fails."""

import io
import re
from itertools import chain
from random import Random

import pytest
from werkzeug.routing import RequestRedirect

from tests.browser import test_care_pages, test_day_pages, test_languages_and_themes, test_pages, test_tags
from tests.browser.conftest import Shop, sign_in
from tests.browser.test_pages import look
from tests.shop_client import Visitor
from tests.tags.synthetic_ruler import make_view
from tests.views.test_measuring import jpeg
from webapp.services import binding
from webapp.services.recording import NewEvent, new_deed, record

#: What no other list holds. Places are those of `names`.
PAGES = (
    "/{code}/handling", "/ca", "/count/again?place=rack:{rack}", "/devices", "/dip?id={mother}", "/do", "/series",
    "/how?kind=zoanthus", "/kinds", "/kinds/zoanthus", "/kinds/zoanthus/salinity", "/outbox", "/racks/{rack}/change",
    "/ready", "/stock/new/{rack}/C3", "/stock/paper", "/switch", "{reading}", "{ruler}", "/sheet/1",
)  # fmt: skip
#: Answered by another page's address, a file or data, never by a page of their own.
NO_PAGE = frozenset({
    "assets.bundle", "card.drawing", "card.photo", "card.thumb", "devices.authority", "devices.profile",
    "language.choose", "measuring.picture", "offline.icon", "offline.manifest", "offline.work", "offline.worker",
    "outbox.codes", "outbox.health", "outbox.people", "rack_photos.picture", "scan.find", "sheet.keep", "sheet.roll",
    "sheet.text", "sheet_several.keep", "sheet_several.text", "sheets_editor.picture", "sheets_editor.test_page",
    "stocktake.table",
})  # fmt: skip
#: An empty shop, labels that are being made, all parts: tests.browser.test_pages, test_tags, test_style.
ELSEWHERE = ("/set-up", "/labels/jobs/{job}", "/style")


@pytest.fixture(scope="module")
def names(seen_shop: Shop) -> dict[str, str]:
    """What stands for the names in braces: a photo with a ruler, printed labels, a reading, an issued sheet."""
    stage = seen_shop.stage
    staff = Visitor(stage).sign_in()
    staff.open(f"/tanks/{stage.tank}/readings").send("/readings", temp="25")
    reading = staff.find(r'href="(/readings/[^"]*)"').replace("&amp;", "&")
    view = make_view(Random(11), 20, 14, size=(2000, 1500), noise=1)
    tag = view.symbol.text[-7:]
    with stage.database.saving() as session:
        record(session, stage.owner, [NewEvent("tag_made", tag)])
        binding.bind(session, stage.owner, new_deed(), tag, "specimen", stage.mother)
        record(session, stage.owner, [NewEvent("printed", tag, {"host": "SHOP.LOCAL", "side_mm": view.side_mm})])
    staff.open(f"/s/{stage.mother}/ruler").send("/ruler", files={"photo": (io.BytesIO(jpeg(view)), "a.jpg")})
    ruler = staff.path
    staff.open(f"/{tag}/sheet").send("/sheet?")
    return {"code": tag, "mother": stage.mother, "rack": stage.rack, "reading": reading, "ruler": ruler}


def test_pages_that_no_other_list_holds_are_whole(seen_shop, phone, names):
    """Every other one in the dark."""
    sign_in(phone, seen_shop)
    for number, path in enumerate(PAGES):
        phone.emulate_media(color_scheme="dark" if number % 2 else "light")
        look(phone, seen_shop.url + path.format(**names))


def test_every_page_is_on_a_list(seen_shop, names):
    """The map of addresses against all lists: a page that is new must be added to one of them."""
    app = Visitor(seen_shop.stage).app
    listed = {
        endpoint
        for path in chain(
            [path.format(**names) for path in PAGES], test_pages.PUBLIC, test_pages.STAFF, test_care_pages.PAGES,
            test_day_pages.PAGES, test_tags.PAGES, test_languages_and_themes.PATHS, ELSEWHERE,
        )
        for endpoint in endpoints_of(app, path)
    }  # fmt: skip
    pages = {rule.endpoint for rule in app.url_map.iter_rules() if "GET" in (rule.methods or ())}
    assert pages - listed - NO_PAGE == set()
    assert pages >= NO_PAGE, "what is gone is taken off the list"
    assert not listed & NO_PAGE


def endpoints_of(app, path: str) -> set[str]:
    """What an address leads to, whichever length of code its open places stand for."""
    found = set()
    for place in ("0" * 7, "0" * 32, "zoanthus"):
        try:
            found.add(app.url_map.bind("").match(re.sub(r"\{\w+\}", place, path).split("?")[0])[0])
        except RequestRedirect as to:
            found |= endpoints_of(app, to.new_url)
        except Exception:  # noqa: BLE001, S112  this length leads nowhere
            continue
    return found
