"""The card as a page: a frame for its kind and a few yes-or-noes, filled with what is one animal's own."""

from typing import NamedTuple

from flask import render_template, request
from markupsafe import Markup

from webapp.services.cards import Card
from webapp.services.own_evidence import evidence
from webapp.views.card_lines import growth_line, water_lines
from webapp.views.card_values import card_values
from webapp.views.frames import Frame, Places
from webapp.views.identity import staff
from webapp.views.language import COOKIE, language, speech, switches
from webapp.views.saving import Recall, memory, now, reading, recalling, revision
from webapp.views.secure_origin import staff_origin

GONE = frozenset({"sold", "lost", "merged"})


class Shape(NamedTuple):
    """All that decides which sentences a card has, beside its kind and language."""

    status: str
    on_hold: bool
    is_stopped: bool
    origin: str
    has_photo: bool
    has_price: bool
    has_tank: bool
    has_rack: bool
    has_lines: bool
    mother: str
    is_staff: bool

    @property
    def is_gone(self) -> bool:
        """Whether it is not in the shop any more."""
        return self.status in GONE


def draw_card(card: Card) -> str:
    """The page of one animal."""
    recall, says, speaks, today = recalling(), speech(), language().key, now()
    lines = {"water": water_lines(card, recall, speaks, today), "growth": growth_line(card, recall, says)}
    shape = Shape(
        card.status, card.on_hold, card.is_stopped, card.origin, card.photo_id is not None,
        card.price_cents is not None and card.status not in GONE, bool(card.tank_name),
        bool(card.rack_name), any(lines.values()),
        "code" if card.mother_code else "name" if card.mother_name else "", staff() is not None,
    )  # fmt: skip
    return _frame(card, shape, recall).fill(card_values(card, recall, says, speaks) | lines)


def _frame(card: Card, shape: Shape, recall: Recall) -> Frame:
    """Kept for walk-ins. A device with cookies of its own may have a message waiting: its page is its own."""
    if request.args or request.cookies.keys() - {COOKIE}:
        return _draw(card, shape)
    origin = "" if request.is_secure else staff_origin()
    key = ("card frame", card.profile.key, language().key, now().date(), shape, origin)
    return recall(key, lambda: _draw(card, shape, **_ways(origin)))


def _draw(card: Card, shape: Shape, **ways: object) -> Frame:
    return Frame(render_template(
        "card/show.html", at=Places(), shape=shape, profile=card.profile, **ways,
        evidence=evidence(reading(), memory(), revision(), card.profile.key, now()),
    ))  # fmt: skip


def _ways(origin: str) -> dict[str, object]:
    """What would else hang on the address of this one card: the same card in other languages, and through the other
    door."""
    code = Places().code
    return {"other_languages": switches(code), "staff_link": lambda: Markup(f"{origin}/%s") % code if origin else ""}
