"""One sheet for several animals of one sale: `/sheets?code=..&code=..` and the buyer's tank as on every form."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from itertools import combinations

from flask import Blueprint, redirect, render_template, request, url_for
from markupsafe import Markup
from werkzeug.wrappers import Response

from webapp.errors import NotFound
from webapp.fit.findings import Report
from webapp.fit.neighbours import needed_gap_cm
from webapp.fit.together import common_bands
from webapp.services import sheets
from webapp.services.cards import Card
from webapp.services.fitting import check_together
from webapp.views.fit import asked_from, speaker
from webapp.views.identity import author, shop, staff_only
from webapp.views.keeping import picture_address, picture_data, several_text, sheet_css
from webapp.views.language import translate, translate_count
from webapp.views.rendering import day
from webapp.views.saving import memory, now, reading, saving
from webapp.views.sheet_heights import RUN_IN
from webapp.views.sheet_layout import PAPERS, Head, Paper, roll_mm
from webapp.views.sheet_layout_several import PartText, SeveralSide, roll_of, several_sides
from webapp.views.sheet_made import asked_paper, begins_at, find, speaker_for, symbol_of, told_of
from webapp.words import terms
from webapp.words.language import LANGUAGES, later
from webapp.words.take_home import Section
from webapp.words.take_home_several import Gap, Piece, own_sections, shared_sections

bp = Blueprint("sheet_several", __name__)
MOST = 12


@dataclass(frozen=True, slots=True)
class Part:
    """One animal's own part; `symbol` is its QR, `picture` an address."""

    card: Card
    piece: Piece
    sections: tuple[Section, ...]
    symbol: Markup
    picture: str


@dataclass(frozen=True, slots=True)
class Several:
    """A sheet for several, ready to be shown."""

    parts: list[Part]
    shared: tuple[Section, ...]
    head: Head
    sides: list[SeveralSide]
    paper: Paper
    start: datetime

    @property
    def roll_mm(self) -> int:
        """The length of its page on a roll, 0 on sheets of paper."""
        return roll_mm(self.paper, roll_of(self.sides))


@bp.get("/sheets")
def show() -> str:
    """The sheet of all that were named."""
    made = make()
    codes = [part.card.code for part in made.parts]
    return render_template(
        "sheet/several.html", made=made, papers=PAPERS, languages=LANGUAGES, run_in=RUN_IN, numbers=(),
        text=several_text(made.head, made.shared, [(part.piece, part.sections) for part in made.parts]),
        kept=[pair for pair in request.args.items(multi=True) if pair[0] not in ("paper", "from", "lang")],
        query=request.query_string.decode(), codes=codes,
    )  # fmt: skip


@bp.get("/sheets.txt")
def text() -> Response:
    """The words alone, for a message."""
    made = make()
    words = several_text(made.head, made.shared, [(part.piece, part.sections) for part in made.parts])
    return Response(words, mimetype="text/plain", headers={"Cache-Control": "no-store"})


@bp.get("/sheets/keep")
def keep() -> Response:
    """One page with everything inside it, to be kept where the shop's server is out of reach."""
    made = make(inside=True)
    page = render_template(
        "sheet/keep_several.html", made=made, css=sheet_css(made.roll_mm), run_in=RUN_IN, numbers=()
    )  # fmt: skip
    name = f"{made.parts[0].card.code}-{len(made.parts)}.html"
    held = {"Content-Disposition": f"attachment; filename={name}", "Cache-Control": "no-store"}
    return Response(page, mimetype="text/html", headers=held)


@bp.post("/sheets")
@staff_only
def issue() -> Response:
    """Keep this sheet under numbers, one for each animal, as it is now."""
    made = make()
    animals = [(part.card.id, part.card.profile.key, part.card.profile.revision) for part in made.parts]
    with saving() as session:
        numbers = sheets.issue(session, author(), animals, now())
        body = render_template("sheet/body_several.html", made=made, run_in=RUN_IN, numbers=numbers)
        sheets.keep_text(session, numbers, body, made.roll_mm)
    return redirect(url_for("sheet.issued", number=numbers[0]))


def make(*, inside: bool = False) -> Several:
    """The sheet that this address asks for. inside: with pictures that need no address."""
    codes = list(dict.fromkeys(code.upper() for code in request.args.getlist("code")))
    if not 1 <= len(codes) <= MOST:
        raise NotFound(later("Name one to twelve animals by their codes."))
    asked = asked_from(request.args)
    given, says = not (asked.is_blank or asked.errors), speaker(asked)
    cards, together = [find(code) for code in codes], None
    reports: list[Report | None] = [None] * len(cards)
    if given:
        reports[:], together = check_together(reading(), memory(), [card.specimen for card in cards], asked.tank)
    pieces = []
    for card, report in zip(cards, reports, strict=True):
        says = speaker_for(says, report)
        pieces.append((card, Piece(card.name, card.code, told_of(card, report, says))))
    all_told, picture = [piece for _card, piece in pieces], picture_data if inside else picture_address
    parts = [
        Part(card, piece, own_sections(piece, all_told, says), symbol_of(card), picture(card)) for card, piece in pieces
    ]
    common = together.common if together else common_bands([card.profile.bands for card in cards])
    shared = shared_sections(all_told, _gaps(parts), common, together, says)
    head, paper = _head(parts), asked_paper()
    told = [PartText(one.card.name, _kind(one.card), one.card.code, one.sections) for one in parts]
    return Several(parts, shared, head, several_sides(shared, told, paper, head), paper, begins_at())


def _kind(card: Card) -> str:
    return f"{translate(card.profile.trade_name)}, {terms.latin_name(card.profile.scientific, translate)}"


def _head(parts: list[Part]) -> Head:
    named = ", ".join(f"{part.card.name} {part.card.code}" for part in parts)
    title = translate_count(later("For your %(n)s animal"), later("For your %(n)s animals"), len(parts))
    over = " · ".join(filter(None, [shop().name, day(begins_at())]))
    return Head(over, title % {"n": len(parts)}, named, "", (), pictures=False)


def _gaps(parts: Iterable[Part]) -> list[Gap]:
    return [
        Gap(one.card.name, other.card.name, needed_gap_cm(one.card.profile, other.card.profile))
        for one, other in combinations(parts, 2)
    ]
