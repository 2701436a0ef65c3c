"""The shape of what each kind of event carries.

Lengths in millimetres (animals) or centimetres (tanks), volumes in litres, money in cents of the shop's currency,
moments in ISO 8601 with a zone. Times of day and authors are not payload: they belong to the event itself.
"""

from typing import Any

from marshmallow import ValidationError, fields, validate, validates_schema

from webapp.schemas.payload_fields import Payload, choice_field, count_field, id_field, number_field, text_field

STATUSES = ("quarantine", "healing", "for_sale", "mother", "kept")
ORIGINS = ("bought_in", "maricultured", "wild", "own", "unknown")
METHODS = ("saw", "cutter", "shears", "scalpel", "foot_cut", "halving", "micro_fragment", "natural_split", "other")
CAUSES = (
    "bleach_light", "bleach_heat", "starvation", "brown_jelly", "tissue_loss", "melt_after_cut", "pest", "fish_bite",
    "sting", "fell", "buried", "algae", "chemical", "human", "unknown",
)  # fmt: skip
STAGES = ("transit", "dip", "quarantine", "healing", "rack", "after_sale")
AMOUNT = "an amount from 0.00 to 100000.00"


class Place(Payload):
    tank_id = id_field(required=True)
    rack_id = id_field(allow_none=True)
    slot = fields.String(
        validate=validate.Regexp(r"^([A-Z][0-9]{1,2})?$", error="a slot is a letter and a number, as C4")
    )


class _Size(Payload):
    size_mm = number_field(1, 2000)
    heads = count_field(1, 5000, allow_none=True)


class _Animal(Place, _Size):
    profile_key = text_field(60, 1, required=True)
    name = text_field(80, 1, required=True)
    status = choice_field(STATUSES)
    price_cents = count_field(0, 10_000_000, AMOUNT, allow_none=True)


class Arrived(_Animal):
    """A specimen that came from outside, or was here when the shop began to keep history."""

    shipment_id = id_field(allow_none=True)
    origin = choice_field(ORIGINS, required=True)
    supplier = text_field(80)
    papers = text_field(120)
    cost_cents = count_field(0, 10_000_000, allow_none=True)
    method = text_field(40)


class Born(_Animal):
    """A specimen that was cut or split from a mother here."""

    mother_id = id_field(required=True)
    method = choice_field(METHODS, required=True)


class Cut(_Size):
    """A frag session, on the mother: the pieces, and what is left of her when it was measured."""

    method = choice_field(METHODS, required=True)
    pieces = fields.List(id_field(), required=True, validate=validate.Length(1, 200))
    note = text_field(400)


class Split(_Size):
    """A natural split: the piece that became a specimen of its own."""

    piece = id_field(required=True)


class Merged(Payload):
    """This one was joined to another and lives on there."""

    into = id_field(required=True)


class Absorbed(_Size):
    """Another one was joined to this."""

    other = id_field(required=True)


class Measured(_Size):
    """A size, an area or a count of heads, polyps or mouths. Errors are half widths that hold the truth 19 times in 20.
    In a photo (`photo_id`): `height_mm`, how high above the tag the animal was taken to stand. By hand: `across_mm`,
    the diameter across the longest, and `tall_mm`, its own height."""

    error_mm = number_field(0, 2000)
    area_mm2 = number_field(1, 4_000_000)
    area_error_mm2 = number_field(0, 4_000_000)
    height_mm = number_field(0, 500)
    across_mm, tall_mm = number_field(1, 2000), number_field(1, 2000)
    photo_id = id_field(allow_none=True)

    @validates_schema
    def has_something(self, data: dict[str, Any], **_: Any) -> None:
        if all(data.get(key) is None for key in ("size_mm", "heads", "area_mm2")):
            raise ValidationError("a size or a count is needed")


class Moved(Place):
    """Somewhere else. `count`: the stocktake in which it was found there."""

    count = id_field()


class Sighted(Payload):
    """What a stocktake found of a specimen, at the place that was counted. `by_eye`: its tag could not be read."""

    count = id_field(required=True)
    tank_id = id_field(required=True)
    rack_id = id_field(allow_none=True)
    by_eye = fields.Boolean()


class Counted(Payload):
    """A rack, or the rest of a tank, that was counted: how many should have stood there and what was found."""

    count = id_field(required=True)
    expected = count_field(0, 100_000, required=True)
    seen = count_field(0, 100_000, required=True)
    missing = count_field(0, 100_000, required=True)
    moved = count_field(0, 100_000, required=True)


class StatusSet(Payload):
    status = choice_field(STATUSES, required=True)
    note = text_field(400)


class Named(Payload):
    name = text_field(80, 1, required=True)


class Priced(Payload):
    price_cents = count_field(0, 10_000_000, AMOUNT, required=True, allow_none=True)
    reason = text_field(200)


class Noted(Payload):
    """`public` notes are read by customers on the card."""

    text = text_field(1000, 1, required=True)
    public = fields.Boolean(load_default=False)


class Pictured(Payload):
    photo_id = id_field(required=True)


class Held(Payload):
    """Kept for someone who says the claim word, until a moment, perhaps against a deposit."""

    word = text_field(40, 1, required=True)
    until = fields.AwareDateTime(required=True, format="iso")
    deposit_cents = count_field(0, 10_000_000, allow_none=True)


class Released(Payload):
    note = text_field(200)


class Sold(Payload):
    """`sale`: the number of the sale it was part of; `sheet`: of the advice that went with it."""

    price_cents = count_field(0, 10_000_000, AMOUNT, allow_none=True)
    hold_word = text_field(40)
    sheet = count_field(1, 10**9, allow_none=True)
    sale = count_field(1, 10**9, allow_none=True)


class Returned(Payload):
    status = choice_field(STATUSES)
    reason = text_field(200)
    tank_id = id_field(allow_none=True)
    rack_id = id_field(allow_none=True)
    slot = text_field(4)


class Lost(Payload):
    """`stage`: where on its way it died; left out or empty, it is told by what it was doing."""

    cause = choice_field(CAUSES, required=True)
    stage = choice_field(("", *STAGES))
    note = text_field(400)


class Undone(Payload):
    event_id = id_field(required=True)


class Corrected(Payload):
    """Puts right what an earlier event said. `changes` replaces keys of its payload; the result must fit its own
    shape."""

    event_id = id_field(required=True)
    changes = fields.Dict(keys=fields.String(), required=True, validate=validate.Length(1, 20))
    reason = text_field(200)
