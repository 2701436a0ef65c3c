"""What a shop ends with, so told that two shops in which the same was done can be compared, whenever it was done."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from sqlalchemy import inspect, select

from tests.shop_client import Visitor
from tests.stage import Stage
from webapp.storage.event import Event
from webapp.storage.specimen import SpecimenRow

ID = re.compile(r"[0-9a-f]{32}")


@dataclass(frozen=True)
class Ending:
    """The whole present of the mother, and her history: kind, payload and author of each event as it happened. A moment
    is told by the event that happened then, an id by what it names."""

    present: dict[str, Any]
    history: list[tuple[str, Any, str]]


def history(stage: Stage) -> list[Event]:
    """The events of the mother, in the order in which they happened."""
    with stage.database.reading() as session:
        found = select(Event).where(Event.subject_id == stage.mother).order_by(Event.occurred_at, Event.id)
        return list(session.scalars(found))


def texts(stage: Stage) -> list[str]:
    """The notes in it."""
    return [event.payload["text"] for event in history(stage) if event.kind == "noted"]


def ending(stage: Stage) -> Ending:
    """Of this shop."""
    events = history(stage)
    names = {getattr(stage, name): name for name in ("tank", "other_tank", "rack", "other_rack", "mother")}
    names |= {event.id: f"event {number}" for number, event in enumerate(events)}
    moments = {event.occurred_at: f"when event {number} happened" for number, event in enumerate(events)}

    def told(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: told(one) for key, one in value.items()}
        if isinstance(value, list):
            return [told(one) for one in value]
        if isinstance(value, datetime):
            return moments.get(value, "another moment")
        if isinstance(value, str) and ID.fullmatch(value):
            return names.get(value, "another id")
        if isinstance(value, str) and re.match(r"\d{4}-\d\d-\d\dT", value):
            return told(datetime.fromisoformat(value).astimezone(UTC))
        return value

    with stage.database.reading() as session:
        row = session.get(SpecimenRow, stage.mother)
        present = {one.key: told(getattr(row, one.key)) for one in inspect(SpecimenRow).column_attrs}
    return Ending(present, [(event.kind, told(event.payload), event.author_name) for event in events])


class Twin:
    """A shop in which everything is done at its own pages, with signal."""

    def __init__(self, stage: Stage):
        self.stage = stage
        self._people: dict[str, Visitor] = {}

    def do(self, deed: str, who: str = "Noor", **typed: Any) -> None:
        """Fill a drawer of the mother's page and send it."""
        if who not in self._people:
            self._people[who] = Visitor(self.stage).sign_in(who)
        panel = self._people[who].open(f"/s/{self.stage.mother}")
        panel.send(f"/s/{self.stage.mother}/{deed}", **{f"{deed}__{name}": value for name, value in typed.items()})


@contextmanager
def online_twin(folders: Any) -> Iterator[Twin]:
    """A shop as the stage sets it, in a folder of its own."""
    stage = Stage(folders.mktemp("online"))
    try:
        yield Twin(stage)
    finally:
        stage.close()
