"""What is the same on every card of a kind, drawn once and kept; and the lines that are one specimen's own.

A card is asked for dozens of times a day for animals never asked about before, and most of its text hangs on the kind
alone. Only that is kept: per language, and only while the database stays as it is.
"""

from dataclasses import dataclass

from flask import get_template_attribute
from markupsafe import Markup, escape

from webapp.fit.profile import Profile
from webapp.fit.specimen import UsedTo
from webapp.services.own_evidence import evidence
from webapp.views.language import language, translate
from webapp.views.saving import memory, now, reading, revision
from webapp.words.factors import factor_decimals
from webapp.words.language import later, local_number, say


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


def here(used_to: dict[str, UsedTo], factor: str) -> Markup:
    """What one specimen is used to here, or that nobody measured it."""
    used = used_to.get(factor)
    if used is None:
        return escape(translate(later("here: not measured")))
    places = factor_decimals(factor)
    median, low, high = (_number(value, places) for value in (used.median, used.low, used.high))
    return escape(say(translate, later("here %(median)s (%(low)s–%(high)s)"), median=median, low=low, high=high))


def _number(value: float, places: int) -> str:
    text = f"{value:.{places}f}"
    return local_number(translate, text.rstrip("0").rstrip(".") if places else text)


def _draw(profile: Profile) -> KindParts:
    own = evidence(reading(), memory(), revision(), profile.key, now())
    make = {name: get_template_attribute("card/_kind.html", name) for name in ("lines", "cautions", "before", "after")}
    make |= {name: get_template_attribute("card/_kind.html", name) for name in ("record", "about", "tail")}
    rows = [(factor, make["before"](factor, band), make["after"](factor, own)) for factor, band in profile.bands.items()]
    return KindParts(
        make["lines"](profile), make["cautions"](profile), rows, make["record"](own), make["about"](profile),
        make["tail"](profile),
    )  # fmt: skip
