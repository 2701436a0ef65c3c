"""A sheet away from the shop: its words as a message, and what a page needs to stand alone in a file."""

from base64 import b64encode
from collections.abc import Iterable, Sequence
from functools import cache

from flask import url_for

from webapp import beside
from webapp.pictures.draw import draw_kind
from webapp.services import photos
from webapp.services.cards import Card
from webapp.views.assets import joined_css
from webapp.views.identity import shop
from webapp.views.language import translate
from webapp.views.rendering import day
from webapp.views.saving import now, reading
from webapp.views.sheet_layout import Head
from webapp.views.sheet_made import Made
from webapp.words.take_home import Section
from webapp.words.take_home_several import Piece

_ALONE = ("tokens", "base", "drawn", "sheet")


@cache
def _joined() -> str:
    return joined_css(_ALONE, beside("static"))


def sheet_css(roll_mm: int = 0) -> str:
    """The style sheets of a sheet, joined, in base 64. roll_mm: the length of its page where it is for a roll."""
    return b64encode(f"{_joined()}{roll_css(roll_mm) if roll_mm else ''}".encode()).decode()


def roll_css(mm: int) -> str:
    """The rule that makes the page of a roll so long."""
    return f"@page roll {{ size: 80mm {mm}mm; margin: 4mm; }}\n"


def picture_address(card: Card) -> str:
    """Where its picture is served: a photo, or the drawing of its kind."""
    if card.photo_id:
        return url_for("card.thumb", photo_id=card.photo_id)
    return url_for("card.drawing", key=card.profile.key)


def picture_data(card: Card) -> str:
    """The picture as an address that holds it."""
    if card.photo_id:
        return _inside("image/webp", photos.photo_webp(reading(), card.photo_id, thumb=True))
    svg = draw_kind(card.profile.key, title=translate(card.profile.trade_name), group=card.profile.group)
    return _inside("image/svg+xml", svg.encode())


def sheet_text(made: Made) -> str:
    """All the words of a sheet in plain text, a line a sentence or step."""
    card = made.card
    head = [f"{card.name} ({translate(card.profile.trade_name)}, {translate(card.profile.scientific)})", card.code]
    head.append(", ".join(filter(None, [shop().name, day(now())])))
    if made.head.verdict:
        head.append(f"{made.head.verdict}. {made.head.reasons}")
    return _told(head, made.sections)


def several_text(head: Head, shared: Iterable[Section], parts: Iterable[tuple[Piece, Sequence[Section]]]) -> str:
    """All the words of a sheet for several animals."""
    told = [_told([head.title, head.kind, head.over], shared)]
    told += [_told([f"{piece.name} {piece.code}"], sections) for piece, sections in parts]
    return "\n\n".join(told)


def _told(head: Iterable[str], sections: Iterable[Section]) -> str:
    parts = ["\n".join(head)]
    for section in sections:
        lines = [section.title.upper(), *section.lines]
        lines += [f"- {when}: {text}" for when, text in section.steps]
        lines += [f"- {row[0]}: {' / '.join(row[1:])}" for row in section.rows]
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


def _inside(kind: str, data: bytes) -> str:
    return f"data:{kind};base64,{b64encode(data).decode()}"
