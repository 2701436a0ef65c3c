"""The least payload that fits a kind of event, made from its schema, so that new kinds come along by themselves."""

from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import uuid4

from marshmallow import fields, validate

from webapp.schemas.events import EVENT_KINDS

#: What a schema cannot say of itself: values that must agree with each other.
AGREED: dict[str, dict[str, Any]] = {
    "reading": {"quantity": "alk", "unit": "dkh", "value": 8.2},
    "measured": {"size_mm": 31.0},
    "tank_set": {"name": "West", "purpose": "holding", "volume_l": 100.0},
    "rack_set": {"name": "W1", "rows": 2, "columns": 4},
}


def least_payload(kind: str, places: dict[str, Any]) -> dict[str, Any]:
    """Required fields only, as JSON. places: values for fields that name something which exists."""
    schema = EVENT_KINDS[kind].schema()
    filled = {
        name: places[name] if name in places else _value(field)
        for name, field in schema.fields.items()
        if field.required or (name == "tank_id" and kind == "rack_set")
    }
    return filled | AGREED.get(kind, {})


def _value(field: fields.Field) -> Any:
    rules = field.validate if isinstance(field.validate, list | tuple) else [field.validate]
    rules = [rule for rule in rules if rule is not None]
    for rule in rules:
        if isinstance(rule, validate.OneOf):
            return list(rule.choices)[0]
        if isinstance(rule, validate.Regexp) and rule.regex.match("a" * 32):
            return uuid4().hex
    if isinstance(field, fields.Boolean):
        return True
    if isinstance(field, fields.Integer | fields.Float):
        low = next((rule.min for rule in rules if isinstance(rule, validate.Range)), 1)
        return max(1, int(low or 1))
    if isinstance(field, fields.AwareDateTime):
        return (datetime.now(UTC) + timedelta(days=1)).isoformat()
    if isinstance(field, fields.Nested):
        return {name: _value(inner) for name, inner in field.schema.fields.items() if inner.required}
    if isinstance(field, fields.List):
        return [_value(field.inner)]
    if isinstance(field, fields.Dict):
        return {}
    return "Words"
