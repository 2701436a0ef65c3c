"""A sheet away from the shop: its words as a message, and what a page needs to stand alone in a file."""

from base64 import b64encode
from functools import cache

from webapp import beside
from webapp.pictures.draw import draw_kind
from webapp.services import photos
from webapp.views.assets import joined_css
from webapp.views.identity import shop
from webapp.views.language import translate
from webapp.views.rendering import day
from webapp.views.saving import now, reading
from webapp.views.sheet_made import Made

_ALONE = ("tokens", "base", "drawn", "sheet")


@cache
def sheet_css() -> str:
    """The style sheets of a sheet, joined, in base 64."""
    return b64encode(joined_css(_ALONE, beside("static")).encode()).decode()


def picture_data(made: Made) -> str:
    """The picture as an address that holds it."""
    card = made.card
    if card.photo_id:
        return _inside("image/webp", photos.photo_webp(reading(), card.photo_id, thumb=True))
    svg = draw_kind(card.profile.key, title=translate(card.profile.trade_name), group=card.profile.group)
    return _inside("image/svg+xml", svg.encode())


def sheet_text(made: Made) -> str:
    """All the words of a sheet in plain text, a line a sentence or step."""
    card = made.card
    head = [f"{card.name} ({translate(card.profile.trade_name)}, {card.profile.scientific})", card.code]
    head.append(", ".join(filter(None, [shop().name, day(now())])))
    if made.head.verdict:
        head.append(f"{made.head.verdict}. {made.head.reasons}")
    parts = ["\n".join(head)]
    for section in made.sections:
        lines = [section.title.upper(), *section.lines]
        lines += [f"- {when}: {text}" for when, text in section.steps]
        lines += [f"- {row[0]}: {' / '.join(row[1:])}" for row in section.rows]
        parts.append("\n".join(lines))
    return "\n\n".join(parts) + "\n"


def _inside(kind: str, data: bytes) -> str:
    return f"data:{kind};base64,{b64encode(data).decode()}"
