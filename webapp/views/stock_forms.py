"""Forms of the stock list and of taking specimens in."""

from typing import Any

from wtforms import HiddenField
from wtforms.validators import Regexp

from webapp.schemas.payloads import ORIGINS, STATUSES
from webapp.services.memory import Memory
from webapp.services.recording import new_deed
from webapp.views.fields import ChoiceField, CountField, MoneyField, NumberField, TextField, asked
from webapp.views.specimen_forms import DeedForm, PlaceForm, fill_choices
from webapp.words.terms import ORIGIN, STATUS

STATE_NAMES = {
    "here": "In the shop", "for_sale": "For sale", "held": "On hold", "healing": "Healing",
    "quarantine": "In quarantine",
    "mother": "Mother colonies", "kept": "Kept by the shop", "sold": "Sold", "lost": "Lost",
    "conflict": "To be settled",
    "missing": "Not seen in the last count",
    "everything": "Everything",
}  # fmt: skip
SORT_NAMES = {
    "name": "Name", "place": "Place", "newest": "Newest first", "oldest": "Oldest first", "price": "Price",
    "size": "Largest first",
}  # fmt: skip
ACTIONS = [
    ("labels", "Print labels"), ("well", "Looked: holds, open, clean"), ("move", "Move to…"), ("dip", "Dip…"),
    ("status", "Set state…"), ("price", "Set price…"), ("sell", "To the till"),
]  # fmt: skip


class BulkForm(DeedForm):
    """One deed on several specimens."""

    action = ChoiceField("Do this", ACTIONS, required=True)
    rack = ChoiceField("Where to")
    slot = TextField("First slot, else the next free ones", 3)
    status = ChoiceField("State", [("", "Choose…"), *((key, STATUS[key]) for key in STATUSES)])
    price = MoneyField("Price")

    @property
    def place(self) -> dict[str, Any]:
        """As the payload of 'moved'."""
        tank_id, _, rack_id = self.rack.data.partition(":")
        return {"tank_id": tank_id, "rack_id": rack_id or None, "slot": self.slot.data.upper()}


class IntakeForm(PlaceForm):
    """A specimen that enters the stock."""

    deed = HiddenField(
        default=new_deed, validators=[Regexp(r"^[0-9a-f]{32}$", message="Reload the page and try again.")]
    )
    profile_key = ChoiceField("Kind", required=True)
    name = TextField("Name of this one or of its strain", 80, required=True)
    origin = ChoiceField("Where it comes from", asked([(key, ORIGIN[key]) for key in ORIGINS]), required=True)
    status = ChoiceField("State", [(key, STATUS[key]) for key in STATUSES], required=True, default="quarantine")
    count = CountField("How many alike", 1, 200, default=1)
    rack = ChoiceField("Where to", required=True)  # again, so that the place comes after what it is
    slot = TextField("Slot, as C4", 3)
    size_mm = NumberField("Longest size", 1, 2000, "mm")
    heads = CountField("Heads, polyps or mouths", 1, 5000)
    price = MoneyField("Price")
    supplier = TextField("Supplier (staff only)", 80)
    papers = TextField("Papers: permit number and line, as printed on it", 120)
    cost = MoneyField("Cost (staff only)")

    def ask(self, session: Any, memory: Memory) -> None:
        """Kinds and places as they are now, none of them chosen."""
        fill_choices(self, session, memory)
        self.profile_key.choices = asked(self.profile_key.choices)

    def begin_at(self, rack_id: str, slot: str) -> None:
        """Begin with a slot of a rack's map."""
        for place, _label in self.rack.choices:
            if rack_id and place.endswith(f":{rack_id}"):
                self.rack.data, self.slot.data = place, slot[:3]

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'arrived'."""
        plain = {name: self[name].data for name in ("profile_key", "name", "origin", "status", "size_mm", "heads")}
        texts = {name: self[name].data for name in ("supplier", "papers")}
        return plain | texts | self.place | {"price_cents": self.price.cents, "cost_cents": self.cost.cents}
