"""Joined style sheets and scripts: what they lose, how long they are kept, how large they are."""

import gzip

import pytest
from flask import Flask

from webapp import beside
from webapp.views import assets


@pytest.fixture
def app():
    made = Flask("webapp", static_folder=None)
    made.register_blueprint(assets.bp)
    return made


@pytest.fixture
def client(app):
    return app.test_client()


def path_of(app, name):
    with app.app_context():
        return assets.asset_url(name)


@pytest.mark.parametrize(
    ("plain", "stripped"),
    [
        ("a {  color: red ; }\n\n b { margin: 0.5rem -0.25em }", "a{color:red}b{margin:.5rem -.25em}"),
        ('/* one\n two */ a { content: "/* ;  } */" }', 'a{content:"/* ;  } */"}'),
        ("a :hover , b > c { width: calc(1px + 2px) }", "a :hover,b>c{width:calc(1px + 2px)}"),
        ("a { width: 10.05rem; content: '0.5' }", "a{width:10.05rem;content:'0.5'}"),
    ],
)
def test_style_sheets_lose_only_what_means_nothing(plain, stripped):
    assert assets.strip_css(plain) == stripped


def test_scripts_lose_comments_that_fill_their_lines():
    text = "// a note\n  const a = 'x // y';\n\n/* more\n   notes */\n  go(a); // stays\n"
    assert assets.strip_js(text) == "const a = 'x // y';\ngo(a); // stays"


def test_every_script_stands_in_a_function_of_its_own():
    joined = assets.joined_js(("base/copy_code", "base/stepper"), beside("static"))
    assert joined.count('(()=>{"use strict";') == joined.count("})();") == 2


def test_scripts_have_no_text_that_runs_over_lines():
    for path in (beside("static") / "js").rglob("*.js"):
        for line in path.read_text("utf-8").splitlines():
            assert line.count("`") % 2 == 0, f"{path.name}: {line}"


def test_a_bundle_is_kept_for_ever_under_its_own_hash(app, client):
    answer = client.get(path_of(app, "public.css"))
    assert answer.status_code == 200 and answer.mimetype == "text/css"
    assert answer.headers["Cache-Control"] == "public, max-age=31536000, immutable"


def test_an_old_page_gets_todays_file_and_does_not_keep_it(client):
    answer = client.get("/static/000000000000/public.js")
    assert answer.status_code == 200 and answer.headers["Cache-Control"] == "no-cache"


def test_packed_and_plain_are_the_same(app, client):
    path = path_of(app, "staff.js")
    packed = client.get(path, headers={"Accept-Encoding": "gzip"})
    assert packed.headers["Content-Encoding"] == "gzip" and "Accept-Encoding" in packed.headers["Vary"]
    plain = client.get(path)
    assert "Content-Encoding" not in plain.headers
    assert gzip.decompress(packed.data) == plain.data


def test_a_changed_file_has_a_new_address():
    assert assets.make_bundle("a.css", "a{}").path != assets.make_bundle("a.css", "b{}").path


@pytest.mark.parametrize("path", ["/static/abc/nothing.css", "/static/abc/..%2Fbase.html"])
def test_nothing_else_is_served(client, path):
    assert client.get(path).status_code == 404


def test_walk_ins_load_little():
    bundles = assets.make_bundles(beside("static"))
    assert len(bundles["public.css"].body) <= 18_000 and len(bundles["public.css"].packed) <= 6_000
    assert len(bundles["public.js"].body) <= 8_000
