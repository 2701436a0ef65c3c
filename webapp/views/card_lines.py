"""Small lines on the card: the water of its tank over the last weeks, and how it grew."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from flask import get_template_attribute
from markupsafe import Markup

from webapp.services.cards import Card
from webapp.services.used_to import water_since
from webapp.views.drawn import Sparkline, sparkline
from webapp.views.language import language, translate
from webapp.views.saving import memory, now, reading, revision
from webapp.words.factors import factor_decimals, factor_name, factor_unit
from webapp.words.language import later, local_number, say

SHOWN = ("temp", "salinity", "alk")
DAYS = 30


@dataclass(frozen=True, slots=True)
class Line:
    """One line with its title and what it shows in words."""

    title: str
    text: str
    drawn: Sparkline


def water_lines(card: Card) -> Markup:
    """The water of its tank, drawn once for all cards of a kind in that tank; nothing for one that is gone."""
    if card.tank_id is None:
        return Markup()
    key = ("card water", card.tank_id, card.profile.key, language().key, now().date())
    return memory().get(revision(), key, lambda: _draw(_water(card)))


def growth_line(card: Card) -> Markup:
    """How it grew, where it was measured twice or more."""
    line = _line(translate(later("Size")), card.sizes_mm, None, "mm", 0)
    return _draw([line] if line else [])


def _water(card: Card) -> list[Line]:
    since, found = now() - timedelta(days=DAYS), []
    for factor in SHOWN:
        band = card.profile.bands.get(factor)
        run = water_since(reading(), memory(), revision(), str(card.tank_id), factor, since)
        line = _line(factor_name(factor, translate), run, band, factor_unit(factor), factor_decimals(factor))
        found += [line] if line else []
    return found


def _line(title: str, run: Sequence[tuple[datetime, float]], band: object, unit: str, places: int) -> Line | None:
    drawn = sparkline([(at.timestamp() / 3600, value) for at, value in run], band)  # type: ignore[arg-type]
    if drawn is None:
        return None
    ends = {"low": drawn.low, "high": drawn.high}
    told = {name: local_number(translate, f"{value:.{places}f}") for name, value in ends.items()}
    days = (run[-1][0] - run[0][0]).days
    sentence = later("%(title)s over %(days)s days: %(low)s to %(high)s %(unit)s")
    return Line(title, say(translate, sentence, title=title, days=days, unit=unit, **told), drawn)


def _draw(lines: list[Line]) -> Markup:
    return get_template_attribute("card/_lines.html", "lines")(lines) if lines else Markup()
