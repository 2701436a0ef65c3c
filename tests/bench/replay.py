"""`replay`: 1,000 events through the outbox door in batches of 200, as phones send them, with a bad one in every fifty.

The baseline is the same rows put in by the ORM in one transaction; the goal is a share of its speed: baseline / ours,
at least 0.1.
"""

import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from sqlalchemy import select
from sqlalchemy.orm import Session

from tests.door import Phone, phone
from tests.stage import Stage
from webapp.services import fragging
from webapp.services.recording import new_deed
from webapp.storage.base import new_id
from webapp.storage.event import Event

EVENTS, BATCH, BAD_EVERY, PLUGS = 1000, 200, 50, 36
NAMES = (
    "id", "kind", "subject_kind", "subject_id", "deed_id", "occurred_at", "received_at", "author_id", "author_name",
    "device", "payload",
)  # fmt: skip


def run(emit) -> None:
    """Emit ('replay', seconds at the door, seconds of plain inserts), the better of two each; ratio: their share."""
    ours, plain = zip(*(_once() for _ in range(2)), strict=True)
    emit("replay", min(ours), min(plain), ratio=min(plain) / min(ours))


def _once() -> tuple[float, float]:
    with tempfile.TemporaryDirectory() as folder:
        stage = Stage(Path(folder))
        try:
            with stage.database.saving() as session:
                said = fragging.FragSession(stage.mother, "scalpel", PLUGS, stage.rack)
                plugs = fragging.frag(session, stage.owner, new_deed(), said)
            one = phone(stage)
            batches = _batches(one, plugs)
            start = time.perf_counter()
            replies = [one.post(batch).json["replies"] for batch in batches]
            ours = time.perf_counter() - start
            _check(stage, replies)
            return ours, _plain(stage)
        finally:
            stage.close()


def _batches(one: Phone, plugs: list[str]) -> list[list[dict]]:
    """A shift's work on a rack, round after round: looks, sizes, prices, notes, states; some that cannot be kept."""
    random = Random(6)
    begin = datetime.now(UTC) - timedelta(seconds=EVENTS)
    made = []
    for number in range(EVENTS):
        kind, payload = random.choice(
            [
                ("noted", {"text": "Opens well, colour good.", "public": False}), ("priced", {"price_cents": 1250}),
                ("measured", {"size_mm": 31.0, "heads": None}), ("status_set", {"status": "for_sale"}),
                ("checked", {"holds": True, "edge_closed": True}),
            ]
        )  # fmt: skip
        made.append(one.event(kind, plugs[number % PLUGS], payload, begin + timedelta(seconds=number)))
    batches = [made[at : at + BATCH] for at in range(0, EVENTS, BATCH)]
    for batch in batches:
        for at in range(BATCH - BAD_EVERY // 2, 0, -BAD_EVERY):
            batch.insert(at, one.event("noted", "0" * 32, {"text": "About nothing."}))
    return batches


def _check(stage: Stage, replies: list[list[dict]]) -> None:
    states = [reply["state"] for batch in replies for reply in batch]
    assert states.count("accepted") == EVENTS
    assert states.count("refused") == EVENTS // BAD_EVERY


def _plain(stage: Stage) -> float:
    """The same rows under other ids, added by the ORM and committed once."""
    with stage.database.reading() as session:
        taken = session.scalars(select(Event).order_by(Event.seq.desc()).limit(EVENTS))
        rows = [{name: getattr(event, name) for name in NAMES} | {"id": new_id()} for event in taken]
    start = time.perf_counter()
    with Session(stage.database.engine) as session:
        session.add_all(Event(**row) for row in rows)
        session.commit()
    return time.perf_counter() - start
