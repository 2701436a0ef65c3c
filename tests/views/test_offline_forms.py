"""Every form on the staff's pages that records something waits without signal; what needs the shop at once says so."""

import json
import re
from collections import deque
from html.parser import HTMLParser

from tests.shop_client import Visitor
from webapp.schemas.events import EVENT_KINDS
from webapp.views.offline_forms import EVENTS
from webapp.views.work_deeds import AFTER_SCAN, SERIES

START = (
    "/stock", "/tanks", "/do", "/series", "/stock/new", "/labels", "/till", "/count", "/today", "/devices", "/settings",
)  # fmt: skip
#: Forms without a deed record nothing in the history: who may come in, settings, the till's list, reading a photo.
NO_HISTORY = re.compile(
    r"^/(sign-in|sign-out|switch|people.*|devices/.*|settings.*|kinds/.*|till/(add|drop)|do|scan|count.*|labels.*|language|"
    r"s/ID/ruler|ruler/.*|holds/.*|[0-9A-Z]{7}/sheet.*)$"
)


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


def crawl(stage):
    """Every form on every page that an owner can reach, at most two pages of a sort."""
    owner = Visitor(stage).sign_in()
    queue, seen, sorts, forms = deque([*START, f"/s/{stage.mother}/frag"]), set(), {}, {}
    while queue:
        path = queue.popleft()
        if path in seen or sorts.get(plain(path), 0) >= 2:
            continue
        seen.add(path)
        sorts[plain(path)] = sorts.get(plain(path), 0) + 1
        owner.open(path)
        if owner.status == 200 and owner.page:
            for form in Forms(owner.page).found:
                forms[plain(form["action"] or path)] = form
            queue.extend(re.findall(r'href="(/(?!static|icons|photo|drawing|manifest|kinds)[^"]*)"', owner.page))
    return seen, forms


def test_every_form_that_records_something_waits_without_signal(stage):
    seen, forms = crawl(stage)
    assert len(seen) > 40
    assert len(forms) > 40
    lacking = [action for action, form in forms.items() if not form["deed"] and not NO_HISTORY.match(action)]
    assert not lacking
    straight = [action for action, form in forms.items() if form["deed"] and form["online"]]
    at_the_shop = re.compile(r"^/(labels|tags|ruler|s/ID/ruler|settings|count|kinds)")
    assert not [action for action in straight if not at_the_shop.match(action)]


def test_every_event_that_a_page_keeps_by_itself_is_one_that_the_shop_takes(stage):
    assert {kind for kind, _rules in EVENTS.values()} <= set(EVENT_KINDS)
    for kind, rules in EVENTS.values():
        assert set(rules) <= set(EVENT_KINDS[kind].schema().fields)
    for deed in (*AFTER_SCAN, *SERIES):
        assert set(deed["payload"]) <= set(EVENT_KINDS[deed["kind"]].schema().fields)
    page = Visitor(stage).sign_in().open(f"/s/{stage.mother}").page
    declared = [json.loads(text.replace("&#34;", '"')) for text in re.findall(r'data-events="([^"]*)"', page)]
    assert {one["kind"] for events in declared for one in events} >= {"priced", "noted", "sold", "lost", "named"}
