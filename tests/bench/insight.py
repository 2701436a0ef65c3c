"""`insight_*`: what the pages of insight and losses ask of 100,000 specimens, each against the two seconds it may take.

A third is sold, a tenth died, a fiftieth are mothers: a shop of many years. No two lived equally long, so that every
death is a step of its curve. Nothing is remembered; the best of three counts. The baseline is the two seconds, so a
ratio above 1 is too slow.
"""

import sqlite3
import tempfile
import time
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from random import Random

from tests.bench.big_shop import DAYS, START, build
from webapp.schemas.payloads import CAUSES, METHODS
from webapp.services import insight, losses
from webapp.services.memory import Memory
from webapp.services.profiles import newest_profiles
from webapp.services.shop import revision
from webapp.services.thresholds import load_thresholds
from webapp.storage.database import Database

NOW = START + timedelta(days=DAYS + 5)
YEAR = NOW - timedelta(days=365)
GOAL_S = 2.0
RUNS = 3


def run(emit) -> None:
    """Emit each page's question at 100,000 specimens, and the goal."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shop.sqlite"
        build(path, 100_000)
        _lived(path)
        database = Database(f"sqlite:///{path}")
        with database.reading() as session:
            kinds, limits = newest_profiles(session, Memory(), revision(session)), load_thresholds(session)
            pages: dict[str, Callable[[], object]] = {
                "insight_survival": lambda: insight.survival(session, "kind", YEAR, NOW),
                "insight_survival_method": lambda: insight.survival(session, "method", YEAR, NOW),
                "insight_turnover": lambda: insight.turnover(session, kinds, YEAR, NOW),
                "insight_growth": lambda: insight.growth_by_kind(session, limits, NOW),
                "insight_drift": lambda: insight.water_drift(session, YEAR),
                "insight_losses": lambda: losses.losses(session, limits, YEAR, NOW),
            }
            for name, page in pages.items():
                emit(name, min(_seconds(page) for _ in range(RUNS)), GOAL_S)
        database.close()


def _lived(path: Path) -> None:
    """Give the shop a past: mothers and methods, and what was sold and what died."""
    random = Random(3)
    with sqlite3.connect(path) as plain:
        ids = [row[0] for row in plain.execute("SELECT id FROM specimen ORDER BY id")]
        mothers = ids[: len(ids) // 50]
        ends = random.choices(("sold", "lost", "for_sale"), (35, 10, 55), k=len(ids))
        plain.executemany(
            "UPDATE specimen SET mother_id=?, method=?, status=?, loss_cause=?, price_cents=2000,"
            " ended_at=CASE WHEN ?3 = 'for_sale' THEN NULL ELSE strftime('%Y-%m-%d %H:%M:%f000', status_since,"
            " '+' || ?5 || ' seconds') END WHERE id=?6",
            (
                (
                    random.choice(mothers),
                    random.choice(METHODS[:4]),
                    end,
                    random.choice(CAUSES),
                    random.randrange(5 * 86400),
                    one,
                )
                for one, end in zip(ids[len(mothers) :], ends, strict=False)
            ),
        )
    plain.close()


def _seconds(page: Callable[[], object]) -> float:
    begun = time.perf_counter()
    page()
    return time.perf_counter() - begun
