"""What sales, and what comes after them, carry. Money in cents, times in hours. Nothing here says who bought."""

from marshmallow import fields, validate

from webapp.schemas.payload_fields import Payload, choice_field, count_field, id_field, number_field, text_field

CASES = ("air", "insulated_air", "insulated_oxygen", "freight")
TROUBLES = ("died", "unwell", "pest", "wrong_one", "other")
OUTCOMES = ("credit", "refund", "replaced", "advice", "refused")


class SaleLine(Payload):
    """One animal of a sale. `asked_cents`: the price on its tag; `sheet`: the number of the advice given with it."""

    specimen_id = id_field(required=True)
    price_cents = count_field(0, 10_000_000, allow_none=True)
    asked_cents = count_field(0, 10_000_000, allow_none=True)
    reason = text_field(200)
    sheet = count_field(1, 10**9, allow_none=True)


class SaleMade(Payload):
    """Several animals sold together under a number. `talk`: the dangers of what is poisonous were told."""

    number = count_field(1, 10**9, required=True)
    lines = fields.List(fields.Nested(SaleLine), required=True, validate=validate.Length(1, 200))
    talk = fields.Boolean()


class SaleBagged(Payload):
    """How it was packed, for how long a journey, and how long that is safe. `carry` False: it was refused."""

    case = choice_field(CASES, required=True)
    journey_h = number_field(0, 240, required=True)
    safe_h = number_field(0, 240, required=True)
    outside_temp_c = number_field(-40, 60)
    carry = fields.Boolean(required=True)
    note = text_field(400)


class SalePictured(Payload):
    """A picture of what was sold, as it left: bagged, alive. Evidence for both sides."""

    photo_id = id_field(required=True)
    note = text_field(200)


class SaleClaimed(Payload):
    """A complaint about one animal of the sale: what is wrong, what readings were brought, a picture."""

    claim = id_field(required=True)
    specimen_id = id_field(required=True)
    trouble = choice_field(TROUBLES, required=True)
    readings = text_field(400)
    note = text_field(400)
    photo_id = id_field(allow_none=True)


class ClaimSettled(Payload):
    """How a complaint ended; `amount_cents` where money or credit was given."""

    claim = id_field(required=True)
    outcome = choice_field(OUTCOMES, required=True)
    amount_cents = count_field(0, 10_000_000, allow_none=True)
    note = text_field(400)


class SaleReturned(Payload):
    """One animal of the sale came back. It is put into quarantine by an event of its own."""

    specimen_id = id_field(required=True)
    reason = text_field(200)
    refund_cents = count_field(0, 10_000_000, allow_none=True)
