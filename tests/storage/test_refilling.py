"""A database of an older shape: what its events already tell stands in the new columns after the upgrade."""

import json
import sqlite3
from contextlib import closing
from datetime import UTC, datetime

from webapp.storage import migrating
from webapp.storage.database import Database
from webapp.storage.specimen import SpecimenRow, StoryRow

TANK, MOTHER, FRAG = "a" * 32, "b" * 32, "c" * 32
EVENTS = [
    ("1" * 32, "tank_set", "tank", TANK, {"name": "North"}),
    (
        "2" * 32,
        "arrived",
        "specimen",
        MOTHER,
        {
            "profile_key": "zoanthus",
            "name": "Ring",
            "origin": "wild",
            "size_mm": 40,
            "tank_id": TANK,
            "status": "mother",
        },
    ),
    ("3" * 32, "cut", "specimen", MOTHER, {"method": "saw", "pieces": [FRAG]}),
    (
        "4" * 32,
        "born",
        "specimen",
        FRAG,
        {"profile_key": "zoanthus", "name": "Ring", "mother_id": MOTHER, "method": "saw", "tank_id": TANK},
    ),
]


def test_cuts_sizes_and_stories_of_old_events_are_known_after_the_upgrade(tmp_path):
    path = tmp_path / "old.sqlite"
    url = f"sqlite:///{path}"
    migrating.upgrade(url, "0002")
    with closing(sqlite3.connect(path)) as old, old:
        for number, (event_id, kind, subject_kind, subject_id, payload) in enumerate(EVENTS):
            when = f"2026-05-0{number + 1} 09:00:00.000000"
            old.execute(
                "INSERT INTO event (id, kind, subject_kind, subject_id, deed_id, occurred_at, received_at, author_name,"
                " device, payload) VALUES (?, ?, ?, ?, ?, ?, ?, 'Noor', '', ?)",
                (event_id, kind, subject_kind, subject_id, event_id, when, when, json.dumps(payload)),
            )
    migrating.upgrade(url)
    database = Database(url)
    session = database.reading()
    assert session.get(SpecimenRow, MOTHER).last_cut_at == datetime(2026, 5, 3, 9, tzinfo=UTC)
    assert [size[1] for size in session.get(SpecimenRow, MOTHER).sizes] == [40]
    assert session.get(SpecimenRow, FRAG).cut_at == datetime(2026, 5, 4, 9, tzinfo=UTC)
    assert [line[0] for line in json.loads(session.get(StoryRow, MOTHER).lines)] == ["arrived", "cut"]
    session.close()
    database.close()
