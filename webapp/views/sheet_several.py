"""One sheet for several animals of one sale: `/sheets?code=..&code=..` and the buyer's tank as on every form."""

from dataclasses import dataclass
from itertools import combinations

from flask import Blueprint, render_template, request
from markupsafe import Markup

from webapp.errors import NotFound
from webapp.fit.neighbours import needed_gap_cm
from webapp.services.cards import Card
from webapp.services.fitting import check_specimen
from webapp.tags.symbol import make_symbol, symbol_svg
from webapp.views.fit import asked_from, speaker
from webapp.views.identity import shop
from webapp.views.language import translate
from webapp.views.saving import memory, reading
from webapp.views.sheet_layout import PAPERS, Paper
from webapp.views.sheet_made import USUAL_PAPER, begins_at, find, told_of
from webapp.words.language import LANGUAGES, later
from webapp.words.take_home import Section
from webapp.words.take_home_several import Gap, Piece, own_sections, shared_sections

bp = Blueprint("sheet_several", __name__)
MOST = 12


@dataclass(frozen=True, slots=True)
class Part:
    """One animal's own part; `symbol` is its QR."""

    card: Card
    piece: Piece
    sections: tuple[Section, ...]
    symbol: Markup


@bp.get("/sheets")
def show() -> str:
    """The sheet of all that were named."""
    codes = list(dict.fromkeys(code.upper() for code in request.args.getlist("code")))
    if not 1 <= len(codes) <= MOST:
        raise NotFound(later("Name one to twelve animals by their codes."))
    asked = asked_from(request.args)
    given, says = not (asked.is_blank or asked.errors), speaker(asked)
    pieces = []
    for card in map(find, codes):
        report = check_specimen(reading(), memory(), card.specimen, asked.tank) if given else None
        pieces.append((card, Piece(card.name, card.code, told_of(card, report, says))))
    parts = [Part(card, piece, own_sections(piece, says), _symbol(card)) for card, piece in pieces]
    return render_template(
        "sheet/several.html", parts=parts, shared=shared_sections([part.piece for part in parts], _gaps(parts), says),
        paper=_paper(), papers=PAPERS, start=begins_at(), languages=LANGUAGES,
        kept=[pair for pair in request.args.items(multi=True) if pair[0] not in ("paper", "from", "lang")],
    )  # fmt: skip


def _paper() -> Paper:
    return PAPERS.get(request.args.get("paper", ""), PAPERS[USUAL_PAPER])


def _gaps(parts: list[Part]) -> list[Gap]:
    return [
        Gap(one.card.name, other.card.name, needed_gap_cm(one.card.profile, other.card.profile))
        for one, other in combinations(parts, 2)
    ]


def _symbol(card: Card) -> Markup:
    label = translate(later("Its symbol; it works on the Wi-Fi of the shop"))
    return Markup(symbol_svg(make_symbol(shop().address.url(card.code)), label=label))
