"""The fields that shapes of events are made of."""

from typing import Any

from marshmallow import RAISE, Schema, fields, validate


def id_field(**more: Any) -> fields.String:
    """An id as every row has one."""
    return fields.String(validate=validate.Regexp(r"^[0-9a-f]{32}$", error="not an id"), **more)


def text_field(most: int, least: int = 0, **more: Any) -> fields.String:
    """So many characters."""
    return fields.String(validate=validate.Length(least, most), **more)


def number_field(low: float, high: float, **more: Any) -> fields.Float:
    """A number of a range, both ends in it, or none."""
    return fields.Float(validate=validate.Range(low, high), allow_none=True, **more)


def count_field(low: int, high: int, error: str | None = None, **more: Any) -> fields.Integer:
    """A whole number of a range, both ends in it."""
    return fields.Integer(validate=validate.Range(low, high, error=error), strict=True, **more)


def choice_field(choices: tuple[str, ...], **more: Any) -> fields.String:
    """One of these words."""
    return fields.String(validate=validate.OneOf(choices), **more)


class Payload(Schema):
    """What it does not know it refuses."""

    class Meta:
        unknown = RAISE
