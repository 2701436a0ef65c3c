"""Measurements: `python3 tests --bench`."""
