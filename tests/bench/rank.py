"""`rank`: 'What here suits my tank?' for 10,000 plugs of 80 kinds in 20 tanks, against a numpy script.

The script reads the same plugs from the same database and compares the same readings with the same bands for every
plug; it judges no place, light, flow, neighbour or error. Ours is the service call without rendering, in a shop that is
running; `rank_first` is the first call after something changed. Also for 1,000 and for 100,000 plugs.
"""

import sqlite3
import tempfile
import time
from collections import defaultdict
from datetime import timedelta
from pathlib import Path
from random import Random

import numpy as np

from tests.bench.big_shop import DAYS, START, build
from webapp.fit.tank import BuyerTank, FlowSaid, LightSaid, Measured
from webapp.schemas.profiles import load_profiles
from webapp.services.memory import Memory
from webapp.services.shop import load_shop, save_shop
from webapp.services.suiting import rank
from webapp.storage.database import Database
from webapp.tags.codes import new_code

KINDS, NOW = 80, START + timedelta(days=DAYS)
READINGS = {"temp": (25.5, "c"), "salinity": (35.0, "ppt"), "alk": (8.5, "dkh"), "ca": (425.0, "mg_l"),
            "mg": (1320.0, "mg_l"), "no3": (6.0, "mg_l"), "po4": (0.05, "mg_l"), "ph": (8.1, "nbs")}  # fmt: skip
TANK = BuyerTank(
    readings={name: (Measured(*value),) for name, value in READINGS.items()},
    volume=Measured(400, "l"), length=Measured(130, "cm"), width=Measured(55, "cm"), height=Measured(55, "cm"),
    light=LightSaid("fixture", kind="led_reef_mixed", count=2, watts=90, height_cm=20, hours=9),
    flow=FlowSaid("words", word="waves_steadily"), tankmates=("tang", "snail"), neighbours=(), age_months=18,
    free_space_cm=25, feeding_days_per_week=2,
)  # fmt: skip


def run(emit) -> None:
    """Emit ('rank', seconds of ours, seconds of the script) for 10,000 plugs, and the same named for other sizes."""
    for count, name in ((10_000, "rank"), (1_000, "rank_1000"), (100_000, "rank_100000")):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "shop.sqlite"
            _fill(path, count)
            plain = min(_seconds(_plain, path) for _ in range(5))
            first, running = _ours(path)
            emit(name, running, plain)
            if name == "rank":
                emit("rank_first", first, plain)


def _seconds(work, *given) -> float:
    start = time.perf_counter()
    work(*given)
    return time.perf_counter() - start


def _ours(path: Path) -> tuple[float, float]:
    """The first call after somebody changed something, and the calls after it."""
    database, memory = Database(f"sqlite:///{path}"), Memory()
    first = []
    for change in range(4):  # before the first of these the program itself has just started
        with database.saving() as session:
            save_shop(session, load_shop(session), terms=f"change {change}")
        with database.reading() as session:
            first.append(_seconds(rank, session, memory, TANK, NOW))
    with database.reading() as session:
        running = min(_seconds(rank, session, memory, TANK, NOW) for _ in range(5))
    database.close()
    return min(first[1:]), running


def _plain(path: Path) -> dict[int, list[str]]:
    """Codes by the worst of the readings: 0 in the ideal, 1 in the limits, 2 beyond."""
    kinds = list(load_profiles().values())[:KINDS]
    bands = np.full((len(kinds), len(READINGS), 4), np.nan)
    for k, kind in enumerate(kinds):
        for f, factor in enumerate(READINGS):
            band = kind.bands[factor]
            bands[k, f] = band.limit_low, band.ideal_low, band.ideal_high, band.limit_high
    place = {kind.key: k for k, kind in enumerate(kinds)}
    connection = sqlite3.connect(path)
    plugs = connection.execute("SELECT code, profile_key FROM specimen WHERE status = 'for_sale'").fetchall()
    connection.close()
    of = bands[np.array([place[key] for _code, key in plugs])]
    values = np.array([value for value, _unit in READINGS.values()])
    ideal = (of[:, :, 1] <= values) & (values <= of[:, :, 2])
    borne = (of[:, :, 0] <= values) & (values <= of[:, :, 3])
    worst = np.where(ideal, 0, np.where(borne, 1, 2)).max(axis=1)
    found = defaultdict(list)
    for (code, _key), verdict in zip(plugs, worst.tolist(), strict=True):
        found[verdict].append(code)
    return found


def _fill(path: Path, count: int) -> None:
    """A shop of 20 tanks with their readings, and `count` plugs for sale made straight into the table."""
    build(path, 1)
    random = Random(80)
    connection = sqlite3.connect(path)
    connection.row_factory = sqlite3.Row
    pattern = dict(connection.execute("SELECT * FROM specimen").fetchone())
    tanks = [row["id"] for row in connection.execute("SELECT id FROM tank")]
    kinds = list(load_profiles())[:KINDS]
    connection.execute("DELETE FROM specimen")
    names = ", ".join(pattern)
    rows = (
        list((pattern | {
            "id": f"{random.getrandbits(128):032x}", "code": new_code(random), "status": "for_sale",
            "profile_key": random.choice(kinds), "tank_id": random.choice(tanks),
        }).values())
        for _ in range(count)
    )  # fmt: skip
    marks = ", ".join("?" * len(pattern))
    connection.executemany(f"INSERT INTO specimen ({names}) VALUES ({marks})", rows)
    connection.execute("ANALYZE")
    connection.commit()
    connection.close()
