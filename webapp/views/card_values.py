"""What is one animal's own on its card, in words: filled into the places of the card's frame."""

from datetime import date
from functools import lru_cache
from typing import Any

from flask import get_template_attribute
from markupsafe import Markup, escape

from webapp.fit.specimen import UsedTo
from webapp.services.cards import Card
from webapp.services.telling import Told
from webapp.views.frames import Frame, Places
from webapp.views.identity import shop
from webapp.views.language import translate_count
from webapp.views.rendering import day, money, number
from webapp.views.saving import Recall
from webapp.words import dates
from webapp.words.factors import factor_decimals
from webapp.words.history import history_sentence
from webapp.words.language import DECIMAL, Translate, catalogue, later


def card_values(card: Card, recall: Recall, says: Translate, language: str) -> dict[str, Any]:
    """Place -> what stands in it. A kind's factor has its name for a place."""
    return _used(card, says) | {
        "code": card.code, "name": card.name, "id": card.id, "photo_id": card.photo_id,
        "price": money(card.price_cents), "size": _size(card), "tank": card.tank_name, "rack": card.rack_name,
        "slot": card.slot, "since": day(card.started_at),
        "days": _counted(later("%(num)d day"), later("%(num)d days"), int(card.days_here)),
        "mother_name": card.mother_name, "mother_code": card.mother_code,
        "story": _story(card.story, recall, says, language),
    }  # fmt: skip


def _used(card: Card, says: Translate) -> dict[str, str]:
    sentence, unmeasured = says(later("here %(median)s (%(low)s–%(high)s)")), says(later("here: not measured"))
    used, mark = card.used_to, says(DECIMAL)
    return {
        factor: sentence % _ends(used[factor], factor_decimals(factor), mark) if factor in used else unmeasured
        for factor in card.profile.bands
    }


def _ends(used: UsedTo, places: int, mark: str) -> dict[str, str]:
    values = {"median": used.median, "low": used.low, "high": used.high}
    return {name: _number(value, places, mark) for name, value in values.items()}


def _number(value: float, places: int, mark: str) -> str:
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".").replace(".", mark) if places else text


def _counted(one: str, many: str, number: int) -> str:
    return translate_count(one, many, number) % {"num": number}


def _size(card: Card) -> str:
    size = f"{number(card.size_mm, 0)} mm" if card.size_mm else ""
    heads = _counted(later("%(num)d head"), later("%(num)d heads"), card.heads) if card.heads else ""
    return ", ".join(filter(None, (size, heads)))


def _story(story: list[Told], recall: Recall, says: Translate, language: str) -> Markup:
    """Everything that happened, newest first."""
    line, zone = recall("story line", _story_line), shop().zone
    return line.fill_each(
        {**_day(told.at.astimezone(zone).date(), language), "sentence": history_sentence(told.kind, told.values, says)}
        for told in reversed(story)
    )


@lru_cache(4000)
def _day(at: date, language: str) -> dict[str, Markup]:
    """A day as machines and as people read it."""
    return {"date": Markup(at.isoformat()), "day": escape(dates.long_day(catalogue(language).gettext, at))}


def _story_line() -> Frame:
    return Frame(get_template_attribute("card/_story.html", "line")(Places()))
