"""What makes the staff's pages an app: manifest, icons, the worker that opens them without signal, what it keeps."""

from hashlib import sha256
from typing import Any

from flask import Blueprint, Response, abort, current_app, json, jsonify, url_for
from werkzeug.wrappers import Response as AnyResponse

from webapp import beside
from webapp.services import work_list
from webapp.services.profiles import newest_profiles
from webapp.services.selling_stops import standing_stops
from webapp.services.shop import revision
from webapp.views.assets import asset_url
from webapp.views.identity import shop, staff_door, staff_only
from webapp.views.saving import memory, now, reading
from webapp.words.sales import stop_sentence

bp = Blueprint("offline", __name__)
ICONS = {
    "icon-192.png": "image/png", "icon-512.png": "image/png", "maskable-512.png": "image/png",
    "apple-touch-icon.png": "image/png", "favicon.svg": "image/svg+xml",
}  # fmt: skip
SHORTCUTS = (
    ("Scan and do", "/do"),
    ("One deed, many tags", "/series"),
    ("Tanks", "/tanks"),
    ("What waits", "/outbox"),
)


@bp.get("/manifest.webmanifest")
def manifest() -> Response:
    """What a phone is told when it keeps the app (W3C, Web Application Manifest)."""
    _staff_door()
    name = shop().name or "Rackside"
    icons = [
        {"src": url_for("offline.icon", name=f"icon-{side}.png"), "sizes": f"{side}x{side}", "type": "image/png"}
        for side in (192, 512)
    ]
    maskable = {"src": url_for("offline.icon", name="maskable-512.png"), "sizes": "512x512", "type": "image/png"}
    made = {
        "id": "/do", "name": f"{name}, staff", "short_name": "Rackside", "lang": "en", "start_url": "/do",
        "scope": "/", "display": "standalone", "background_color": "#e7e3d8", "theme_color": "#e7e3d8",
        "icons": [*icons, maskable | {"purpose": "maskable"}],
        "shortcuts": [{"name": label, "url": path, "icons": icons[:1]} for label, path in SHORTCUTS],
    }  # fmt: skip
    return _answer(json.dumps(made), "application/manifest+json")


@bp.get("/icons/<name>")
def icon(name: str) -> Response:
    """A picture of the app, drawn for it."""
    if name not in ICONS:
        abort(404)
    answer = _answer((beside("static") / "icons" / name).read_bytes(), ICONS[name])
    answer.headers["Cache-Control"] = "public, max-age=86400"
    return answer


@bp.get("/sw.js")
def worker() -> Response:
    """The worker, at the root so that it serves every page. Its first line changes whenever what it keeps changes."""
    _staff_door()
    icon_path = url_for("offline.icon", name="icon-192.png")
    shell = [asset_url("staff.css"), asset_url("staff.js"), url_for("outbox.page"), icon_path]
    body = current_app.extensions["rackside_assets"]["worker.js"].body.decode()
    page = current_app.jinja_env.get_template("outbox/waiting.html").filename or ""
    version = sha256(json.dumps([shell, body, _text(page)]).encode()).hexdigest()[:12]
    answer = _answer(f"const VERSION = {json.dumps(version)}, SHELL = {json.dumps(shell)};\n{body}", "text/javascript")
    answer.headers["Service-Worker-Allowed"] = "/"
    return answer


@bp.get("/do/list")
@staff_only
def work() -> AnyResponse:
    """Everything that stands in the shop, short: to find a tag by three characters or its slot, also without signal."""
    found = memory().get(revision(reading()), "work list", _list)
    return jsonify(found | {"made": now().isoformat()})


def _list() -> dict[str, Any]:
    """With what a phone must know to sell without signal: what may not leave, and what is poisonous."""
    stops: dict[str, list[str]] = {}
    for specimen_id, name, stop in standing_stops(reading(), memory()):
        stops.setdefault(specimen_id, []).append(stop_sentence(name, *stop))
    known = newest_profiles(reading(), memory(), revision(reading()))
    toxic = {key: profile.toxicity_note for key, profile in known.items() if profile.toxic}
    return work_list.work_list(reading()) | {"stops": stops, "toxic": toxic}


def _answer(body: str | bytes, content_type: str) -> Response:
    answer = Response(body, content_type=content_type)
    answer.headers["Cache-Control"] = "no-cache"
    return answer


def _staff_door() -> None:
    if not staff_door():
        abort(404)


def _text(path: str) -> str:
    with open(path, encoding="utf-8") as file:
        return file.read()
