"""A machine that plays phones at the door: any order, lost answers, doubled batches, undo, people taking turns.

The shop that it ends with must be the one that the same deeds make when each is done once, online, in the order in
which they happened.
"""

from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from uuid import uuid4

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from tests.stage import NOW, PIN, Stage
from tests.tally import COUNTED
from webapp.services import devices, people
from webapp.services.outbox import Authors, Sent, take
from webapp.services.people import digest_of
from webapp.services.recording import NewEvent, record
from webapp.storage.event import Event
from webapp.storage.specimen import SpecimenRow

pytestmark = [pytest.mark.long, pytest.mark.usefixtures("deeds")]

NAMES = ("Noor", "Ines")
DEEDS = st.one_of(
    st.tuples(st.just("noted"), st.fixed_dictionaries({"text": st.text("abc ", min_size=1, max_size=5)})),
    st.tuples(st.just("priced"), st.fixed_dictionaries({"price_cents": st.integers(0, 5000)})),
    st.tuples(st.just("status_set"), st.fixed_dictionaries({"status": st.sampled_from(("healing", "for_sale"))})),
    st.tuples(st.just("sold"), st.just({})),
    st.tuples(st.just("returned"), st.just({"status": "quarantine"})),
    st.tuples(st.just("noted"), st.just({"text": ""})),  # refused for its form
)
PHONES = st.integers(0, 1)


class Door(RuleBasedStateMachine):
    """Two phones, each with a queue; the shop behind the door."""

    @initialize()
    def open_shop(self):
        self.folder = TemporaryDirectory()
        self.stage = Stage(Path(self.folder.name))
        self.clock = datetime.now(UTC)
        self.queues, self.handles, self.device_ids, self.authors = [[], []], [], [], []
        with self.stage.database.saving() as session:
            people.add_person(session, "Ines", PIN, "staff", NOW)
        for name in NAMES:
            with self.stage.database.saving() as session:
                device_id, _token = devices.register(session, "phone", self.clock)
                signed = people.sign_in(session, name, PIN, "phone", self.clock, device_id)
            self.handles.append(digest_of(signed.token))
            self.device_ids.append(device_id)
            with self.stage.database.reading() as session:
                self.authors.append(people.author_for(session, signed.token, self.clock))
        self.done, self.delivered, self.refused = {}, set(), set()

    def _keep(self, phone, kind, subject, payload):
        self.clock += timedelta(milliseconds=10)
        one = Sent(uuid4().hex, kind, subject, payload, self.clock, uuid4().hex, self.handles[phone])
        self.queues[phone].append(one)
        self.done[one.id] = (one, phone)

    @rule(phone=PHONES, deed=DEEDS)
    def do(self, phone, deed):
        self._keep(phone, deed[0], self.stage.mother, deed[1])

    @rule(phone=PHONES)
    def do_about_nothing(self, phone):
        self._keep(phone, "noted", "0" * 32, {"text": "x"})

    @rule(phone=PHONES, data=st.data())
    def undo(self, phone, data):
        mine = [one for one, by in self.done.values() if by == phone and one.kind != "undone"]
        if mine:
            target = data.draw(st.sampled_from(mine))
            self._keep(phone, "undone", "", {"event_id": target.id})

    def _deliver(self, phone, batch):
        with self.stage.database.saving() as session:
            authors = Authors(session, self.device_ids[phone], self.authors[phone])
            return take(session, authors, batch, self.clock)

    @rule(phone=PHONES, most=st.integers(1, 7), arrives=st.booleans(), twice=st.booleans())
    def send(self, phone, most, arrives, twice):
        """The oldest go; the answer may be lost on the way back; the batch may come twice."""
        batch = self.queues[phone][:most]
        replies = self._deliver(phone, batch)
        if twice:
            replies = self._deliver(phone, batch)
        assert [reply.id for reply in replies] == [one.id for one in batch]
        if not arrives:
            return
        for reply in replies:
            (self.refused if reply.state == "refused" else self.delivered).add(reply.id)
        self.queues[phone] = [one for one in self.queues[phone] if one.id not in self.delivered | self.refused]

    @rule(phone=PHONES)
    def forge(self, phone):
        """An event in the session of the other phone is never taken."""
        other = self.handles[1 - phone]
        one = Sent(uuid4().hex, "noted", self.stage.mother, {"text": "f"}, self.clock, uuid4().hex, other)
        [reply] = self._deliver(phone, [one])
        assert reply.state == "refused"

    @invariant()
    def nothing_is_kept_twice_or_under_another_name(self):
        if not hasattr(self, "done"):
            return
        with self.stage.database.reading() as session:
            kept = {event.id: event for event in session.query(Event).all()}
        for event_id in self.delivered:
            one, phone = self.done[event_id]
            assert kept[event_id].author_name == NAMES[phone]
            assert kept[event_id].occurred_at == one.occurred_at
        assert not self.refused & set(kept)

    def teardown(self):
        if not hasattr(self, "done"):
            return
        for phone in (0, 1):
            while self.queues[phone]:
                self.send(phone, 50, True, False)
        COUNTED["tried"] += len(self.done)
        COUNTED["lost"] += len(set(self.done) - self.delivered - self.refused)
        assert self.delivered | self.refused == set(self.done)
        assert self._present(self.stage) == self._online()
        self.stage.close()
        self.folder.cleanup()

    def _present(self, stage):
        with stage.database.reading() as session:
            row = session.get(SpecimenRow, stage.mother)
            notes = session.query(Event).filter(Event.kind == "noted").count()
            return (row.status, row.price_cents, row.name, row.slot, [found["code"] for found in row.conflicts], notes)

    def _online(self):
        """Another shop, in which each accepted deed was done once when it happened."""
        with TemporaryDirectory() as folder:
            other = Stage(Path(folder))
            taken = [self.done[one] for one in self.done if one in self.delivered]
            for one, phone in sorted(taken, key=lambda pair: pair[0].occurred_at):
                subject = other.mother if one.subject_id else ""
                with other.database.saving() as session:
                    event = NewEvent(one.kind, subject, one.payload, one.occurred_at, one.id)
                    record(session, self.authors[phone], [event], one.deed_id, self.clock)
            found = self._present(other)
            other.close()
            return found


Door.TestCase.settings = settings(
    max_examples=12, stateful_step_count=20, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
TestDoor = Door.TestCase
