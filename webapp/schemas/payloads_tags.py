"""What tags, and the labels printed of them, carry. Units as in `payloads`."""

from webapp.schemas.payload_fields import Payload, choice_field, id_field, number_field, text_field

BINDABLE = ("specimen", "tank", "rack")


class Bound(Payload):
    """`instead_of`: what the tag stood for, where somebody chose to bind it anew; without it that is a conflict."""

    target_kind = choice_field(BINDABLE, required=True)
    target_id = id_field(required=True)
    instead_of = id_field()


class Unbound(Payload):
    note = text_field(200)


class TagRetired(Payload):
    reason = text_field(200)


class Printed(Payload):
    """`host` is the address printed on the label, with its port (older prints without); `side_mm` the side of its
    symbol without the quiet zone."""

    host = text_field(64, 1, required=True)
    side_mm = number_field(1, 500)


class TagMade(Payload):
    note = text_field(200)
