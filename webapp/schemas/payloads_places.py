"""What tanks and racks, and the readings taken in them, carry. Units as in `payloads`; a reading names its own."""

from typing import Any

from marshmallow import ValidationError, fields, validates_schema

from webapp.schemas.payloads import _choice, _count, _id, _number, _Payload, _text
from webapp.science.units import QUANTITIES

PURPOSES = ("display", "grow_out", "quarantine", "holding")


class TankSet(_Payload):
    name = _text(60, 1)
    purpose = _choice(PURPOSES)
    volume_l = _number(1, 1_000_000)
    length_cm = _number(5, 2000)
    width_cm = _number(5, 2000)
    height_cm = _number(5, 500)
    light_hours = _number(0, 24)
    note = _text(400)


class RackSet(_Payload):
    tank_id = _id()
    name = _text(60, 1)
    rows = _count(1, 26)
    columns = _count(1, 99)
    depth_cm = _number(0, 500)


class Closed(_Payload):
    note = _text(200)


class Reading(_Payload):
    """One measured quantity of one tank, or of one rack for light and flow. `temp_c`: of the sample, where it
    matters."""

    tank_id = _id(required=True)
    rack_id = _id(allow_none=True)
    quantity = _choice(tuple(QUANTITIES), required=True)
    value = fields.Float(required=True)
    unit = _text(16, 1, required=True)
    method = _text(32)
    temp_c = _number(-2, 45)

    @validates_schema
    def unit_belongs(self, data: dict[str, Any], **_: Any) -> None:
        units = QUANTITIES[data["quantity"]].units
        if data["unit"] not in units:
            raise ValidationError(f"{data['quantity']} is given in {', '.join(units)}", "unit")
