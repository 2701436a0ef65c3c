"""Which language a page speaks: `?lang=` for this page alone, else what the reader chose, else what the browser asks.

The choice is a cookie with two letters in it and nothing else. Staff pages are English: they are written in it alone.
"""

from functools import lru_cache
from typing import Any
from urllib.parse import urlencode

from flask import Blueprint, Flask, Response, abort, g, redirect, request, url_for
from markupsafe import Markup, escape
from werkzeug.datastructures import LanguageAccept
from werkzeug.http import parse_accept_header
from werkzeug.wrappers import Response as AnyResponse

from webapp.views.identity import local_path
from webapp.words import language as words
from webapp.words.language import LANGUAGES, SOURCE, Language, Translate

bp = Blueprint("language", __name__)
COOKIE = "lang"
YEAR_S = 365 * 24 * 3600
#: Surfaces that customers read; an error page outside of every surface is one too.
SPOKEN = frozenset({
    None, "card", "fit", "sheet", "sheet_several", "tank_card", "scanning", "language", "handling", "workings",
})  # fmt: skip
SPOKEN_PAGES = frozenset({"stock.public_list"})


def init_app(app: Flask) -> None:
    """Give templates the language, and caches the word that pages hang on it."""
    app.jinja_env.install_gettext_callables(translate, translate_count, newstyle=True)  # type: ignore[attr-defined]
    app.context_processor(_of_this_page)
    app.after_request(_vary)


def language() -> Language:
    """The language of this page."""
    speaks = g.get("language")
    if speaks is None:
        args = request.args  # asked only when there is something in it: to miss a key makes an error of HTTP each time
        asked = args.get("lang", "") if args else ""
        speaks = g.language = LANGUAGES.get(asked) or (_chosen() if _is_spoken() else LANGUAGES[SOURCE])
    return speaks


def translate(sentence: str) -> str:
    """A sentence in the language of this page. Nothing stays nothing: a catalogue would answer with its header."""
    return speech()(sentence) if sentence else ""


def speech() -> Translate:
    """What turns a sentence into the language of this page; asked for once where many sentences follow."""
    says = g.get("speech")
    if says is None:
        says = g.speech = words.catalogue(language().key).gettext
    return says


def translate_count(one: str, many: str, number: int) -> str:
    """A sentence whose form hangs on a number."""
    return words.catalogue(language().key).ngettext(one, many, number)


@bp.get("/language/<key>")
def choose(key: str) -> AnyResponse:
    """Speak this language from now on, and back to the page that was read."""
    if key not in LANGUAGES:
        abort(404)
    back = redirect(local_path(request.args.get("next"), url_for("card.start")))
    back.set_cookie(COOKIE, key, max_age=YEAR_S, samesite="Lax", httponly=True, secure=request.is_secure)
    return back


def switch_url(key: str) -> str:
    """The address that chooses a language and comes back to this page."""
    args = [pair for pair in request.args.items(multi=True) if pair[0] != "lang"] if request.method == "GET" else []
    here = request.path + (f"?{urlencode(args)}" if args else "")
    return url_for("language.choose", key=key, next=here)


def switches(code: object) -> list[tuple[Language, Markup]]:
    """The other languages, each with the address that chooses it and comes back to the card of a code."""
    home = url_for("card.start")
    return [
        (one, Markup(url_for("language.choose", key=one.key, next=home)) + escape(code))
        for one in LANGUAGES.values()
        if one != language()
    ]


def _chosen() -> Language:
    cookies = request.cookies
    kept = LANGUAGES.get(cookies.get(COOKIE, "")) if cookies else None
    return kept or _asked_for(request.environ.get("HTTP_ACCEPT_LANGUAGE", ""))


@lru_cache(500)
def _asked_for(header: str) -> Language:
    return LANGUAGES[parse_accept_header(header, LanguageAccept).best_match(LANGUAGES, SOURCE)]


def _is_spoken() -> bool:
    return request.blueprint in SPOKEN or request.endpoint in SPOKEN_PAGES


def _of_this_page() -> dict[str, Any]:
    speaks = language()
    others = [(one, switch_url(one.key)) for one in LANGUAGES.values() if one.key != speaks.key]
    return {"language": speaks.key, "direction": speaks.direction, "other_languages": others if _is_spoken() else []}


def _vary(answer: Response) -> Response:
    if answer.mimetype not in ("text/html", "text/plain"):
        return answer
    if "Vary" in answer.headers:
        answer.vary.update(("Accept-Language", "Cookie"))
    else:
        answer.headers["Vary"] = "Accept-Language, Cookie"
    return answer
