"""A phone without a screen at the outbox door: it signs in over https, keeps what it does, sends it, loses answers; and
what the shop has of it then."""

from datetime import UTC, datetime
from typing import Any
from uuid import uuid4

from sqlalchemy import select

from tests.shop_client import Visitor
from tests.stage import NOW, PIN, Stage
from webapp.services import people
from webapp.services.people import digest_of
from webapp.storage.event import Event
from webapp.storage.specimen import SpecimenRow

ORIGIN = "https://localhost"


class Phone(Visitor):
    """A device of its own, with cookies of its own, over https."""

    def _environ(self) -> dict[str, str]:
        return super()._environ() | {"wsgi.url_scheme": "https", "HTTP_REFERER": f"{ORIGIN}/"}

    def sign_in(self, name: str = "Noor", pin: str = PIN) -> "Phone":
        """Sign in; `handle` then names the session."""
        self.open("/sign-in?person=&next=/manifest.webmanifest").send("/sign-in", person=name, secret=pin)
        return self

    @property
    def handle(self) -> str:
        """The session as pages name it."""
        with self._client.session_transaction(base_url=ORIGIN) as session:
            return digest_of(session.get("token", ""))

    def event(
        self, kind: str, subject_id: str, payload: dict[str, Any] | None = None, at: datetime | None = None, **more: Any
    ) -> dict[str, Any]:
        """An event as the phone keeps it."""
        made = {
            "id": uuid4().hex, "deed_id": uuid4().hex, "occurred_at": (at or datetime.now(UTC)).isoformat(),
            "session": self.handle, "kind": kind, "subject_id": subject_id, "payload": payload or {},
        }  # fmt: skip
        return made | more

    def form(self, action: str, at: datetime | None = None, **fields: Any) -> dict[str, Any]:
        """A form as the phone keeps it; '__' in a name stands for '-'."""
        deed = uuid4().hex
        named = {name.replace("__", "-"): str(value) for name, value in fields.items()}
        prefix = next((name.split("-")[0] + "-" for name in named if "-" in name), "")
        pairs = [[f"{prefix}deed", deed], *([name, value] for name, value in named.items())]
        return {
            "id": uuid4().hex, "deed_id": deed, "occurred_at": (at or datetime.now(UTC)).isoformat(),
            "session": self.handle, "form": {"action": action, "fields": pairs, "files": []},
        }  # fmt: skip

    def post(self, items: list[Any], headers: dict[str, str] | None = None, **more: Any) -> Any:
        """One batch; the answer as it comes."""
        body = {"shape": 1, "now": datetime.now(UTC).isoformat(), "items": items} | more
        sent = {"Origin": ORIGIN, "X-Rackside": "outbox", "Accept": "application/json"} | (headers or {})
        return self._client.post("/outbox", json=body, headers=sent, environ_overrides=self._environ())

    def deliver(self, *items: Any, **more: Any) -> list[str]:
        """One batch; the state of each reply, in order."""
        answer = self.post(list(items), **more)
        assert answer.status_code == 200, answer.get_data(as_text=True)
        left = list(answer.json["replies"])
        replies = [left.pop(next(at for at, reply in enumerate(left) if reply["id"] == item["id"])) for item in items]
        self.reasons = [reply["reason"] for reply in replies]
        return [reply["state"] for reply in replies]


def phone(stage: Stage, name: str = "Noor", pin: str = PIN) -> Phone:
    """A phone of somebody signed in."""
    return Phone(stage).sign_in(name, pin)


def events(stage: Stage, **where: Any) -> list[Event]:
    """The events that fit, as they arrived."""
    with stage.database.reading() as session:
        return list(session.scalars(select(Event).filter_by(**where).order_by(Event.seq)))


def row(stage: Stage, specimen_id: str | None = None) -> SpecimenRow:
    """A specimen as it is now, the mother by itself."""
    with stage.database.reading() as session:
        return session.get(SpecimenRow, specimen_id or stage.mother)


def hire(stage: Stage, name: str, role: str = "staff") -> None:
    """Somebody more, with the PIN that all have."""
    with stage.database.saving() as session:
        people.add_person(session, name, PIN, role, NOW)
