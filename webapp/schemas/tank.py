"""The buyer's tank as JSON, every value as typed with its unit: what the JSON door and the command line take.

    name                    value
    readings                {quantity: measured, or a list of two or more of them}
                            quantities: temp salinity alk ca mg ph no3 po4 ammonia nitrite
    volume                  measured: l, gal_us, gal_imp, or gal where the buyer does not know which
    length width height     measured: cm or in, inside of the glass, height to the water's surface
    light                   {"way": "meter", "par", "depth_cm", "corrected_for_water"}
                            {"way": "lux", "lux", "depth_cm" (0 = surface), "colour", "instrument"}
                            {"way": "fixture", "kind", "count", "watts" each, "height_cm" above the water}
                            {"way": "words", "word"}; "hours" a day goes with every way
    flow                    {"way": "pumps", "pumps": [{"rated_l_h", "kind", "count"}]}
                            {"way": "words", "word"} or {"way": "meter", "speed_cm_s"}
    tankmates               [key, ...] of tankmates.json; [] says there are none
    neighbours              [{"key": profile key, "gap_cm"}]; [] says there are none
    free_space_cm           clear width at the planned spot
    age_months              of the tank
    feeding_days_per_week   0 to 7
    summer_high             measured: the warmest the water gets
    carbon open_pumps       true or false: activated carbon in use; pump or overflow an animal could be drawn into
    swings                  {quantity: most it changes in a day, canonical unit}
    answers                 [string, ...]: 'really meant' answers, as a question's values give them

A measured value is {"value": 7.9, "unit": "dkh", "method": "drop_kit"}; the method may be left out. Everything may be
left out; nothing is guessed. Units are keys or labels of science.units; 'mg_l_unsure' is for kits of unknown form.
"""

from collections.abc import Mapping
from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields, post_load, validate

from webapp.errors import BadInput
from webapp.fit.tank import BuyerTank, FlowSaid, LightSaid, Measured, Neighbour, PumpSaid
from webapp.schemas.choices import (
    FLOW_WORDS,
    INSTRUMENTS,
    LAMP_KINDS,
    LIGHT_WORDS,
    LUX_COLOURS,
    METHOD_KEYS,
    PUMP_KINDS,
    READINGS,
    UNIT_KEYS,
    unit_key,
)
from webapp.schemas.messages import flatten
from webapp.schemas.tankmates import load_tankmates


def _number(low: float, high: float, **more: Any) -> fields.Float:
    return fields.Float(allow_none=True, allow_nan=False, validate=validate.Range(low, high), **more)


def _swing() -> fields.Float:
    return fields.Float(allow_nan=False, validate=validate.Range(0, 1000))


class _Shape(Schema):
    class Meta:
        unknown = RAISE


class _MeasuredShape(_Shape):
    """One value of one quantity; its unit and method must be of that quantity."""

    def __init__(self, quantity: str):
        self.quantity = quantity
        super().__init__()

    value = fields.Float(required=True, allow_nan=False)
    unit = fields.String(required=True)
    method = fields.String(load_default="")

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> Measured:
        unit, method = unit_key(self.quantity, data["unit"]), data["method"]
        if unit is None:
            known = ", ".join(UNIT_KEYS[self.quantity])
            raise ValidationError(f"{data['unit']!r} is not a unit of {self.quantity}; choose of: {known}.", "unit")
        if method and method not in METHOD_KEYS.get(self.quantity, ()):
            known = ", ".join(METHOD_KEYS.get(self.quantity, ())) or "none"
            raise ValidationError(
                f"{method!r} is not a way of measuring {self.quantity}; choose of: {known}.", "method"
            )
        return Measured(data["value"], unit, method)


class _OneOrMore(fields.Field):
    """A measured value, or a list of them, of one quantity; kept as a tuple in the order typed."""

    def __init__(self, quantity: str):
        self.shape = _MeasuredShape(quantity)
        super().__init__()

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **_: Any) -> tuple:
        if not isinstance(value, list):
            return (self.shape.load(value),)
        loaded, wrong = [], {}
        for index, one in enumerate(value):
            try:
                loaded.append(self.shape.load(one))
            except ValidationError as error:
                wrong[index] = error.messages
        if wrong:
            raise ValidationError(wrong)
        return tuple(loaded)


_ReadingsShape = _Shape.from_dict({quantity: _OneOrMore(quantity) for quantity in READINGS}, name="_ReadingsShape")


_SwingsShape = _Shape.from_dict({quantity: _swing() for quantity in READINGS}, name="_SwingsShape")


class _LightShape(_Shape):
    way = fields.String(required=True, validate=validate.OneOf(("meter", "lux", "fixture", "words")))
    par = _number(0, 100_000)
    lux = _number(0, 200_000)
    depth_cm = _number(0, 300)
    corrected_for_water = fields.Boolean(allow_none=True)
    colour = fields.String(validate=validate.OneOf(("", *LUX_COLOURS)))
    instrument = fields.String(validate=validate.OneOf(("", *INSTRUMENTS)))
    kind = fields.String(validate=validate.OneOf(("", *LAMP_KINDS)))
    count = fields.Integer(strict=True, validate=validate.Range(1, 24))
    watts = _number(0, 2000)
    height_cm = _number(0, 200)
    hours = _number(0, 24)
    word = fields.String(validate=validate.OneOf(("", *LIGHT_WORDS)))

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> LightSaid:
        return LightSaid(**data)


class _PumpShape(_Shape):
    rated_l_h = fields.Float(required=True, allow_nan=False, validate=validate.Range(0, 200_000, min_inclusive=False))
    kind = fields.String(validate=validate.OneOf(PUMP_KINDS))
    count = fields.Integer(strict=True, validate=validate.Range(1, 24))

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> PumpSaid:
        return PumpSaid(**data)


class _FlowShape(_Shape):
    way = fields.String(required=True, validate=validate.OneOf(("pumps", "words", "meter")))
    pumps = fields.List(fields.Nested(_PumpShape))
    word = fields.String(validate=validate.OneOf(("", *FLOW_WORDS)))
    speed_cm_s = _number(0, 1000)

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> FlowSaid:
        return FlowSaid(**{**data, "pumps": tuple(data.get("pumps", ()))})


class _NeighbourShape(_Shape):
    key = fields.String(required=True)
    gap_cm = _number(0, 1000)

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> Neighbour:
        return Neighbour(**data)


class TankSchema(_Shape):
    """The whole tank; see the table at the head of this file."""

    readings = fields.Nested(_ReadingsShape)
    volume = fields.Nested(lambda: _MeasuredShape("volume"), allow_none=True)
    length = fields.Nested(lambda: _MeasuredShape("length"), allow_none=True)
    width = fields.Nested(lambda: _MeasuredShape("length"), allow_none=True)
    height = fields.Nested(lambda: _MeasuredShape("length"), allow_none=True)
    light = fields.Nested(_LightShape, allow_none=True)
    flow = fields.Nested(_FlowShape, allow_none=True)
    tankmates = fields.List(fields.String(validate=lambda key: _known_mate(key)), allow_none=True)
    neighbours = fields.List(fields.Nested(_NeighbourShape), allow_none=True)
    free_space_cm = _number(0, 1000)
    age_months = _number(0, 1200)
    feeding_days_per_week = _number(0, 7)
    summer_high = fields.Nested(lambda: _MeasuredShape("temp"), allow_none=True)
    carbon = fields.Boolean(allow_none=True)
    open_pumps = fields.Boolean(allow_none=True)
    swings = fields.Nested(_SwingsShape)
    answers = fields.List(fields.String(validate=validate.Length(max=80)), validate=validate.Length(max=50))

    @post_load
    def _make(self, data: dict[str, Any], **_: Any) -> BuyerTank:
        for name in ("tankmates", "neighbours"):
            if data.get(name) is not None:
                data[name] = tuple(data[name])
        return BuyerTank(**{**data, "answers": frozenset(data.get("answers", ()))})


def _known_mate(key: str) -> None:
    if key not in load_tankmates():
        raise ValidationError(f"{key!r} is not a group of tankmates; choose of: {', '.join(load_tankmates())}.")


def tank_from_json(form: Any) -> BuyerTank:
    """The tank of a JSON form. Raises BadInput whose sentence names every path that is wrong; `field` is the first."""
    try:
        return TankSchema().load(form)
    except ValidationError as error:
        wrong = flatten(error.messages)
        raise BadInput(
            "; ".join(f"{path or 'the tank'}: {said}" for path, said in wrong), wrong[0][0] or None
        ) from error


def tank_to_json(tank: BuyerTank) -> dict[str, Any]:
    """The JSON form of a tank, with nothing in it that was not said; `tank_from_json` gives the same tank back."""
    return {name: _plain(value) for name, value in _said(tank).items()}


def _said(of: Any) -> dict[str, Any]:
    defaults = _MADE_OF_NOTHING.get(type(of), {})
    parts = {name: getattr(of, name) for name in of.__dataclass_fields__}
    return {name: value for name, value in parts.items() if name not in defaults or value != defaults[name]}


def _plain(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    if isinstance(value, frozenset):
        return sorted(value)
    if isinstance(value, dict):
        return {name: _plain(part) for name, part in value.items()}
    return {n: _plain(v) for n, v in _said(value).items()} if hasattr(value, "__dataclass_fields__") else value


_MADE_OF_NOTHING: dict[type, dict[str, Any]] = {
    kind: {name: getattr(example, name) for name in example.__dataclass_fields__ if name not in needed}
    for kind, example, needed in (
        (BuyerTank, BuyerTank(), ()),
        (Measured, Measured(0, ""), ("value", "unit")),
        (LightSaid, LightSaid("words"), ("way",)),
        (FlowSaid, FlowSaid("words"), ("way",)),
        (PumpSaid, PumpSaid(0), ("rated_l_h",)),
        (Neighbour, Neighbour(""), ("key",)),
    )
}
