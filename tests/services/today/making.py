"""A shop for the rules of the day: animals made at a moment, rules asked at another."""

from datetime import datetime, timedelta

from tests.stage import Stage, new_memory
from webapp.services import intake
from webapp.services.recording import NewEvent, new_deed, record
from webapp.services.today import page
from webapp.services.today.day import Found, begin
from webapp.storage.base import new_id

SECOND = timedelta(seconds=1)


class Shop:
    """`start`: long before the rules are asked, so that every event lies in the past."""

    def __init__(self, stage: Stage):
        self.stage = stage
        self.start = stage.later(days=-400).replace(microsecond=0)

    def animal(self, at: datetime | None = None, **given: object) -> str:
        """A zoanthid for sale in the stage's tank, unless `given` says otherwise."""
        plain = {
            "profile_key": "zoanthus",
            "name": "Plain",
            "origin": "own",
            "status": "for_sale",
            "tank_id": self.stage.tank,
        }
        with self.stage.database.saving() as session:
            return intake.take_in(session, self.stage.owner, new_deed(), plain | given, at=at or self.start)[0]

    def frags(self, mother: str, count: int, at: datetime, **given: object) -> list[str]:
        """Frags cut from her at one moment, healing."""
        ids = [new_id() for _ in range(count)]
        born = {"mother_id": mother, "method": "scalpel", "profile_key": "zoanthus", "name": "Frag",
                "status": "healing", "tank_id": self.stage.tank} | given  # fmt: skip
        self.tell(*((one, "born", born, at) for one in ids), (mother, "cut", {"method": "scalpel", "pieces": ids}, at))
        return ids

    def tell(self, *events: tuple[str, str, dict, datetime]) -> None:
        """Record events: subject, kind, payload, moment."""
        with self.stage.database.saving() as session:
            record(
                session,
                self.stage.owner,
                [NewEvent(kind, subject, payload, at) for subject, kind, payload, at in events],
            )

    def read(self, quantity: str, value: float, unit: str, at: datetime, **where: str) -> None:
        """A reading of the stage's tank."""
        payload = {"tank_id": self.stage.tank, "quantity": quantity, "value": value, "unit": unit} | where
        self.tell((new_id(), "reading", payload, at))

    def ask(self, rule: str, now: datetime) -> Found:
        """What a rule finds at a moment."""
        session = self.stage.database.reading()
        try:
            return page.one_rule(begin(session, new_memory(), now), rule)
        finally:
            session.close()

    def ids(self, rule: str, now: datetime) -> list[str]:
        """The ids of what it finds."""
        return [due.id for due in self.ask(rule, now).due]
