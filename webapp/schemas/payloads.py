"""The shape of what each kind of event carries.

Lengths in millimetres (animals) or centimetres (tanks), volumes in litres, money in cents of the shop's currency,
moments in ISO 8601 with a zone. Times of day and authors are not payload: they belong to the event itself.
"""

from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields, validate, validates_schema

STATUSES = ("quarantine", "healing", "for_sale", "mother", "kept")
ORIGINS = ("bought_in", "maricultured", "wild", "own", "unknown")
METHODS = ("saw", "cutter", "shears", "scalpel", "foot_cut", "halving", "micro_fragment", "natural_split", "other")
CAUSES = (
    "bleach_light", "bleach_heat", "starvation", "brown_jelly", "tissue_loss", "melt_after_cut", "pest", "fish_bite",
    "sting", "fell", "buried", "algae", "chemical", "human", "unknown",
)  # fmt: skip
STAGES = ("transit", "dip", "quarantine", "healing", "rack", "after_sale")
AMOUNT = "an amount from 0.00 to 100000.00"


def _id(**more: Any) -> fields.String:
    return fields.String(validate=validate.Regexp(r"^[0-9a-f]{32}$", error="not an id"), **more)


def _text(most: int, least: int = 0, **more: Any) -> fields.String:
    return fields.String(validate=validate.Length(least, most), **more)


def _number(low: float, high: float, **more: Any) -> fields.Float:
    return fields.Float(validate=validate.Range(low, high), allow_none=True, **more)


def _count(low: int, high: int, error: str | None = None, **more: Any) -> fields.Integer:
    return fields.Integer(validate=validate.Range(low, high, error=error), strict=True, **more)


def _choice(choices: tuple[str, ...], **more: Any) -> fields.String:
    return fields.String(validate=validate.OneOf(choices), **more)


class _Payload(Schema):
    class Meta:
        unknown = RAISE


class Place(_Payload):
    tank_id = _id(required=True)
    rack_id = _id(allow_none=True)
    slot = fields.String(
        validate=validate.Regexp(r"^([A-Z][0-9]{1,2})?$", error="a slot is a letter and a number, as C4")
    )


class _Size(_Payload):
    size_mm = _number(1, 2000)
    heads = _count(1, 5000, allow_none=True)


class _Animal(Place, _Size):
    profile_key = _text(60, 1, required=True)
    name = _text(80, 1, required=True)
    status = _choice(STATUSES)
    price_cents = _count(0, 10_000_000, AMOUNT, allow_none=True)


class Arrived(_Animal):
    """A specimen that came from outside, or was here when the shop began to keep history."""

    shipment_id = _id(allow_none=True)
    origin = _choice(ORIGINS, required=True)
    supplier = _text(80)
    papers = _text(120)
    cost_cents = _count(0, 10_000_000, allow_none=True)
    method = _text(40)


class Born(_Animal):
    """A specimen that was cut or split from a mother here."""

    mother_id = _id(required=True)
    method = _choice(METHODS, required=True)


class Cut(_Size):
    """A frag session, on the mother: the pieces, and what is left of her when it was measured."""

    method = _choice(METHODS, required=True)
    pieces = fields.List(_id(), required=True, validate=validate.Length(1, 200))
    note = _text(400)


class Split(_Size):
    """A natural split: the piece that became a specimen of its own."""

    piece = _id(required=True)


class Merged(_Payload):
    """This one was joined to another and lives on there."""

    into = _id(required=True)


class Absorbed(_Size):
    """Another one was joined to this."""

    other = _id(required=True)


class Measured(_Size):
    """A size, an area or a count of heads, polyps or mouths. Errors are half widths that hold the truth 19 times in 20.
    In a photo (`photo_id`): `height_mm`, how high above the tag the animal was taken to stand. By hand: `across_mm`,
    the diameter across the longest, and `tall_mm`, its own height."""

    error_mm = _number(0, 2000)
    area_mm2 = _number(1, 4_000_000)
    area_error_mm2 = _number(0, 4_000_000)
    height_mm = _number(0, 500)
    across_mm, tall_mm = _number(1, 2000), _number(1, 2000)
    photo_id = _id(allow_none=True)

    @validates_schema
    def has_something(self, data: dict[str, Any], **_: Any) -> None:
        if all(data.get(key) is None for key in ("size_mm", "heads", "area_mm2")):
            raise ValidationError("a size or a count is needed")


class Moved(Place):
    """Somewhere else. `count`: the stocktake in which it was found there."""

    count = _id()


class Sighted(_Payload):
    """What a stocktake found of a specimen, at the place that was counted. `by_eye`: its tag could not be read."""

    count = _id(required=True)
    tank_id = _id(required=True)
    rack_id = _id(allow_none=True)
    by_eye = fields.Boolean()


class Counted(_Payload):
    """A rack, or the rest of a tank, that was counted: how many should have stood there and what was found."""

    count = _id(required=True)
    expected = _count(0, 100_000, required=True)
    seen = _count(0, 100_000, required=True)
    missing = _count(0, 100_000, required=True)
    moved = _count(0, 100_000, required=True)


class StatusSet(_Payload):
    status = _choice(STATUSES, required=True)
    note = _text(400)


class Named(_Payload):
    name = _text(80, 1, required=True)


class Priced(_Payload):
    price_cents = _count(0, 10_000_000, AMOUNT, required=True, allow_none=True)
    reason = _text(200)


class Noted(_Payload):
    """`public` notes are read by customers on the card."""

    text = _text(1000, 1, required=True)
    public = fields.Boolean(load_default=False)


class Pictured(_Payload):
    photo_id = _id(required=True)


class Held(_Payload):
    """Kept for someone who says the claim word, until a moment, perhaps against a deposit."""

    word = _text(40, 1, required=True)
    until = fields.AwareDateTime(required=True, format="iso")
    deposit_cents = _count(0, 10_000_000, allow_none=True)


class Released(_Payload):
    note = _text(200)


class Sold(_Payload):
    """`sale`: the number of the sale it was part of; `sheet`: of the advice that went with it."""

    price_cents = _count(0, 10_000_000, AMOUNT, allow_none=True)
    hold_word = _text(40)
    sheet = _count(1, 10**9, allow_none=True)
    sale = _count(1, 10**9, allow_none=True)


class Returned(_Payload):
    status = _choice(STATUSES)
    reason = _text(200)
    tank_id = _id(allow_none=True)
    rack_id = _id(allow_none=True)
    slot = _text(4)


class Lost(_Payload):
    """`stage`: where on its way it died; left out or empty, it is told by what it was doing."""

    cause = _choice(CAUSES, required=True)
    stage = _choice(("", *STAGES))
    note = _text(400)


class Undone(_Payload):
    event_id = _id(required=True)


class Corrected(_Payload):
    """Puts right what an earlier event said. `changes` replaces keys of its payload; the result must fit its own
    shape."""

    event_id = _id(required=True)
    changes = fields.Dict(keys=fields.String(), required=True, validate=validate.Length(1, 20))
    reason = _text(200)
