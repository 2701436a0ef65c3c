"""What is the same on every card of a kind, drawn once and kept; and the lines that are one specimen's own.

A card is asked for dozens of times a day for animals never asked about before, and most of its text hangs on the kind
alone. Only that is kept: per language, and only while the database stays as it is.
"""

from dataclasses import dataclass

from flask import get_template_attribute
from markupsafe import Markup

from webapp.fit.profile import Profile
from webapp.fit.specimen import UsedTo
from webapp.services.own_evidence import evidence
from webapp.services.telling import Told
from webapp.views.identity import shop
from webapp.views.language import language
from webapp.views.saving import memory, now, reading, revision
from webapp.words import dates
from webapp.words.factors import factor_decimals
from webapp.words.history import history_sentence
from webapp.words.language import Translate, later, local_number


@dataclass(frozen=True, slots=True)
class KindParts:
    """Finished pieces of a card. `rows`: factor, what stands before and after the line of what it is used to."""

    lines: Markup
    cautions: Markup
    rows: list[tuple[str, Markup, Markup]]
    record: Markup
    about: Markup
    tail: Markup


def kind_parts(profile: Profile) -> KindParts:
    """The pieces of one kind, in the language of this page."""
    key = ("card parts", profile.key, language().key, now().date())
    return memory().get(revision(), key, lambda: _draw(profile))


def used_lines(used_to: dict[str, UsedTo], says: Translate) -> dict[str, str]:
    """Factor -> what one specimen is used to here."""
    sentence = says(later("here %(median)s (%(low)s–%(high)s)"))
    lines = {}
    for factor, used in used_to.items():
        places = factor_decimals(factor)
        values = {"median": used.median, "low": used.low, "high": used.high}
        lines[factor] = sentence % {name: _number(value, places, says) for name, value in values.items()}
    return lines


def story_lines(story: list[Told], says: Translate) -> list[tuple[str, str, str]]:
    """(day, day in words, sentence) of everything that happened, newest first."""
    zone = shop().zone
    lines = []
    for told in reversed(story):
        at = told.at.astimezone(zone)
        lines.append((at.date().isoformat(), dates.long_day(says, at), history_sentence(told.kind, told.values, says)))
    return lines


def _number(value: float, places: int, says: Translate) -> str:
    text = f"{value:.{places}f}"
    return local_number(says, text.rstrip("0").rstrip(".") if places else text)


def _draw(profile: Profile) -> KindParts:
    own = evidence(reading(), memory(), revision(), profile.key, now())
    make = {name: get_template_attribute("card/_kind.html", name) for name in ("lines", "cautions", "before", "after")}
    make |= {name: get_template_attribute("card/_kind.html", name) for name in ("record", "about", "tail")}
    rows = [(factor, make["before"](factor, band), make["after"](factor, own)) for factor,
    band in profile.bands.items()]
    return KindParts(
        make["lines"](profile), make["cautions"](profile), rows, make["record"](own), make["about"](profile),
        make["tail"](profile),
    )  # fmt: skip
