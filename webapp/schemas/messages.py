"""What marshmallow found wrong, as a flat list of paths and sentences."""

from typing import Any


def flatten(messages: Any, path: str = "") -> list[tuple[str, str]]:
    """(path, what is wrong) in the order found; paths are dotted, '' for the whole: readings.alk.unit, pumps.0.kind."""
    if isinstance(messages, dict):
        found = []
        for name, inner in messages.items():
            deeper = path if name == "_schema" else f"{path}.{name}".lstrip(".")
            found += flatten(inner, deeper)
        return found
    if isinstance(messages, list):
        return [pair for inner in messages for pair in flatten(inner, path)]
    return [(path, str(messages))]
