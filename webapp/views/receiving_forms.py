"""Forms of a shipment: the order, its lines, the bag, what was in it."""

from datetime import datetime
from typing import Any

from flask_wtf.file import FileField
from wtforms import BooleanField
from wtforms.validators import Optional

from webapp.services.receiving import Line, Shipment
from webapp.views.fields import ChoiceField, CountField, MoneyField, NumberField, TextField, asked
from webapp.views.identity import shop
from webapp.views.specimen_forms import DeedForm, PlaceForm
from webapp.words.terms import ORIGIN

SOURCES = [("", "not on the papers"), ("W", "W, wild"), ("R", "R, ranched"), ("D", "D, bred, Appendix I"), ("A", "A"),
           ("C", "C, bred in captivity"), ("F", "F, born in captivity"), ("U", "U, unknown"), ("I", "I, seized"),
           ("O", "O, before the Convention"), ("X", "X, from the sea")]  # fmt: skip
BOUGHT = asked([(key, ORIGIN[key]) for key in ORIGIN if key != "own"])


class MomentField(TextField):
    """A moment on the shop's clock, as browsers send it: 2026-05-04T09:30. `moment` is aware, or None."""

    def __init__(self, label: str, **more: Any):
        super().__init__(label, 16, **more)

    @property
    def moment(self) -> datetime | None:
        """The moment in the shop's time zone."""
        return datetime.fromisoformat(self.data).replace(tzinfo=shop().zone) if self.data else None

    def process_formdata(self, valuelist: list[Any]) -> None:
        """Read the text; anything that is no moment is named in the error."""
        self.data = str(valuelist[0]).strip()[:16] if valuelist else ""
        if self.data:
            try:
                year = datetime.fromisoformat(self.data).year
            except ValueError:
                raise ValueError("Give a day and a time, as 2026-05-04T09:30.") from None
            if not 2000 <= year < 2100:
                self.data = ""
                raise ValueError(f"The year {year} is not meant. Give a day and a time, as 2026-05-04T09:30.")


class ShipmentForm(DeedForm):
    """An order before the box arrives."""

    supplier = TextField("Supplier", 80, required=True)
    invoice = TextField("Order or invoice number", 80)
    papers = TextField("Permit number, as printed on it", 120)
    expected_at = MomentField("Expected")
    claim_h = NumberField("What arrives dead is claimed within", 0.5, 720, "h")
    freight = MoneyField("Freight, papers and duties, all together")
    note = TextField("Note", 400)

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'shipment_set'."""
        given: dict[str, Any] = {key: self[key].data for key in ("supplier", "invoice", "papers", "claim_h", "note")}
        given |= {"expected_at": _iso(self.expected_at.moment), "freight_cents": self.freight.cents}
        return {key: value for key, value in given.items() if value is not None}


class OpenForm(DeedForm):
    """The box on the bench."""

    packed_at = MomentField("Packed, as the papers say")
    opened_at = MomentField("Opened")
    box_temp_c = NumberField("Temperature in the box", -5, 50, "°C")

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'shipment_set'."""
        given: dict[str, Any] = {key: _iso(self[key].moment) for key in ("packed_at", "opened_at")}
        given["box_temp_c"] = self.box_temp_c.data
        return {key: value for key, value in given.items() if value is not None}


class LineForm(DeedForm):
    """A line of the order."""

    profile_key = ChoiceField("Kind", required=True)
    name = TextField("Name of this one or of its strain", 80, required=True)
    count = CountField("How many", 1, 1000, required=True)
    cost = MoneyField("Cost of each")
    origin = ChoiceField("Where they come from", BOUGHT, required=True)
    as_on_papers = TextField("Name as on the papers", 120)
    papers = TextField("Permit and line, where it differs from the shipment's", 120)
    source_code = ChoiceField("Source code on the permit", SOURCES)

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'shipment_line', less the id."""
        keys = ("profile_key", "name", "count", "origin", "as_on_papers", "papers", "source_code")
        return {key: self[key].data for key in keys} | {"cost_cents": self.cost.cents}


class BagForm(DeedForm):
    """A bag before it is emptied."""

    tank = ChoiceField("It goes into", required=True)
    bag_temp_c = NumberField("Temperature in the bag", 0, 45, "°C")
    bag_salinity_ppt = NumberField("Salinity in the bag", 5, 60, "ppt")
    bag_ph = NumberField("pH in the bag", 5, 10)
    bag_l = NumberField("Water in the bag", 0.05, 200, "L")
    ammonia_smell = BooleanField("It smells of ammonia")

    def validate(self, extra_validators: Any = None) -> bool:
        """Something must have been found out about the bag."""
        if not super().validate(extra_validators):
            return False
        if not any(value for key, value in self.payload.items() if key != "tank_id"):
            self.form_errors = ["Give a reading of the bag, or say that it smells."]
            return False
        return True

    @property
    def payload(self) -> dict[str, Any]:
        """As the payload of 'bag_measured', less the line."""
        keys = ("bag_temp_c", "bag_salinity_ppt", "bag_ph", "bag_l", "ammonia_smell")
        return {"tank_id": self.tank.data} | {key: self[key].data for key in keys}


class ContentsForm(PlaceForm):
    """What was in the bag, and where the living go."""

    alive = CountField("Alive", 0, 200, required=True)
    dead = CountField("Dead", 0, 200, required=True)
    picture = FileField("Picture of the dead, for the claim", [Optional()])


def fill_shipment(form: ShipmentForm, shipment: Shipment) -> None:
    """Begin with the order as it stands."""
    for key in ("supplier", "invoice", "papers", "note", "claim_h"):
        form[key].data = getattr(shipment, key)
    form.freight.data = None if shipment.freight_cents is None else shipment.freight_cents / 100
    form.expected_at.data = _typed(shipment.expected_at)


def fill_box(form: OpenForm, shipment: Shipment) -> None:
    """Begin with the box as it was noted."""
    for key in ("packed_at", "opened_at"):
        form[key].data = _typed(getattr(shipment, key))
    form.box_temp_c.data = shipment.box_temp_c


def fill_line(form: LineForm, line: Line) -> None:
    """Begin with the line as it stands."""
    form.profile_key.data = line.kind.key
    for key in ("name", "count", "origin", "as_on_papers", "papers", "source_code"):
        form[key].data = getattr(line, key)
    form.cost.data = None if line.cost_cents is None else line.cost_cents / 100


def _typed(moment: datetime | None) -> str:
    return f"{moment.astimezone(shop().zone):%Y-%m-%dT%H:%M}" if moment else ""


def _iso(moment: datetime | None) -> str | None:
    return moment.isoformat() if moment else None
