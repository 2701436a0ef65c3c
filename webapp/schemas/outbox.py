"""The shape of what a device sends to the outbox door: events, and forms that were filled in without signal."""

from typing import Any

from marshmallow import EXCLUDE, Schema, ValidationError, fields, validate, validates_schema

#: The shapes that this server still reads. A device with an older program is told to take the new one.
SHAPES = (1,)
MOST_AT_ONCE = 500


def _hex(length: int, **more: Any) -> fields.String:
    return fields.String(validate=validate.Regexp(rf"^[0-9a-f]{{{length}}}$", error="not an id"), **more)


class File(Schema):
    """A file of a form, in base64."""

    field = fields.String(required=True, validate=validate.Length(1, 60))
    name = fields.String(load_default="picture.jpg", validate=validate.Length(0, 120))
    type = fields.String(load_default="image/jpeg", validate=validate.Length(0, 60))
    data = fields.String(required=True)


class Form(Schema):
    """A form as it was filled in: where it goes, its fields in order, its files."""

    class Meta:
        unknown = EXCLUDE

    action = fields.String(required=True, validate=validate.Regexp(r"^/[^/\\]", error="not a page of this shop"))
    fields_ = fields.List(
        fields.List(fields.String(), validate=validate.Length(equal=2)), data_key="fields", required=True,
        validate=validate.Length(0, 2000),
    )  # fmt: skip
    files = fields.List(fields.Nested(File), load_default=list, validate=validate.Length(0, 8))


class Item(Schema):
    """One thing that was done: an event, or a form."""

    class Meta:
        unknown = EXCLUDE

    id = _hex(32, required=True)
    deed_id = _hex(32, required=True)
    occurred_at = fields.AwareDateTime(required=True, format="iso")
    session = _hex(64, required=True)
    kind = fields.String(validate=validate.Length(1, 24))
    subject_id = fields.String(load_default="", validate=validate.Length(0, 32))
    payload = fields.Dict(keys=fields.String(), load_default=dict)
    form = fields.Nested(Form)

    @validates_schema
    def is_one_of_both(self, data: dict[str, Any], **_: Any) -> None:
        if ("kind" in data) == ("form" in data):
            raise ValidationError("an event or a form is needed")


class TurnTaken(Schema):
    """Somebody took over the device without signal: who, when, and their PIN as the shop alone can read it; no PIN when
    they took over by name within their shift."""

    class Meta:
        unknown = EXCLUDE

    handle = _hex(64, required=True)
    person_id = _hex(32, required=True)
    at = fields.AwareDateTime(required=True, format="iso")
    sealed = fields.String(load_default="", validate=validate.Length(0, 1000))


class Batch(Schema):
    """What is sent at once. now: the device's clock; live: the id of what its holder is waiting for, to be told;
    turns: who took over since the last time."""

    class Meta:
        unknown = EXCLUDE

    shape = fields.Integer(required=True)
    now = fields.AwareDateTime(required=True, format="iso")
    items = fields.List(fields.Raw(allow_none=True), required=True, validate=validate.Length(0, MOST_AT_ONCE))
    live = fields.String(load_default="", validate=validate.Length(0, 32))
    turns = fields.List(fields.Nested(TurnTaken), load_default=list, validate=validate.Length(0, 20))
    told = fields.String(load_default="", validate=validate.Length(0, 200))
