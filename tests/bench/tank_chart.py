"""`tank_chart`: the charts of a tank at 100,000 specimens against the bare SQL of the same rows, and at 1,000."""

import sqlite3
import tempfile
import time
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from tests.bench.big_shop import DAYS, START, build
from webapp.services import tank_water
from webapp.services.memory import Memory
from webapp.services.readings import LOGGED
from webapp.services.shop import revision
from webapp.storage.database import Database
from webapp.views.drawn_chart import chart

SIZES = (1_000, 100_000)
ROUNDS = 30


def run(emit) -> None:
    """Emit 'tank_chart' (against the bare SQL, at 100,000) and 'tank_chart_growth' (at 100,000 against 1,000).

    The first with what a running shop remembers at one revision, as page after page is opened; the second with nothing
    remembered but the profiles, as the first page after every change.
    """
    warm, cold = 0.0, {}
    with tempfile.TemporaryDirectory() as folder:
        for size in SIZES:
            path = Path(folder) / f"{size}.sqlite"
            build(path, size)
            database, bare = Database(f"sqlite:///{path}"), sqlite3.connect(path)
            tank_id = bare.execute("SELECT tank_id FROM reading ORDER BY tank_id LIMIT 1").fetchone()[0]
            assert _bare(bare, tank_id) == DAYS * 8
            remembering, forgetting = Memory(), _Forgetful()
            cold[size] = _best(lambda d=database, t=tank_id, m=forgetting: _charts(d, t, m))
            warm = _best(lambda d=database, t=tank_id, m=remembering: _charts(d, t, m))
            plain = _best(lambda b=bare, t=tank_id: _bare(b, t))
            bare.close()
            database.close()
    emit("tank_chart", warm, plain)
    emit("tank_chart_growth", cold[SIZES[1]], cold[SIZES[0]])


def _best(work: Callable[[], object]) -> float:
    """The shortest of so many rounds: what it takes when nothing else runs meanwhile."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def _charts(database: Database, tank_id: str, memory: Memory) -> int:
    """Everything the charts of a tank need."""
    session = database.reading()
    try:
        runs = tank_water.runs(session, tank_id, START - timedelta(days=1))
        at = revision(session)
        kinds = tank_water.kinds_in(session, memory, at, tank_id)
        bands = tank_water.bands_in(session, memory, at, tank_id)
        drawn = [chart(run, bands.get(quantity)) for quantity, run in runs.items()]
        tank_water.out_of_range(kinds, runs)
        return sum(len(one.points) for one in drawn)
    finally:
        session.close()


class _Forgetful(Memory):
    """Keeps what lasts, as the profiles do, and works everything else out again."""

    def get(self, revision, key, make):
        return make()


def _bare(connection: sqlite3.Connection, tank_id: str) -> int:
    count = 0
    for quantity in LOGGED:
        rows = connection.execute(
            "SELECT taken_at, value FROM reading WHERE tank_id = ? AND quantity = ? AND taken_at >= ? "
            "ORDER BY taken_at",
            (tank_id, quantity, (START - timedelta(days=1)).strftime("%Y-%m-%d %H:%M:%S.%f")),
        ).fetchall()
        count += len(rows)
    return count
