"""Every public function states what it does, its range, its equation and a source that is in the list."""

import importlib
import inspect
import re
from pathlib import Path

import pytest

import webapp
from webapp.science.references import REFERENCES

MODULES = [
    "acclimation", "alkalinity", "ammonia", "carbonate", "composition", "dilution", "dosing", "equilibria", "growth",
    "molar_mass", "nutrients", "ph_scales", "salinity", "survival", "temperature", "trend", "units",
]  # fmt: skip
WITHOUT_PUBLICATION = ("definition", "mass balance", "common practice", "our own", "Newton's law of cooling")


def public_functions():
    for name in MODULES:
        module = importlib.import_module(f"webapp.science.{name}")
        for _, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not function.__name__.startswith("_"):
                yield function


@pytest.mark.parametrize("function", list(public_functions()), ids=lambda function: function.__qualname__)
def test_docstring_states_range_and_known_source(function):
    text = " ".join((function.__doc__ or "").split())
    assert "Range:" in text or "0 or more" in text
    source = text.rpartition("Source:")[2]
    keys = re.findall(r"\b[a-z][a-z0-9]*(?:_[a-z0-9]+)+\b", source)
    assert set(keys) <= set(REFERENCES)
    assert keys or any(word in source for word in WITHOUT_PUBLICATION)


def test_every_reference_is_used_and_dated():
    root = Path(webapp.__file__).parent
    code = [path for room in ("science", "fit", "services") for path in (root / room).glob("*.py")]
    cited = " ".join(path.read_text("utf-8") for path in code if path.name != "references.py")
    for key, citation in REFERENCES.items():
        assert key in cited, key
        year = re.search(r"_(\d{4})", key)
        assert year is None or f"({year[1]})" in citation or key == "iupac_2021"
