"""Specimens as they would stand in the table, for rules that look at one row."""

from datetime import UTC, datetime, timedelta

from webapp.schemas.profiles import load_profiles
from webapp.services.thresholds import DEFAULTS
from webapp.storage.specimen import SpecimenRow

NOW = datetime(2026, 6, 1, 12, 0, tzinfo=UTC)
LIMITS = DEFAULTS


def ago(days: float) -> datetime:
    return NOW - timedelta(days=days)


def look(days: float, **seen) -> dict:
    return {"at": ago(days).isoformat()} | seen


def kind(key: str):
    return load_profiles()[key]


def row(key: str, **columns) -> SpecimenRow:
    given = {
        "profile_key": key, "name": "Ring", "status": "healing", "trouble": "", "started_at": ago(100),
        "status_since": ago(100), "cut_at": None, "last_cut_at": None,
        "checks": [], "dips": [], "sizes": [], "size_mm": None, "heads": None,
    }  # fmt: skip
    return SpecimenRow(**given | columns)
