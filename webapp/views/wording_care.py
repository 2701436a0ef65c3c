"""Words that templates ask for about care, looks, rules, pests, growth and places."""

from datetime import datetime

from flask import Flask

from webapp.views.drawn import sparkline
from webapp.words import conditions, corrections, looks, terms


def init_app(app: Flask) -> None:
    """Register them."""
    app.jinja_env.filters["read_moment"] = datetime.fromisoformat
    app.jinja_env.globals.update(
        latin_name=terms.latin_name,
        is_latin=terms.is_latin,
        placement_word=lambda key: terms.PLACEMENT.get(key, key),
        pest_word=lambda key: looks.PEST.get(key, key),
        trouble_word=lambda key: conditions.SEEN.get(key, key),
        dip_caution=lambda code: conditions.CAUTION[code],
        condition_sentence=conditions.condition_sentence,
        met_word=conditions.met_word,
        staff_sentence=corrections.staff_sentence,
        tending_sentence=looks.tending_sentence,
        growth_line=lambda growth: sparkline([(at.timestamp(), value) for at, value in growth.points]),
    )
