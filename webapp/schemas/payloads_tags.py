"""What tags, and the labels printed of them, carry. Units as in `payloads`."""

from webapp.schemas.payloads import _choice, _id, _number, _Payload, _text

BINDABLE = ("specimen", "tank", "rack")


class Bound(_Payload):
    """`instead_of`: what the tag stood for, where somebody chose to bind it anew; without it that is a conflict."""

    target_kind = _choice(BINDABLE, required=True)
    target_id = _id(required=True)
    instead_of = _id()


class Unbound(_Payload):
    note = _text(200)


class TagRetired(_Payload):
    reason = _text(200)


class Printed(_Payload):
    """`host` is the address printed on the label, with its port (older prints without); `side_mm` the side of its
    symbol without the quiet zone."""

    host = _text(64, 1, required=True)
    side_mm = _number(1, 500)


class TagMade(_Payload):
    note = _text(200)
