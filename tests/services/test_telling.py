"""The history that staff read: a correction says what was and what is, an undo what it took back."""

from datetime import timedelta

import pytest
from sqlalchemy import select

from tests.services.today.making import Shop
from webapp.services import recording
from webapp.services.memory import Memory
from webapp.services.shop import revision
from webapp.services.telling import staff_story
from webapp.storage.event import Event
from webapp.words.corrections import staff_sentence

DAY = timedelta(days=1)


@pytest.fixture
def shop(stage):
    return Shop(stage)


def told(stage, specimen_id):
    """The sentences of a history, the newest first."""
    with stage.database.reading() as session:
        story = staff_story(session, Memory(), revision(session), specimen_id)
    return [staff_sentence(one.kind, one.values) for one in story]


def event_of(stage, specimen_id, kind):
    with stage.database.reading() as session:
        found = session.scalars(select(Event).where(Event.subject_id == specimen_id, Event.kind == kind)).one()
        return found.id, found.deed_id


def correct(shop, event_id, days, **changes):
    payload = {"event_id": event_id, "changes": changes, "reason": "looked closely"}
    shop.tell(("", "corrected", payload, shop.start + days * DAY))


def test_a_correction_says_old_and_new(stage, shop):
    one = shop.animal(cost_cents=900)
    arrival, _deed = event_of(stage, one, "arrived")
    correct(shop, arrival, 1, name="Rim", profile_key="duncanopsammia", cost_cents=1250)
    assert told(stage, one)[0] == (
        "Corrected: name Plain → Rim; kind zoanthus → duncanopsammia; cost 9.00 → 12.50. (looked closely)"
    )


def test_a_second_correction_begins_where_the_first_ended(stage, shop):
    one = shop.animal()
    arrival, _deed = event_of(stage, one, "arrived")
    correct(shop, arrival, 1, name="Rim", tank_id=stage.other_tank)
    correct(shop, arrival, 2, name="Brim", papers="P-1")
    assert told(stage, one)[:2] == [
        "Corrected: name Rim → Brim; papers nothing → P-1. (looked closely)",
        "Corrected: name Plain → Rim; tank North → South. (looked closely)",
    ]


def test_an_undo_says_what_it_took_back_and_its_undo_what_is_done_again(stage, shop):
    one = shop.animal()
    shop.tell((one, "moved", {"tank_id": stage.other_tank}, shop.start + DAY))
    _event, deed = event_of(stage, one, "moved")
    with stage.database.saving() as session:
        undoing = recording.undo(session, stage.owner, deed)
    assert told(stage, one)[0] == "Undone: Moved to South."
    with stage.database.saving() as session:
        recording.undo(session, stage.owner, undoing)
    assert told(stage, one)[0] == "Done again: Moved to South."
