"""Forms of looking at a specimen and of dipping it."""

from typing import Any

from flask_wtf.file import FileField
from wtforms import BooleanField
from wtforms.validators import Optional

from webapp.schemas.payloads_care import COLOURS, DIPS, FOODS, RESPONSES
from webapp.views.fields import ChoiceField, NumberField, TextField, asked
from webapp.views.specimen_forms import DeedForm
from webapp.words.corrections import RESPONSE
from webapp.words.looks import COLOUR, DIP, FOOD

ASKED = {
    "holds": "Holds when gently moved",
    "edge_closed": "The cut has closed",
    "open": "Fully open",
    "ate": "Ate",
    "pest_free": "No pest seen, and it was looked for",
    "bitten": "New bite marks",
    "slime": "Brown slime or rot",
}
ANSWERS = [("", "not looked"), ("y", "yes"), ("n", "no")]
WELL = {"holds": True, "edge_closed": True, "open": True, "pest_free": True, "bitten": False, "slime": False}


def _asked(key: str) -> ChoiceField:
    return ChoiceField(ASKED[key], ANSWERS)


class LookForm(DeedForm):
    """One look at it; what was not looked at stays empty."""

    holds = _asked("holds")
    edge_closed = _asked("edge_closed")
    open = _asked("open")
    ate = _asked("ate")
    pest_free = _asked("pest_free")
    bitten = _asked("bitten")
    slime = _asked("slime")
    colour = ChoiceField("Colour", [("", "not looked"), *((key, COLOUR[key]) for key in COLOURS)])
    new_tissue_mm = NumberField("New tissue on the plug", 0, 500, "mm")
    note = TextField("Note", 400)
    picture = FileField("Picture, for the shop only", [Optional()])

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'checked'."""
        answers = {key: self[key].data == "y" for key in ASKED if self[key].data}
        given = {"colour": self.colour.data, "new_tissue_mm": self.new_tissue_mm.data, "note": self.note.data}
        return answers | {key: value for key, value in given.items() if value not in (None, "")}

    def validate(self, extra_validators: Any = None) -> bool:
        """Something must have been looked at."""
        if not super().validate(extra_validators):
            return False
        if not self.payload:
            self.form_errors = ["Say what you looked at."]
            return False
        return True


class WellForm(DeedForm):
    """All is well, in one tap."""

    payload = WELL


class FeedForm(DeedForm):
    """One was fed by hand."""

    food = ChoiceField("Food", asked([(key, FOOD[key]) for key in FOODS]), required=True)
    response = ChoiceField("What it did", asked([(key, RESPONSE[key]) for key in RESPONSES]), required=True)
    note = TextField("Note", 400)

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'hand_fed'."""
        return {key: self[key].data for key in ("food", "response", "note")}


class DipForm(DeedForm):
    """A dip."""

    dip = ChoiceField("Which dip", asked([(key, DIP[key]) for key in DIPS]), required=True)
    strength = TextField("How strong, as the label says", 80)
    minutes = NumberField("For", 0, 240, "min")
    temp_c = NumberField("Temperature of the dip", 10, 40, "°C")
    eggs_seen = BooleanField("Eggs were seen and scraped off")
    fell_off = TextField("What fell off", 200)
    repeat = BooleanField("Repeat it when eggs have hatched", default=True)
    picture = FileField("Picture, for the shop only", [Optional()])

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'dipped'."""
        return {
            key: self[key].data for key in ("dip", "strength", "minutes", "temp_c", "eggs_seen", "fell_off", "repeat")
        }
