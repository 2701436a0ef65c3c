"""Forms that say which events they stand for, so that a phone without signal can keep the events themselves.

Only forms whose fields are the event, and nothing else, are here. Any other form is kept as it was filled in, and the
page it belongs to reads it when it arrives: `webapp/views/kept_forms.py`.
"""

import json
from typing import Any

from flask_wtf import FlaskForm

from webapp.views.look_forms import WELL

#: deed -> kind, and for each key of the payload a fixed value or (field, how it is read, as in `outbox/typed.js`).
EVENTS: dict[str, tuple[str, dict[str, Any]]] = {
    "price": ("priced", {"price_cents": ("price", "cents"), "reason": ("reason", "text")}),
    "note": ("noted", {"text": ("text", "needed"), "public": ("public", "flag")}),
    "release": ("released", {}),
    "sell": ("sold", {"price_cents": ("price", "cents"), "hold_word": ("word", "text")}),
    "well": ("checked", dict(WELL)),
    "return": ("returned", {"status": "quarantine", "reason": ("reason", "text")}),
    "lose": ("lost", {"cause": ("cause", "needed"), "stage": ("stage", "text"), "note": ("note", "text")}),
    "name": ("named", {"name": ("name", "needed")}),
}


def typed(deed: str, form: FlaskForm, subject_id: str, told: str = "") -> dict[str, str]:
    """Attributes of the form: the events it stands for, and what is said when it is done. Empty for any other form."""
    if deed not in EVENTS:
        return {}
    kind, rules = EVENTS[deed]
    payload = {key: _rule(form, rule) for key, rule in rules.items()}
    events = [{"kind": kind, "subject": subject_id, "payload": payload}]
    return {"data-events": json.dumps(events), "data-told": told or "Done."}


def _rule(form: FlaskForm, rule: Any) -> Any:
    if not isinstance(rule, tuple):
        return rule
    field, how = rule
    return {"from": form[field].name, "as": how}
