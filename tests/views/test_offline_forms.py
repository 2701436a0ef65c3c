"""Every form on the staff's pages that records something waits without signal; what needs the shop at once says so."""

import json
import re
from collections import deque
from html.parser import HTMLParser

from tests.shop_client import Visitor
from webapp.schemas.events import EVENT_KINDS
from webapp.services import binding, intake
from webapp.services.recording import NewEvent, new_deed, record
from webapp.services.tagging import live_code
from webapp.views.offline_forms import EVENTS
from webapp.views.straight import STRAIGHT, straight_because
from webapp.views.work_deeds import AFTER_SCAN, SERIES

START = (
    "/stock", "/tanks", "/do", "/series", "/stock/new", "/labels", "/till", "/count", "/today", "/devices", "/settings",
    "/sales", "/holds", "/shipments", "/pests", "/tags", "/trouble", "/people", "/settings/thresholds",
)  # fmt: skip
#: Forms whose pages a crawl does not reach; each is tried where its page is made.
TRIED_ELSEWHERE = {
    "rack_photos.confirm": "tests/browser/test_offline_straight.py",
    "measuring.keep": "tests/views/test_measuring.py",
    "holds.release": "tests/journeys/test_holds.py",
    "today.tap": "tests/views/test_today.py",
    "setup.first": "how the shop is set up is a setting",
}


class Forms(HTMLParser):
    """(action, whether it goes straight to the shop, names of hidden deeds) of every form that posts."""

    def __init__(self, page):
        super().__init__()
        self.found = []
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        if tag == "form" and (given.get("method") or "").lower() == "post":
            self.found.append({"action": given.get("action") or "", "online": "data-online" in given, "deed": False})
        if tag == "input" and self.found and re.search(r"(^|-)deed$", given.get("name") or ""):
            self.found[-1]["deed"] = bool(re.fullmatch(r"[0-9a-f]{32}", given.get("value") or ""))


def plain(path):
    return re.sub(r"[0-9a-f]{32}", "ID", re.split(r"[?#]", path)[0])


def busy(stage):
    """A day's happenings, so that every page has something to show; returns the owner and one more page."""
    owner = Visitor(stage).sign_in()
    with stage.database.saving() as session:
        given = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale",
                 "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""}  # fmt: skip
        disc = intake.take_in(session, stage.owner, new_deed(), given)[0]
        code = live_code(session, disc)
        record(session, stage.owner, [NewEvent("checked", stage.mother, {"holds": True})])
    owner.open("/till").send("/till/add", code=code).send("/till/sell")
    owner.open("/shipments/new").send("/shipments/new", supplier="A farm far away")
    owner.send("/line", line__profile_key="discosoma", line__name="Disc", line__count="3", line__origin="wild")
    owner.open(f"/pests/new?tank={stage.tank}").send("/pests/new", pest="montipora_nudibranch")
    owner.open(f"/tanks/{stage.tank}/readings").send("/readings", temp="25")
    with stage.database.saving() as session:
        [blank] = binding.make_blanks(session, stage.owner, new_deed(), 1)
    return owner, f"/tag/{blank}/new"


def crawl(stage):
    """Every form on every page that an owner can reach, at most two pages of a sort."""
    owner, more = busy(stage)
    queue = deque([*START, more, f"/s/{stage.mother}/frag", f"/dip?id={stage.mother}"])
    seen, sorts, forms = set(), {}, {}
    while queue:
        path = queue.popleft()
        if path in seen or sorts.get(plain(path), 0) >= 2:
            continue
        seen.add(path)
        sorts[plain(path)] = sorts.get(plain(path), 0) + 1
        owner.open(path)
        if owner.status == 200 and owner.page:
            for form in Forms(owner.page).found:
                forms[plain(form["action"] or owner.path)] = form
            queue.extend(re.findall(r'href="(/(?!static|icons|photo|drawing|manifest|kinds)[^"]*)"', owner.page))
    return seen, forms


def test_every_form_that_records_something_waits_without_signal(stage):
    """Each either carries a deed and waits, or stands in the list of those that do not, with its reason."""
    seen, forms = crawl(stage)
    assert len(seen) > 60
    rules = Visitor(stage).app.url_map.bind("localhost")
    waits, straight = set(), set()
    for action, form in forms.items():
        endpoint, _given = rules.match(action.replace("ID", "0" * 32), "POST")
        (waits if form["deed"] and not form["online"] else straight).add(endpoint)
    assert [one for one in straight if not straight_because(one)] == []
    assert [one for one in waits if straight_because(one)] == []
    posts = {rule.endpoint for rule in Visitor(stage).app.url_map.iter_rules() if "POST" in rule.methods}
    unknown = {one for one in posts - waits - TRIED_ELSEWHERE.keys() if not straight_because(one)}
    assert unknown == set()
    assert {key for key in STRAIGHT if not any(key in (one, one.partition(".")[0]) for one in posts)} == set()


def test_every_event_that_a_page_keeps_by_itself_is_one_that_the_shop_takes(stage):
    assert {kind for kind, _rules in EVENTS.values()} <= set(EVENT_KINDS)
    for kind, rules in EVENTS.values():
        assert set(rules) <= set(EVENT_KINDS[kind].schema().fields)
    for deed in (*AFTER_SCAN, *SERIES):
        assert set(deed["payload"]) <= set(EVENT_KINDS[deed["kind"]].schema().fields)
    page = Visitor(stage).sign_in().open(f"/s/{stage.mother}").page
    declared = [json.loads(text.replace("&#34;", '"')) for text in re.findall(r'data-events="([^"]*)"', page)]
    assert {one["kind"] for events in declared for one in events} >= {"priced", "noted", "sold", "lost", "named"}
