"""Forms of tanks: what is done to one, and the boxes of a set of readings."""

from collections.abc import Mapping
from math import inf, isfinite
from typing import Any

from wtforms import TextAreaField
from wtforms.validators import InputRequired, Length

from webapp.schemas.payloads_care import FOODS
from webapp.services import readings
from webapp.views.fields import ChoiceField, NumberField, TextField, asked
from webapp.views.identity import shop
from webapp.views.specimen_forms import DeedForm
from webapp.words.looks import FOOD


class FeedForm(DeedForm):
    """Fed."""

    food = ChoiceField("With what", asked([(key, FOOD[key]) for key in FOODS]), required=True)
    note = TextField("What was seen", 400)


class DoseForm(DeedForm):
    """Something added to the water."""

    what = TextField("What", 60, required=True)
    amount = NumberField("How much", 0, 100_000)
    unit = ChoiceField("In", [("", "Choose…"), ("ml", "mL"), ("g", "g")])
    note = TextField("Note", 400)

    def validate(self, extra_validators: Any = None) -> bool:
        """An amount needs its unit: ten grams filed as millilitres would be untrue."""
        if not super().validate(extra_validators):
            return False
        if self.amount.data is not None and not self.unit.data:
            self.unit.errors = ["Say whether that is mL or g."]
            return False
        return True


class ChangeForm(DeedForm):
    """A water change."""

    litres = NumberField("Water changed", 0.1, 100_000, "L", required=True)
    note = TextField("Note", 400)


class ServiceForm(DeedForm):
    """Equipment."""

    what = TextField("What was cleaned, set, changed or failed", 120, required=True)
    note = TextField("Note", 400)


class TankNoteForm(DeedForm):
    """A note."""

    text = TextAreaField("Note", [InputRequired("Write a note."), Length(max=1000, message="At most 1000 characters.")])


#: name in the address -> (its form, the kind of event, the words on its drawer, on its button, when it is done)
TENDING: dict[str, tuple[type[DeedForm], str, str, str, str]] = {
    "feed": (FeedForm, "fed", "Feed", "Fed", "Feeding noted."),
    "dose": (DoseForm, "dosed", "Dose", "Dosed", "Dose noted."),
    "change": (ChangeForm, "water_changed", "Water change", "Changed", "Water change noted."),
    "service": (ServiceForm, "serviced", "Equipment", "Keep", "Equipment noted."),
    "note": (TankNoteForm, "tank_noted", "Note", "Keep the note", "Note kept."),
}


def tending_forms(failed: str = "", form: DeedForm | None = None) -> dict[str, DeedForm]:
    """A fresh form for everything that is done to a tank; the one that failed as it was typed."""
    return {name: form if form and name == failed else made[0](None, prefix=name) for name, made in TENDING.items()}


def given(form: DeedForm) -> dict[str, Any]:
    """The fields of a form as a payload, without those where nothing was said."""
    said = ((field.short_name, field.data) for field in form if field.short_name not in ("deed", "csrf_token"))
    return {name: value for name, value in said if value not in (None, "")}


def typed_readings(typed: Mapping[str, str], rack_ids: list[str], errors: dict[str, str]) -> dict[str, dict[str, Any]]:
    """The boxes that were filled: 'alk', 'alk_unit', 'alk_method'; at racks 'par:RACK'. By the name of the box."""
    names = [(quantity, quantity, None) for quantity in readings.LOGGED]
    names += [(f"{quantity}:{rack_id}", quantity, rack_id) for quantity in readings.AT_RACK for rack_id in rack_ids]
    found = {}
    for name, quantity, rack_id in names:
        text = typed.get(name, "").strip().replace(",", ".")
        if not text:
            continue
        try:
            value = float(text)
        except ValueError:
            value = inf
        if not isfinite(value):
            errors[name] = f"'{text[:20]}' is not a number. Type digits, as 8.2."
            continue
        unit = typed.get(f"{name}_unit") or shop().unit(quantity)
        one = {"quantity": quantity, "value": value, "unit": unit, "method": typed.get(f"{name}_method", "")[:32]}
        found[name] = one | ({"rack_id": rack_id} if rack_id else {})
    return found
