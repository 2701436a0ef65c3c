"""`today`: every rule of the day on 100,000 specimens, against the bare SQL of the same rows; and against 1,000.

Everything in the large shop stands in it and is for sale, the hardest case for the look-ups. What needs a hand is the
same in both shops, since it is bounded by the hands there are: 60 mothers, 200 healing of which 40 were looked at this
week, 100 in quarantine, 50 dead within the month, 20 on hold, 5 to be settled. Nothing is remembered between the runs;
the best of fifteen counts.
"""

import json
import sqlite3
import tempfile
import time
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

from sqlalchemy import event

from tests.bench.big_shop import DAYS, START, build
from webapp.services.memory import Memory
from webapp.services.today.day import begin
from webapp.services.today.page import today
from webapp.storage.database import Database

NOW = START + timedelta(days=DAYS + 5)
RUNS = 15
_LOOK = {"holds": True, "edge_closed": True, "open": True, "pest_free": True, "bitten": False}


def run(emit) -> None:
    """Emit ('today', ours, bare SQL) at 100,000 and ('today_growth', ours at 100,000, ours at 1,000)."""
    with tempfile.TemporaryDirectory() as folder:
        small, _bare = _measured(Path(folder) / "small.sqlite", 1_000)
        large, bare = _measured(Path(folder) / "large.sqlite", 100_000)
    emit("today", large, bare)
    emit("today_growth", large, small)


def _measured(path: Path, specimens: int) -> tuple[float, float]:
    build(path, specimens)
    _busy(path)
    database = Database(f"sqlite:///{path}")
    asked: list[tuple[str, tuple]] = []
    memory, session = Memory(), database.reading()
    first = begin(session, memory, NOW)
    today(first)

    def note(_connection, _cursor, statement, parameters, _context, _many):
        asked.append((statement, parameters))

    event.listen(database.engine, "before_cursor_execute", note)
    today(replace(first, revision=-1))
    event.remove(database.engine, "before_cursor_execute", note)
    ours = min(_seconds(lambda at=number: today(replace(first, revision=at))) for number in range(-RUNS, -1))
    session.close()
    database.close()
    with sqlite3.connect(path) as plain:
        bare = min(_seconds(lambda: [plain.execute(*one).fetchall() for one in asked]) for _ in range(RUNS))
    plain.close()
    return ours, bare


def _seconds(work) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _text(moment: datetime) -> str:
    return moment.strftime("%Y-%m-%d %H:%M:%S.%f")


def _busy(path: Path) -> None:
    """Change the present of the first specimens into what a day's work looks like."""
    connection = sqlite3.connect(path)
    ids = [row[0] for row in connection.execute("SELECT id FROM specimen ORDER BY id LIMIT 435")]
    looks = [{"at": (NOW - timedelta(days=days)).isoformat()} | _LOOK for days in (10, 6, 5, 4, 3, 2, 1)]
    parts = {
        "status='mother', last_cut_at=:month": ids[:60],
        "status='healing', cut_at=:month, heads=4, size_mm=30": ids[60:260],
        "status='quarantine', status_since=:month": ids[260:360],
        "status='lost', mother_id=:mother, status_since=:week, ended_at=:week": ids[360:410],
        "held_until=:soon, hold_word='pearl'": ids[410:430],
        'open_conflicts=1, conflicts=\'[{"code":"sold_after_sold"}]\'': ids[430:435],
    }
    values = {"month": _text(NOW - timedelta(days=29)), "week": _text(NOW - timedelta(days=7)), "mother": ids[0],
              "soon": _text(NOW + timedelta(hours=9))}  # fmt: skip
    for changes, whose in parts.items():
        connection.executemany(f"UPDATE specimen SET {changes} WHERE id=:id", [values | {"id": one} for one in whose])
    looked = [(json.dumps(looks), _text(NOW - timedelta(days=1)), one) for one in ids[60:100]]
    connection.executemany("UPDATE specimen SET checks=?, looked_at=?, holds_seen_at=looked_at WHERE id=?", looked)
    connection.commit()
    connection.execute("ANALYZE")
    connection.close()
