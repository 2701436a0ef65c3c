"""What tanks and racks, and the readings taken in them, carry. Units as in `payloads`; a reading names its own."""

from typing import Any

from marshmallow import ValidationError, fields, validates_schema

from webapp.schemas.payload_fields import Payload, choice_field, count_field, id_field, number_field, text_field
from webapp.science.units import QUANTITIES

PURPOSES = ("display", "grow_out", "quarantine", "holding")


class TankSet(Payload):
    name = text_field(60, 1)
    purpose = choice_field(PURPOSES)
    volume_l = number_field(1, 1_000_000)
    length_cm = number_field(5, 2000)
    width_cm = number_field(5, 2000)
    height_cm = number_field(5, 500)
    light_hours = number_field(0, 24)
    note = text_field(400)


class RackSet(Payload):
    tank_id = id_field()
    name = text_field(60, 1)
    rows = count_field(1, 26)
    columns = count_field(1, 99)
    depth_cm = number_field(0, 500)


class Closed(Payload):
    note = text_field(200)


class Reading(Payload):
    """One measured quantity of one tank, or of one rack for light and flow. `temp_c`: of the sample, where it
    matters."""

    tank_id = id_field(required=True)
    rack_id = id_field(allow_none=True)
    quantity = choice_field(tuple(QUANTITIES), required=True)
    value = fields.Float(required=True)
    unit = text_field(16, 1, required=True)
    method = text_field(32)
    temp_c = number_field(-2, 45)

    @validates_schema
    def unit_belongs(self, data: dict[str, Any], **_: Any) -> None:
        units = QUANTITIES[data["quantity"]].units
        if data["unit"] not in units:
            raise ValidationError(f"{data['quantity']} is given in {', '.join(units)}", "unit")
