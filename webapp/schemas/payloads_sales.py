"""What sales, and what comes after them, carry. Money in cents, times in hours. Nothing here says who bought."""

from marshmallow import fields, validate

from webapp.schemas.payloads import _choice, _count, _id, _number, _Payload, _text

CASES = ("air", "insulated_air", "insulated_oxygen", "freight")
TROUBLES = ("died", "unwell", "pest", "wrong_one", "other")
OUTCOMES = ("credit", "refund", "replaced", "advice", "refused")


class SaleLine(_Payload):
    """One animal of a sale. `asked_cents`: the price on its tag; `sheet`: the number of the advice given with it."""

    specimen_id = _id(required=True)
    price_cents = _count(0, 10_000_000, allow_none=True)
    asked_cents = _count(0, 10_000_000, allow_none=True)
    reason = _text(200)
    sheet = _count(1, 10**9, allow_none=True)


class SaleMade(_Payload):
    """Several animals sold together under a number. `talk`: the dangers of what is poisonous were told."""

    number = _count(1, 10**9, required=True)
    lines = fields.List(fields.Nested(SaleLine), required=True, validate=validate.Length(1, 200))
    talk = fields.Boolean()


class SaleBagged(_Payload):
    """How it was packed, for how long a journey, and how long that is safe. `carry` False: it was refused."""

    case = _choice(CASES, required=True)
    journey_h = _number(0, 240, required=True)
    safe_h = _number(0, 240, required=True)
    outside_temp_c = _number(-40, 60)
    carry = fields.Boolean(required=True)
    note = _text(400)


class SalePictured(_Payload):
    """A picture of what was sold, as it left: bagged, alive. Evidence for both sides."""

    photo_id = _id(required=True)
    note = _text(200)


class SaleClaimed(_Payload):
    """A complaint about one animal of the sale: what is wrong, what readings were brought, a picture."""

    claim = _id(required=True)
    specimen_id = _id(required=True)
    trouble = _choice(TROUBLES, required=True)
    readings = _text(400)
    note = _text(400)
    photo_id = _id(allow_none=True)


class ClaimSettled(_Payload):
    """How a complaint ended; `amount_cents` where money or credit was given."""

    claim = _id(required=True)
    outcome = _choice(OUTCOMES, required=True)
    amount_cents = _count(0, 10_000_000, allow_none=True)
    note = _text(400)


class SaleReturned(_Payload):
    """One animal of the sale came back. It is put into quarantine by an event of its own."""

    specimen_id = _id(required=True)
    reason = _text(200)
    refund_cents = _count(0, 10_000_000, allow_none=True)
