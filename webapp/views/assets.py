"""Style sheets and scripts: small files in `static/`, joined into one file a kind of page, kept by browsers for a year.

A bundle's address holds a hash of its content, so a changed file has a new address. Nothing is built beforehand: the
files are joined, stripped and compressed once, when the first app of a process starts.
"""

import gzip
import re
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path

from flask import Blueprint, Flask, abort, current_app, request
from flask.blueprints import BlueprintSetupState
from werkzeug.wrappers import Response

from webapp import beside

#: Names under static/css and static/js without their endings, in the order in which they are joined.
_PAPER = ("tokens", "base", "forms", "card", "lists", "verdict", "drawn")
CSS_BUNDLES: dict[str, tuple[str, ...]] = {
    "public": (*_PAPER, "print"),
    "photo": (*_PAPER, "tagging", "print"),
    "sheet": (*_PAPER, "sheet", "print"),
    "staff": (*_PAPER, "tables", "staff", "water", "tagging", "outbox", "print"),
    "style": (*_PAPER, "tables", "staff", "water", "tagging", "outbox", "gallery", "print"),
}
_EVERYWHERE = ("base/submit_guard", "base/disclosure", "base/copy_code")
_SENDING = ("outbox/ids", "outbox/room", "outbox/store", "outbox/send", "outbox/queue")
_OUTBOX = (
    *_SENDING, "outbox/photos", "outbox/typed", "outbox/entries", "outbox/notice", "outbox/turn", "outbox/banner",
    "outbox/asked", "outbox/drafts", "outbox/later", "outbox/submit", "outbox/triggers", "outbox/page",
)  # fmt: skip
_WORK = (
    "scan/codes", "scan/list", "scan/camera", "scan/finder", "scan/found", "scan/series", "scan/keep_rack",
    "scan/ready", "till/list", "till/lines", "till/phone",
)  # fmt: skip
JS_BUNDLES: dict[str, tuple[str, ...]] = {
    "public": (*_EVERYWHERE, "base/tank_memory", "base/ways"),
    "photo": _EVERYWHERE,
    "sheet": (*_EVERYWHERE, "base/print_button", "base/share"),
    "staff": (
        "base/own_address", *_EVERYWHERE, *_OUTBOX, *_WORK, "base/stepper", "base/tank_memory", "base/ways",
        "base/tick_all", "tags/live_picture", "tags/poll", "tags/taps",
    ),
    "style": (*_EVERYWHERE, "base/stepper", "base/tank_memory", "base/ways"),
    "worker": (*_SENDING, "worker/caches", "worker/serve"),
}
YEAR_S = 31536000
MIME = {"css": "text/css", "js": "text/javascript"}
_STRING_OR_COMMENT = re.compile(r"""("(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')|/\*.*?\*/""", re.DOTALL)

bp = Blueprint("assets", __name__)


@dataclass(frozen=True, slots=True)
class Bundle:
    """A joined file, `name` with its ending: as it is, gzipped, and the address that its content gives it."""

    name: str
    body: bytes
    packed: bytes
    hash: str

    @property
    def path(self) -> str:
        """Where it is served."""
        return f"/static/{self.hash}/{self.name}"


def joined_css(names: tuple[str, ...], static: Path) -> str:
    """The style sheets `names` as one, without comments and needless white space."""
    return "".join(strip_css((static / "css" / f"{name}.css").read_text("utf-8")) for name in names)


def joined_js(names: tuple[str, ...], static: Path) -> str:
    """The scripts `names` as one classic script; each stands in a function of its own and shares no names."""
    files = (strip_js((static / "js" / f"{name}.js").read_text("utf-8")) for name in names)
    return "".join(f'(()=>{{"use strict";\n{text}\n}})();\n' for text in files)


def strip_css(text: str) -> str:
    """Drop comments and white space that mean nothing; what stands in quotes stays as it is."""
    pieces, at = [], 0
    for match in _STRING_OR_COMMENT.finditer(text):
        pieces += [_tighten(text[at : match.start()]), match[1] or ""]
        at = match.end()
    return "".join([*pieces, _tighten(text[at:])]).replace(";}", "}").strip()


def _tighten(text: str) -> str:
    text = re.sub(r"\s+", " ", text)
    text = re.sub(r" ?([{};,>]) ?", r"\1", text).replace(": ", ":")
    return re.sub(r"(?<=[\s,:(-])0\.(?=\d)", ".", text)


def strip_js(text: str) -> str:
    """Drop indentation, blank lines and comments that fill their lines. Scripts have no text that runs over lines."""
    text = re.sub(r"^\s*/\*.*?\*/\s*$", "", text, flags=re.DOTALL | re.MULTILINE)
    lines = (line.strip() for line in text.splitlines())
    return "\n".join(line for line in lines if line and not line.startswith("//"))


def make_bundle(name: str, text: str) -> Bundle:
    """A bundle of this text."""
    body = text.encode("utf-8")
    return Bundle(name, body, gzip.compress(body, 9, mtime=0), sha256(body).hexdigest()[:12])


def make_bundles(static: Path) -> dict[str, Bundle]:
    """Every bundle, by its file name."""
    texts = {f"{name}.css": joined_css(parts, static) for name, parts in CSS_BUNDLES.items()}
    texts |= {f"{name}.js": joined_js(parts, static) for name, parts in JS_BUNDLES.items()}
    return {name: make_bundle(name, text) for name, text in texts.items()}


@cache
def _shipped() -> dict[str, Bundle]:
    return make_bundles(beside("static"))


@bp.record_once
def _join(state: BlueprintSetupState) -> None:
    app: Flask = state.app
    app.extensions["rackside_assets"] = dict(_shipped())
    app.jinja_env.globals["asset_url"] = asset_url


def asset_url(name: str) -> str:
    """The address of a bundle: `asset_url('public.css')`."""
    return current_app.extensions["rackside_assets"][name].path


@bp.get("/static/<hash>/<name>")
def bundle(hash: str, name: str) -> Response:
    """A bundle. A page kept since an older version asks for an older hash: it gets today's file, not to be kept."""
    found: Bundle | None = current_app.extensions["rackside_assets"].get(name)
    if found is None:
        abort(404)
    packs = "gzip" in request.accept_encodings
    answer = Response(found.packed if packs else found.body, mimetype=MIME[name.rsplit(".", 1)[1]])
    if packs:
        answer.content_encoding = "gzip"
    answer.vary.add("Accept-Encoding")
    kept = f"public, max-age={YEAR_S}, immutable"
    answer.headers["Cache-Control"] = kept if hash == found.hash else "no-cache"
    return answer
