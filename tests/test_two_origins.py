"""Staff over https, walk-ins over http: cookies, the way across, the set-up of a phone, a reverse proxy before it."""

import plistlib
import re

import pytest
from click.testing import CliRunner
from cryptography import x509
from werkzeug.test import Client

from tests.door import Phone, phone
from tests.shop_client import Visitor
from tests.stage import PIN
from webapp import certificates, cli
from webapp.config import Config
from webapp.running import Running
from webapp.storage.specimen import SpecimenRow


@pytest.fixture
def running(stage, tmp_path, monkeypatch):
    monkeypatch.setenv("RACKSIDE_INSTANCE", str(tmp_path / "instance"))
    made = Running(Config(stage.url, "a key for tests only", testing=True), lambda _line: None, ["staff.example"])
    yield made
    made.close()


def secure(visitor, **config):
    visitor.app.config.update(config)
    return visitor


def test_over_https_the_cookies_are_bound_to_the_host_and_over_http_they_are_plain(stage):
    """RFC 6265bis, 4.1.3.2: the prefix __Host- demands Secure, the path / and no Domain."""
    over_https = Phone(stage).open("/sign-in")
    token = over_https.find(r'csrf_token" value="([^"]+)')
    typed = {"person": "Noor", "secret": PIN, "csrf_token": token}
    answer = over_https._client.post("/sign-in", data=typed, environ_overrides=over_https._environ())
    cookies = answer.headers.getlist("Set-Cookie")
    assert {cookie.split("=")[0] for cookie in cookies} == {"__Host-rackside_staff", "__Host-rackside_device"}
    for cookie in cookies:
        assert "Secure" in cookie and "HttpOnly" in cookie and "Path=/" in cookie and "SameSite=Lax" in cookie
        assert "Domain" not in cookie
    plain = Visitor(stage).open("/sign-in")
    assert plain.headers["Set-Cookie"].startswith("rackside_staff=")
    assert "Secure" not in plain.headers["Set-Cookie"]


def test_neither_origin_ever_sends_hsts(stage):
    """RFC 6797, 8.3: it would cover every port of the name, and with it the printed http addresses."""
    for visitor in (phone(stage), Visitor(stage, "public")):
        assert "Strict-Transport-Security" not in visitor.open("/").headers


def test_a_card_scanned_over_http_leads_staff_to_the_same_page_over_https(stage):
    with stage.database.reading() as session:
        code = session.get(SpecimenRow, stage.mother).code
    walk_in = secure(Visitor(stage, "public"), HTTPS_PORT=8443).open(f"/{code}")
    assert f'href="https://localhost:8443/{code}" rel="nofollow">Staff<' in walk_in.page
    assert "Staff" not in secure(Visitor(stage, "public")).open(f"/{code}").text
    there = phone(stage).open(f"/{code}")
    assert f"/s/{stage.mother}" in there.page
    assert 'rel="nofollow">Staff<' not in there.page


def test_the_set_up_page_hands_out_the_authority_for_both_sorts_of_phone(stage, tmp_path):
    held = certificates.hold(tmp_path / "authority", ["shop.local"])
    walk_in = secure(Visitor(stage, "public"), HTTPS_PORT=8443, AUTHORITY=held).open("/ca")
    assert held.fingerprint in walk_in.text
    assert "https://localhost:8443/ready" in walk_in.page
    walk_in.open("/ca/rackside.crt")
    assert walk_in.headers["Content-Type"] == "application/x-x509-ca-cert"
    authority = x509.load_der_x509_certificate(walk_in.data)
    assert authority == x509.load_pem_x509_certificate(held.authority.read_bytes())
    walk_in.open("/ca/rackside.mobileconfig")
    assert walk_in.headers["Content-Type"] == "application/x-apple-aspen-config"
    [inner] = plistlib.loads(walk_in.data)["PayloadContent"]
    assert inner["PayloadType"] == "com.apple.security.root"
    assert inner["PayloadContent"] == held.authority_der
    assert "/ca" in phone(stage).open("/devices").page


def test_without_an_authority_of_ours_there_is_nothing_to_hand_out(stage):
    assert Visitor(stage, "public").open("/ca/rackside.crt").status == 404
    assert "Let this phone trust" not in Visitor(stage, "public").open("/ca").text


FORWARDED = {"X-Forwarded-Proto": "https", "X-Forwarded-Host": "staff.example", "X-Forwarded-For": "203.0.113.9"}


def ask(app, path, headers, door="staff"):
    return Client(app).get(path, headers={"Host": "localhost", **headers}, environ_overrides={"rackside.door": door})


def test_forwarded_headers_are_believed_only_when_told(running):
    app = running._app
    cookie = ask(app, "/sign-in", FORWARDED).headers["Set-Cookie"]
    assert cookie.startswith("rackside_staff=")
    assert ask(app, "/", {"X-Forwarded-Host": "evil.example"}).status_code == 200  # not looked at
    running.behind_proxy("https://staff.example")
    assert ask(app, "/sign-in", FORWARDED).headers["Set-Cookie"].startswith("__Host-rackside_staff=")
    assert ask(app, "/", FORWARDED | {"X-Forwarded-Host": "evil.example"}).status_code == 400
    public = ask(app, "/", FORWARDED | {"X-Forwarded-Proto": "http"}, "public").get_data(as_text=True)
    assert 'href="https://staff.example/" rel="nofollow">Staff<' in public


def test_the_outbox_takes_what_comes_through_the_proxy_from_its_own_origin(running, stage):
    running.behind_proxy()
    client = Client(running._app)
    more = {"headers": {"Host": "localhost", "Referer": "https://staff.example/", **FORWARDED},
            "environ_overrides": {"rackside.door": "staff"}}  # fmt: skip
    page = client.get("/sign-in", base_url="https://staff.example", **more).get_data(as_text=True)
    token = re.search(r'csrf_token" value="([^"]+)', page)[1]
    data = {"person": "Noor", "secret": PIN, "csrf_token": token}
    assert client.post("/sign-in", base_url="https://staff.example", data=data, **more).status_code == 302
    body = {"shape": 1, "now": "2026-05-04T10:00:00+00:00", "items": []}
    for origin, status in (("https://staff.example", 200), ("http://localhost", 403)):
        more["headers"] |= {"Origin": origin, "X-Rackside": "outbox"}
        assert client.post("/outbox", base_url="https://staff.example", json=body, **more).status_code == status


def test_a_certificate_of_the_shops_own_is_served_and_ours_is_not_offered(running, tmp_path):
    own = certificates.hold(tmp_path / "own", ["frags.example"])
    running.open_https("127.0.0.1", 0, own.certificate, own.key)
    assert "AUTHORITY" not in running._app.config
    assert running._app.config["HTTPS_PORT"]


def test_the_certificate_made_here_covers_every_name_of_this_computer(running, tmp_path):
    running.open_https("127.0.0.1", 0)
    leaf = running._app.config["AUTHORITY"].certificate.read_bytes()
    names = certificates.names_of(x509.load_pem_x509_certificate(leaf))
    assert {"shop.local", "localhost", "127.0.0.1", "staff.example"} <= set(names)
    running._look_after()


def test_the_command_shows_the_authority_and_makes_a_new_one_only_when_told(stage, tmp_path, monkeypatch):
    monkeypatch.setenv("RACKSIDE_INSTANCE", str(tmp_path / "instance"))
    monkeypatch.setenv("RACKSIDE_DATABASE", stage.url)
    prints = [re.search(r"SHA-256: (\S+)", CliRunner().invoke(cli.main, ["certificate", *more]).output)[1]
              for more in ([], [], ["--new"])]  # fmt: skip
    assert prints[0] == prints[1] != prints[2]
