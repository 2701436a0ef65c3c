"""What a walk-in's phone opens: the card behind a code, the start page, pictures."""

from datetime import datetime

from flask import Blueprint, Response, redirect, render_template, request, url_for
from werkzeug.http import quote_etag
from werkzeug.wrappers import Response as AnyResponse

from webapp.pictures.draw import draw_kind
from webapp.services import cards, photos
from webapp.services.profiles import newest_profiles
from webapp.services.shop import is_set_up
from webapp.tags.codes import is_valid, normalise, parse_scan
from webapp.views.card_drawn import draw_card
from webapp.views.identity import shop, staff, staff_door
from webapp.views.language import language
from webapp.views.saving import asking, memory, now, reading, revision

bp = Blueprint("card", __name__)
PICTURES_LAST = "public, max-age=31536000, immutable"


@bp.get("/")
def start() -> str | AnyResponse:
    """Type a code, or see what is for sale. A shop that nobody owns yet begins with its set-up."""
    if staff_door() and not is_set_up(reading()):
        return redirect(url_for("setup.first"))
    return render_template("card/start.html")


@bp.get("/hello")
def hello() -> str:
    """You reached the shop."""
    return render_template("card/hello.html", host=request.host, moment=now())


@bp.get("/find")
def find() -> AnyResponse | tuple[str, int]:
    """From the code box to the card."""
    typed = request.args.get("code", "")[:200]
    scan = parse_scan(typed, shop().hosts)
    if scan.code:
        return redirect(url_for("card.show", code=scan.code))
    return _not_found(typed, scan.problem or "not_a_code")


@bp.get("/<string(length=7):code>")
def show(code: str) -> AnyResponse | tuple[str, int] | str:
    """The card. A code stays an address for ever, in either case."""
    clean = normalise(code)
    if not is_valid(clean):
        return _not_found(code, "bad_check")
    known = memory()
    found = known.get(revision(), ("found", clean), lambda: cards.find(asking(), clean))
    moment = now()
    stamp = _stamp(found, moment)
    if request.if_none_match.contains_weak(stamp):
        return _stamped(Response(status=304), stamp)
    if found.kind in ("tank", "rack"):
        return redirect(url_for(f"tank_card.{found.kind}", code=clean))
    if found.kind == "blank" and staff():
        return redirect(url_for("binding.show", code=clean))
    if found.kind != "specimen":
        return _not_found(clean, found.kind)
    card = cards.card(reading(), known, found, moment)
    if card is None:
        return _not_found(clean, "unknown")
    if card.is_past(shop().sold_tag_days) and not staff():
        return _not_found(clean, "sold_long_ago")
    return _stamped(Response(draw_card(card)), stamp)


@bp.get("/photo/<string(length=32):photo_id>.webp")
def photo(photo_id: str) -> Response:
    """A picture; it never changes under its id."""
    return _picture(photos.photo_webp(reading(), photo_id, thumb=False), "image/webp")


@bp.get("/photo/<string(length=32):photo_id>/thumb.webp")
def thumb(photo_id: str) -> Response:
    """The small version of a picture."""
    return _picture(photos.photo_webp(reading(), photo_id, thumb=True), "image/webp")


@bp.get("/drawing/<key>.svg")
def drawing(key: str) -> Response:
    """The drawn illustration of a kind."""
    profiles = newest_profiles(reading(), memory(), revision())
    profile = profiles.get(key)
    svg = draw_kind(key, title=profile.trade_name if profile else "", group=profile.group if profile else "")
    return _picture(svg.encode(), "image/svg+xml", "public, max-age=86400")


def _stamp(found: cards.Found, moment: datetime) -> str:
    """What the card depends on: the database, the day that 'days here' counts, a hold that runs out, who is looking,
    in which language."""
    held = found.held_until is not None and found.held_until > moment
    person = staff()
    return f"{found.revision}.{_today(moment)}.{int(held)}.{person.id if person else ''}.{language().key}"


def _today(moment: datetime) -> str:
    return shop().local(moment).date().isoformat()


def _stamped(answer: Response, stamp: str) -> Response:
    answer.headers["ETag"] = quote_etag(stamp)
    answer.headers["Cache-Control"] = "no-cache"
    return answer


def _picture(data: bytes, mimetype: str, cache: str = PICTURES_LAST) -> Response:
    answer = Response(data, mimetype=mimetype)
    answer.headers["Cache-Control"] = cache
    return answer


def _not_found(typed: str, problem: str) -> tuple[str, int]:
    status = 200 if problem in ("blank", "retired", "sold_long_ago") else 404
    return render_template("card/not_found.html", typed=typed[:60], problem=problem), status
