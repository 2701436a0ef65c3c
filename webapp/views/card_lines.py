"""Small lines on the card: the water of its tank over the last weeks, and how it grew."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from flask import get_template_attribute
from markupsafe import Markup

from webapp.services.cards import Card
from webapp.services.used_to import water_since
from webapp.views.drawn import Sparkline, sparkline
from webapp.views.frames import Frame, Places
from webapp.views.language import speech
from webapp.views.saving import Recall, memory, reading, revision
from webapp.words.factors import factor_decimals, factor_name, factor_unit
from webapp.words.language import Translate, later, local_number, say

SHOWN = ("temp", "salinity", "alk")
DAYS = 30


@dataclass(frozen=True, slots=True)
class Line:
    """One line and what it shows in words."""

    text: str
    drawn: Sparkline


def water_lines(card: Card, recall: Recall, language: str, now: datetime) -> Markup:
    """The water of its tank, drawn once for all cards of a kind in that tank; nothing for one that is gone."""
    if card.tank_id is None:
        return Markup()
    key = ("card water", card.tank_id, card.profile.key, language, now.date())
    return recall(key, lambda: _draw(_water(card, now)))


def growth_line(card: Card, recall: Recall, says: Translate) -> Markup:
    """How it grew, where it was measured twice or more."""
    line = _line(says, says(later("Size")), card.sizes_mm, None, "mm", 0)
    if line is None:
        return Markup()
    frame = recall("growth line", lambda: _open(line))
    x, y = line.drawn.last
    return frame.fill({"text": line.text, "points": line.drawn.points, "x": x, "y": y})


def _open(line: Line) -> Frame:
    """A line like this one, its points and words still to come."""
    at = Places()
    drawn = replace(line.drawn, points=at.points, last=(at.x, at.y))  # type: ignore[arg-type]
    return Frame(_draw([Line(at.text, drawn)]))  # type: ignore[arg-type]


def _water(card: Card, now: datetime) -> list[Line]:
    since, says, found = now - timedelta(days=DAYS), speech(), []
    for factor in SHOWN:
        band = card.profile.bands.get(factor)
        run = water_since(reading(), memory(), revision(), str(card.tank_id), factor, since)
        line = _line(says, factor_name(factor, says), run, band, factor_unit(factor), factor_decimals(factor))
        found += [line] if line else []
    return found


def _line(
    says: Translate, title: str, run: Sequence[tuple[datetime, float]], band: object, unit: str, places: int
) -> Line | None:
    drawn = sparkline([(at.timestamp() / 3600, value) for at, value in run], band)  # type: ignore[arg-type]
    if drawn is None:
        return None
    ends = {"low": drawn.low, "high": drawn.high}
    told = {name: local_number(says, f"{value:.{places}f}") for name, value in ends.items()}
    days = (run[-1][0] - run[0][0]).days
    sentence = later("%(title)s over %(days)s days: %(low)s to %(high)s %(unit)s")
    if days < 2:
        sentence = later("%(title)s within two days: %(low)s to %(high)s %(unit)s")
    return Line(say(says, sentence, title=title, days=days, unit=unit, **told), drawn)


def _draw(lines: list[Line]) -> Markup:
    return get_template_attribute("card/_lines.html", "lines")(lines) if lines else Markup()
