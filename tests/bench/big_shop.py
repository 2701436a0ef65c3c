"""A shop of any size, made straight into the tables: 20 events each, the present folded by the app's own rules."""

import json
import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from uuid import UUID

from webapp.schemas.profiles import load_profiles
from webapp.services.profiles import install_profiles
from webapp.services.shop import Shop, save_shop
from webapp.storage.database import Database
from webapp.storage.folding import Happened
from webapp.storage.migrating import upgrade
from webapp.storage.present_place import present_rack, present_reading, present_tank
from webapp.storage.present_specimen import present_specimen
from webapp.storage.present_story import present_story
from webapp.tags.codes import new_code

EVENTS_EACH = 20
TANKS, RACKS_EACH, DAYS = 20, 6, 120
USUAL = {"temp": (25.2, "c"), "salinity": (35.0, "ppt"), "alk": (8.2, "dkh"), "ca": (425.0, "mg_l"), "mg": (1320.0,
"mg_l"),
         "no3": (6.0, "mg_l"), "po4": (0.05, "mg_l"), "ph": (8.15, "nbs")}  # fmt: skip
START = datetime(2026, 1, 1, 8, 0, tzinfo=UTC)


def build(path: Path, specimens: int, seed: int = 7) -> list[str]:
    """Make the database and return the code of every specimen."""
    url = f"sqlite:///{path}"
    upgrade(url)
    database = Database(url)
    with database.saving() as session:
        install_profiles(session, START)
        save_shop(session, Shop(), name="A large shop", host="SHOP.LOCAL")
    database.close()
    random = Random(seed)
    connection = sqlite3.connect(path, isolation_level=None)
    for statement in ("PRAGMA synchronous=OFF", "PRAGMA cache_size=-200000", "BEGIN"):
        connection.execute(statement)
    tanks = _places(connection, random)
    codes = _specimens(connection, random, specimens, tanks)
    for statement in ("COMMIT", "ANALYZE", "PRAGMA wal_checkpoint(TRUNCATE)"):
        connection.execute(statement)
    connection.close()
    return codes


def _hex(random: Random) -> str:
    return UUID(int=random.getrandbits(128), version=4).hex


def _put(connection: sqlite3.Connection, table: str, rows: Iterator[dict] | list[dict]) -> None:
    rows = iter(rows)
    first = next(rows)
    names = list(first)
    statement = f"INSERT INTO {table} ({', '.join(names)}) VALUES ({', '.join('?' * len(names))})"

    def values() -> Iterator[list]:
        for row in (first, *rows):
            yield [_plain(row[name]) for name in names]

    connection.executemany(statement, values())


def _plain(value: object) -> object:
    if isinstance(value, datetime):
        return value.strftime("%Y-%m-%d %H:%M:%S.%f")
    return json.dumps(value) if isinstance(value, list | dict) else value


def _event(subject_kind: str, subject_id: str, happened: Happened) -> dict:
    return {
        "id": happened.id, "kind": happened.kind, "subject_kind": subject_kind, "subject_id": subject_id,
        "deed_id": happened.id,
        "occurred_at": happened.occurred_at, "received_at": happened.occurred_at, "author_id": None,
        "author_name": "Noor",
        "device": "", "payload": happened.payload,
    }  # fmt: skip


def _places(connection: sqlite3.Connection, random: Random) -> list[tuple[str, list[str]]]:
    made, events, tank_rows, rack_rows, reading_rows = [], [], [], [], []
    for number in range(TANKS):
        tank_id = _hex(random)
        one = Happened(
            _hex(random), "tank_set", START, {"name": f"Tank {number + 1}", "volume_l": 400, "light_hours": 9}
        )
        events.append(_event("tank", tank_id, one))
        tank_rows.append({"id": tank_id, "code": None} | present_tank([one]))
        racks = [_hex(random) for _ in range(RACKS_EACH)]
        for rack, rack_id in enumerate(racks):
            payload = {"tank_id": tank_id, "name": f"{number + 1}-{rack + 1}", "rows": 6, "columns": 12, "depth_cm": 20}
            one = Happened(_hex(random), "rack_set", START, payload)
            events.append(_event("rack", rack_id, one))
            rack_rows.append({"id": rack_id, "code": None} | present_rack([one]))
        for day in range(DAYS):
            for quantity, (usual, unit) in USUAL.items():
                payload = {
                    "tank_id": tank_id,
                    "quantity": quantity,
                    "value": usual * random.gauss(1, 0.01),
                    "unit": unit,
                }
                one = Happened(_hex(random), "reading", START + timedelta(days=day, minutes=number), payload)
                events.append(_event("reading", one.id, one))
                reading_rows.append({"id": one.id} | present_reading([one]))
        made.append((tank_id, racks))
    for table, rows in (("event", events), ("tank", tank_rows), ("rack", rack_rows), ("reading", reading_rows)):
        _put(connection, table, rows)
    return made


def _history(random: Random, kinds: list[str], tanks: list[tuple[str, list[str]]]) -> list[Happened]:
    """Twenty believable events, the first a birth on any of the first hundred days."""
    when = START + timedelta(days=random.randrange(100), minutes=random.randrange(600))
    tank_id, racks = random.choice(tanks)
    place = {
        "tank_id": tank_id,
        "rack_id": random.choice(racks),
        "slot": f"{random.choice('ABCDEF')}{random.randint(1, 12)}",
    }
    kind = random.choice(kinds)
    birth = {
        "profile_key": kind,
        "name": f"{kind.title()} {random.randint(1, 99)}",
        "origin": "bought_in",
        "status": "healing",
    }
    story = [Happened(_hex(random), "arrived", when, birth | place)]
    for number in range(1, EVENTS_EACH):
        when += timedelta(hours=random.randint(2, 30))
        if number % 5 == 0:
            tank_id, racks = random.choice(tanks)
            payload = {"tank_id": tank_id, "rack_id": random.choice(racks), "slot": ""}
            story.append(Happened(_hex(random), "moved", when, payload))
        elif number % 3 == 0:
            story.append(Happened(_hex(random), "measured", when, {"size_mm": random.randint(15, 90), "heads": None}))
        elif number == EVENTS_EACH - 1:
            story.append(Happened(_hex(random), "status_set", when, {"status": "for_sale"}))
        else:
            story.append(
                Happened(_hex(random), "noted", when, {"text": "Opens well, colour good.", "public": number % 2 == 0})
            )
    return story


def _specimens(
    connection: sqlite3.Connection, random: Random, count: int, tanks: list[tuple[str, list[str]]]
) -> list[str]:
    kinds, codes = list(load_profiles()), []
    taken: set[str] = set()
    for first in range(0, count, 2000):
        events, rows, tags, stories = [], [], [], []
        for _ in range(first, min(first + 2000, count)):
            specimen_id, code = _hex(random), new_code(random)
            while code in taken:
                code = new_code(random)
            taken.add(code)
            codes.append(code)
            story = _history(random, kinds, tanks)
            events += [_event("specimen", specimen_id, one) for one in story]
            rows.append({"id": specimen_id, "code": code} | present_specimen(story))
            stories.append({"id": specimen_id} | present_story(story))
            tags.append({"code": code, "state": "live", "target_kind": "specimen", "target_id": specimen_id,
                         "printed_host": "", "conflicts": []})  # fmt: skip
        _put(connection, "event", events)
        _put(connection, "specimen", rows)
        _put(connection, "story", stories)
        _put(connection, "tag", tags)
    return codes
