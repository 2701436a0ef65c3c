"""The JSON files that ship with the program, read from wherever it is installed."""

import json
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any


def read_data(name: str) -> dict[str, Any]:
    """The JSON object in `data/<name>`. Raises ValueError where a key is given twice."""
    text = files("webapp.schemas").joinpath("data", name).read_text(encoding="utf-8")
    return json.loads(text, object_pairs_hook=_once_each)


@cache
def load_sources() -> MappingProxyType[str, str]:
    """Citation key -> full citation. Every basis of kind 'published' names one of these keys."""
    return MappingProxyType(read_data("sources.json"))


def _once_each(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    read = dict(pairs)
    if len(read) != len(pairs):
        keys = [key for key, _ in pairs]
        raise ValueError(f"given twice: {', '.join(sorted({key for key in keys if keys.count(key) > 1}))}")
    return read
