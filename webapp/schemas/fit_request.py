"""What the JSON door and the command line take: a tank, and the animal it is asked for.

    name       value
    tank       as in schemas.tank
    profile    key of a kind; or
    code       of a tag: the animal behind it, with its size and what it is used to here
    size_cm    longest dimension, with `profile` only
    used_to    {quantity: median it lives in}, canonical units, with `profile` only:
               temp salinity alk ca mg ph no3 po4 par flow light_hours
"""

from dataclasses import dataclass, field
from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields, post_load, validate, validates_schema

from webapp.errors import BadInput
from webapp.fit.profile import BANDED
from webapp.fit.specimen import UsedTo
from webapp.fit.tank import BuyerTank
from webapp.schemas.messages import flatten
from webapp.schemas.tank import TankSchema

USED_TO = (*BANDED, "light_hours")
TAKEN_AS = 3
"""Readings that a typed median stands for: as many as the check asks of a median of the shop's own."""


@dataclass(frozen=True, slots=True)
class FitRequest:
    """Either `profile` or `code` is set, the other is ''."""

    tank: BuyerTank
    profile: str = ""
    code: str = ""
    size_cm: float | None = None
    used_to: dict[str, float] = field(default_factory=dict)

    @property
    def conditions(self) -> dict[str, UsedTo]:
        """`used_to` as the check takes it: typed medians are taken as known."""
        return {name: UsedTo(value, value, value, TAKEN_AS, 0.0) for name, value in self.used_to.items()}


MOST = {"temp": 45.0, "salinity": 45.0, "light_hours": 24.0}
"""The most that may be typed; elsewhere any number that is no slip."""


def _median(name: str) -> fields.Float:
    return fields.Float(allow_nan=False, validate=validate.Range(0, MOST.get(name, 10_000.0)))


_UsedToShape = Schema.from_dict({name: _median(name) for name in USED_TO}, name="_UsedToShape")


class FitRequestSchema(Schema):
    """See the table at the head of this file."""

    class Meta:
        unknown = RAISE

    tank = fields.Nested(TankSchema, required=True)
    profile = fields.String(validate=validate.Length(1, 64))
    code = fields.String(validate=validate.Length(1, 64))
    size_cm = fields.Float(allow_nan=False, validate=validate.Range(0, 300, min_inclusive=False))
    used_to = fields.Nested(_UsedToShape)

    @validates_schema
    def _one_animal(self, data: dict[str, Any], **_: Any) -> None:
        if ("profile" in data) == ("code" in data):
            raise ValidationError("Name the animal by its profile or by its code, one of the two.", "profile")
        if "code" in data and ("size_cm" in data or "used_to" in data):
            raise ValidationError("size_cm and used_to go with a profile; a code brings its own.", "code")

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> FitRequest:
        return FitRequest(**data)


def fit_request_from_json(form: Any) -> FitRequest:
    """The request of a JSON form. Raises BadInput whose sentence names every path; `field` is the first of them."""
    try:
        return FitRequestSchema().load(form)
    except ValidationError as error:
        wrong = flatten(error.messages)
        sentence = "; ".join(f"{path or 'the request'}: {said}" for path, said in wrong)
        raise BadInput(sentence, wrong[0][0] or None) from error
