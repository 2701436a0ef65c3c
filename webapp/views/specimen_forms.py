"""The forms of every deed on a specimen. Each carries the id of its deed, so that a double tap does it once."""

from typing import Any

from flask_wtf import FlaskForm
from flask_wtf.file import FileField, FileRequired
from wtforms import BooleanField, HiddenField, TextAreaField
from wtforms.validators import InputRequired, Length, Regexp

from webapp.schemas.payloads import CAUSES, STAGES, STATUSES
from webapp.services import places
from webapp.services.memory import Memory
from webapp.services.panel import Panel
from webapp.services.profiles import newest_profiles
from webapp.services.recording import new_deed
from webapp.services.shop import revision
from webapp.views.fields import ChoiceField, CountField, MoneyField, NumberField, TextField, asked, put_error
from webapp.words.sales import STAGE
from webapp.words.terms import CAUSE, STATUS

__all__ = ["put_error"]
HOLD_HOURS = (("4", "4 hours"), ("24", "1 day"), ("72", "3 days"), ("168", "1 week"), ("336", "2 weeks"))


class DeedForm(FlaskForm):
    """Only the deed."""

    deed = HiddenField(
        default=new_deed, validators=[Regexp(r"^[0-9a-f]{32}$", message="Reload the page and try again.")]
    )


class StatusForm(DeedForm):
    """How it is now."""

    status = ChoiceField("State", [(key, STATUS[key]) for key in STATUSES], required=True)


class MeasureForm(DeedForm):
    """A size or a count."""

    is_asking = False
    size_mm = NumberField("Longest size", 1, 2000, "mm")
    across_mm = NumberField("The size across it", 1, 2000, "mm")
    tall_mm = NumberField("Its height", 1, 2000, "mm")
    heads = CountField("Heads, polyps or mouths", 1, 5000)
    meant = BooleanField("Yes, I mean it")

    @property
    def size(self) -> dict[str, Any]:
        """As the payload of 'measured'."""
        given = {"size_mm": self.size_mm.data, "heads": self.heads.data}
        more = {"across_mm": self.across_mm.data, "tall_mm": self.tall_mm.data}
        return given | {key: value for key, value in more.items() if value is not None}

    def validate(self, extra_validators: Any = None) -> bool:
        """One of the two is needed."""
        if not super().validate(extra_validators):
            return False
        if self.size_mm.data is None and self.heads.data is None:
            self.form_errors = ["Give a size or a count."]
            return False
        longest, across = self.size_mm.data, self.across_mm.data
        if across is not None and (longest is None or across > longest):
            self.across_mm.errors = ["The longest size comes first, then the one across it."]
            return False
        return True


class PlaceForm(DeedForm):
    """Rack and slot, or a tank alone. `rack` is 'TANK' or 'TANK:RACK'."""

    rack = ChoiceField("Where to", required=True)
    slot = TextField("Slot, as C4", 3)

    @property
    def place(self) -> dict[str, Any]:
        """As the payload of 'moved'."""
        tank_id, _, rack_id = self.rack.data.partition(":")
        return {"tank_id": tank_id, "rack_id": rack_id or None, "slot": self.slot.data.upper()}


class MoveForm(PlaceForm):
    """Somewhere else."""


class PriceForm(DeedForm):
    """A new price; empty for none."""

    price = MoneyField("Price")
    reason = TextField("Why", 200)

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'priced'."""
        return {"price_cents": self.price.cents, "reason": self.reason.data}


class NoteForm(DeedForm):
    """Something worth keeping."""

    text = TextAreaField("Note", [InputRequired("Write a note."), Length(max=1000, message="At most 1000 characters.")])
    public = BooleanField("Customers may read this on the card")

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'noted'."""
        return {"text": self.text.data.strip(), "public": self.public.data}


class PhotoForm(DeedForm):
    """A picture from the phone."""

    picture = FileField("Picture", [FileRequired("Take or choose a picture.")])


class HoldForm(DeedForm):
    """Kept for whoever says the word."""

    word = TextField("Claim word: a word the buyer will say, not a name", 40, required=True)
    hours = ChoiceField("For", list(HOLD_HOURS), required=True)
    deposit = MoneyField("Deposit")

    def validate(self, extra_validators: Any = None) -> bool:
        """Hours become a number."""
        if not super().validate(extra_validators):
            return False
        self.hours.data = int(self.hours.data)
        return True


class SellForm(DeedForm):
    """Sold, for a price, perhaps against the word of a hold."""

    price = MoneyField("Price paid")
    word = TextField("Claim word, if it was on hold", 40)

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'sold'."""
        return {"price_cents": self.price.cents, "hold_word": self.word.data}


class ReturnForm(DeedForm):
    """Came back: never straight into the stock."""

    reason = TextField("Why it came back", 200)

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'returned'."""
        return {"status": "quarantine", "reason": self.reason.data}


class LoseForm(DeedForm):
    """It died."""

    cause = ChoiceField("Cause", asked([(key, CAUSE[key]) for key in CAUSES]), required=True)
    stage = ChoiceField("When", [("", "As it stood"), *((key, STAGE[key]) for key in STAGES)])
    note = TextField("Note", 400)

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'lost'."""
        return {"cause": self.cause.data, "stage": self.stage.data or "", "note": self.note.data}


class SplitForm(PlaceForm):
    """A piece came off by itself."""

    size_mm = NumberField("Size of the new piece", 1, 2000, "mm")
    heads = CountField("Heads of the new piece", 1, 5000)
    left_size_mm = NumberField("Size of what is left", 1, 2000, "mm")
    left_heads = CountField("Heads left", 1, 5000)


class MergeForm(DeedForm):
    """Two grew into one."""

    into = TextField("Code of the one it joined", 12, required=True)
    size_mm = NumberField("Size of both together", 1, 2000, "mm")
    heads = CountField("Heads of both together", 1, 5000)


class KindForm(DeedForm):
    """The kind was entered wrongly."""

    profile_key = ChoiceField("The right kind", required=True)
    name = TextField("Name", 80, required=True)
    with_frags = BooleanField("Its frags too", default=True)


class MotherForm(DeedForm):
    """The mother colony was entered wrongly."""

    mother = TextField("Code of the right mother colony", 12, required=True)


class NameForm(DeedForm):
    """Another name."""

    name = TextField("Name", 80, required=True)


def fill_choices(form: FlaskForm, session: Any, memory: Memory) -> None:
    """Places and kinds are known only when the page is made."""
    if "rack" in form._fields:
        form.rack.choices = asked(place_choices(session))
    if "profile_key" in form._fields:
        form.profile_key.choices = kind_choices(session, memory)


def fill_from(form: FlaskForm, panel: Panel) -> None:
    """Begin each form with how things are."""
    present = {
        "status": panel.status, "name": panel.name, "profile_key": panel.profile.key, "slot": "",
        "rack": f"{panel.tank_id}:{panel.rack_id}" if panel.rack_id else panel.tank_id,
    }  # fmt: skip
    for name, value in present.items():
        if name in form._fields and value is not None:
            form[name].data = value
    if "price" in form._fields and panel.price_cents is not None:
        form.price.data = panel.price_cents / 100


def place_choices(session: Any) -> list[tuple[str, str]]:
    """Every tank, and every rack in it."""
    racks: dict[str, list[places.Rack]] = {}
    for rack in places.racks(session):
        racks.setdefault(rack.tank_id, []).append(rack)
    choices = []
    for tank in places.tanks(session):
        choices += [(f"{tank.id}:{rack.id}", f"{tank.name}, {rack.name}") for rack in racks.get(tank.id, ())]
        choices.append((tank.id, f"{tank.name}, no rack"))
    return choices


def kind_choices(session: Any, memory: Memory) -> list[tuple[str, str]]:
    """Every kind by its trade name."""
    profiles = newest_profiles(session, memory, revision(session)).values()
    return sorted(
        ((one.key, f"{one.trade_name} ({one.scientific})") for one in profiles), key=lambda pair: pair[1].lower()
    )
