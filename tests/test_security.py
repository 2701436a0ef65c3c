"""Headers, cache rules and the host of a request, on a small app that stands for any page."""

import re

import pytest
from flask import Flask, g

from tests.shop_client import Visitor
from tests.stage import Stage
from webapp import doors, security
from webapp.services.shop import load_shop, save_shop
from webapp.services.tagging import live_code
from webapp.views import saving


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    made = Stage(tmp_path_factory.mktemp("shop"))
    yield made
    made.close()


@pytest.fixture(scope="module")
def client(shop):
    return make_app(shop).test_client()


def make_app(stage):
    app = Flask(__name__)
    app.secret_key = "for tests"
    saving.init_app(app, stage.database, stage.memory)
    security.init_app(app)
    app.add_url_rule("/", "page", lambda: "hello")
    app.add_url_rule("/kept", "kept", lambda: ("hello", {"Cache-Control": "public, max-age=60"}))
    app.add_url_rule("/cookie", "cookie", lambda: ("hello", {"Cache-Control": "public", "Set-Cookie": "a=b"}))

    @app.get("/staff")
    def staff():
        g.staff = object()
        return "hello", {"Cache-Control": "public"}

    return app


OURS = (
    "localhost", "LOCALHOST:8001", "127.0.0.1", "127.0.0.1:8000", "[::1]:8001",
    "shop.local", "SHOP.LOCAL", "shop.local.:80",
)  # fmt: skip
STRANGE = (
    "evil.example", "evil.example:80", "shop.local.evil.example", "shop.local@evil.example", "shop.local:80@evil.test",
    "192.0.2.7", "[2001:db8::1]", "[::1", "localhost:port", "x" * 300, "<script>alert(1)</script>", "",
)  # fmt: skip


@pytest.mark.parametrize("host", OURS)
def test_a_host_of_ours_is_served(client, host):
    assert client.get("/", headers={"Host": host}).status_code == 200


@pytest.mark.parametrize("host", STRANGE)
def test_any_other_host_gets_a_kind_refusal_as_plain_text(client, host):
    answer = client.get("/", environ_overrides={"HTTP_HOST": host})
    assert answer.status_code == 400
    assert answer.content_type.startswith("text/plain")
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "ask at the counter" in answer.text


def test_even_a_page_that_does_not_exist_is_refused_to_a_strange_host(client):
    assert client.get("/nothing", headers={"Host": "evil.example"}).status_code == 400


def test_a_forwarded_host_is_never_believed(client):
    headers = {"Host": "evil.example", "X-Forwarded-Host": "localhost", "Forwarded": "host=localhost"}
    answer = client.get("/", headers=headers)
    assert answer.status_code == 400


def test_a_host_that_the_shop_takes_while_it_runs_is_served_at_once_and_the_former_one_still(stage):
    client = make_app(stage).test_client()
    assert client.get("/", headers={"Host": "frags.local"}).status_code == 400
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), host="FRAGS.LOCAL")
    assert client.get("/", headers={"Host": "frags.local"}).status_code == 200
    assert client.get("/", headers={"Host": "shop.local"}).status_code == 200


def directives(answer):
    policy = answer.headers["Content-Security-Policy"]
    return {name: values for name, *values in (part.split() for part in policy.split(";"))}


@pytest.mark.parametrize("path", ["/", "/nothing"])
def test_every_answer_carries_the_headers_of_the_owasp_standard(client, path):
    """OWASP ASVS 5.0.0: 3.4.3 (policy), 3.4.4 (nosniff), 3.4.5 (referrer), 3.4.6 (framing), 3.5.8 (resource policy)."""
    answer = client.get(path)
    policy = directives(answer)
    for name in ("default-src", "base-uri", "object-src", "frame-ancestors"):
        assert policy[name] == ["'none'"]
    for name in ("script-src", "style-src", "form-action"):
        assert policy[name] == ["'self'"]
    assert not re.search(r"unsafe|http|\*", answer.headers["Content-Security-Policy"])
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert answer.headers["Referrer-Policy"] == "no-referrer"


def test_nothing_promises_https_for_the_name_on_the_labels(client):
    """RFC 6797, section 8.3: the promise covers every port of the host, so plain http labels would stop opening."""
    assert "Strict-Transport-Security" not in client.get("/").headers


def test_the_staff_door_isolates_its_windows_and_keeps_referrers_to_itself(client):
    answer = client.get("/", environ_overrides={doors.KEY: doors.STAFF})
    assert answer.headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert answer.headers["Referrer-Policy"] == "same-origin"


@pytest.mark.parametrize(
    ("path", "rule"),
    [
        ("/", "no-cache"),
        ("/kept", "public, max-age=60"),
        ("/cookie", "no-store"),
        ("/staff", "no-store"),
        ("/nothing", "no-store"),
    ],
)
def test_what_belongs_to_a_person_is_never_stored(client, path, rule):
    """OWASP ASVS 5.0.0, 14.3.2."""
    assert client.get(path).headers["Cache-Control"] == rule


def test_an_answer_that_only_says_nothing_changed_repeats_no_headers_that_the_browser_kept(stage):
    """RFC 9110, 15.4.5: of what a 200 would carry, what names its version and how long it is good for."""
    walk_in = Visitor(stage, "public")
    with stage.database.reading() as session:
        code = live_code(session, stage.mother)
    first = walk_in.open(f"/{code}").headers
    again = walk_in.open(f"/{code}", **{"If-None-Match": first["ETag"]})
    assert again.status == 304
    for name in ("ETag", "Cache-Control", "Vary"):
        assert again.headers[name] == first[name]
    assert "Content-Security-Policy" in first
    assert not {*security.HEADERS, "Referrer-Policy"} & set(again.headers.keys())
