"""Words and choices that templates ask for: names of quantities and units, states, sheets."""

from typing import Any

from flask import Flask, request, url_for

from webapp.science.units import QUANTITIES, from_canonical
from webapp.services.readings import Latest
from webapp.services.shop import CURRENCIES
from webapp.views import wording_care
from webapp.views.identity import shop
from webapp.words import basis, factors, terms
from webapp.words.choices import METHOD_NAMES
from webapp.words.history import history_sentence
from webapp.words.quantities import quantity_name, unit_label
from webapp.words.unbroken import NO_BREAK


def init_app(app: Flask) -> None:
    """Register them."""
    wording_care.init_app(app)
    app.jinja_env.filters["place_option"] = lambda place: (place.key, f"{place.name}: {place.expected}")
    app.jinja_env.globals.update(
        quantity_name=quantity_name,
        unit_label=unit_label,
        unit_choices=unit_choices,
        as_typed=as_typed,
        in_usual_unit=in_usual_unit,
        status_word=lambda key: terms.STATUS.get(key, key),
        origin_word=lambda key: terms.ORIGIN.get(key, key),
        conflict_word=lambda key: terms.CONFLICT.get(key, key),
        group_word=lambda key: terms.GROUP.get(key, key),
        history_sentence=history_sentence,
        currency=lambda: CURRENCIES[shop().currency][0],
        sheet_options=lambda sheets: [(key, sheet.name) for key, sheet in sheets.items()],
        tank_options=lambda rows: [(row.id, row.name) for row in rows],
        groups_translated=lambda groups: list(groups.items()),
        page_url=page_url,
        factor_name=factors.factor_name,
        factor_unit=factors.factor_unit,
        factor_decimals=factors.factor_decimals,
        basis_word=basis.basis_word,
        basis_mark=basis.basis_mark,
        first_two=lambda choices: [(choice[0], choice[1]) for choice in choices],
        method_options=lambda methods: [(one.key, METHOD_NAMES[one.key]) for one in methods],
        mate_options=lambda mates: [(key, mate.plain_name) for key, mate in mates.items()],
        sheet_choices=lambda sheets: [(str(n), f"Sheet {n}, issued {at:%d.%m.%Y}") for n, at in sheets],
    )


def as_typed(one: Latest) -> str:
    """A reading as it was typed, with the decimals that its unit is read to; one more where it was typed."""
    unit = QUANTITIES[one.quantity].units[one.unit]
    is_finer = abs(one.typed - round(one.typed, unit.decimals)) > 1e-9
    text = f"{one.typed:.{unit.decimals + is_finer}f}"
    return f"{text}{NO_BREAK}{unit.label}".strip()


def in_usual_unit(one: Latest) -> str:
    """A reading that was typed in another unit than the shop's usual one, in that one as well; else ''."""
    usual = shop().unit(one.quantity)
    if one.unit == usual:
        return ""
    try:
        value = from_canonical(one.quantity, one.value, usual)
    except ValueError:  # an equation of state that does not reach so far
        return ""
    unit = QUANTITIES[one.quantity].units[usual]
    return f" ({value:.{unit.decimals}f}{NO_BREAK}{unit.label})"


def unit_choices(quantity: str) -> list[tuple[str, str]]:
    """(key, label) of every unit of a quantity."""
    return [(unit.key, unit.label) for unit in QUANTITIES[quantity].units.values()]


def page_url(page: int) -> str:
    """This page's address with another page number."""
    assert request.endpoint is not None
    given: dict[str, Any] = request.args.to_dict() | (request.view_args or {})
    return url_for(request.endpoint, **given | {"page": page})
