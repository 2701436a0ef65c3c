"""Taking events in: exactly once, in any order, refused only for form, author or target."""

import random
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import select

from webapp.errors import Refused
from webapp.services.recording import NewEvent, correct, new_deed, record, undo
from webapp.storage import history
from webapp.storage.event import Event
from webapp.storage.place import RackRow, ReadingRow, TankRow
from webapp.storage.specimen import SpecimenRow, TagRow

TABLES = (SpecimenRow, TagRow, TankRow, RackRow, ReadingRow)


def present(session):
    """Every row of every present table, as plain values."""
    return {
        table.__tablename__: sorted(
            [
                {column.name: getattr(row, column.name) for column in table.__table__.columns}
                for row in session.scalars(select(table))
            ],
            key=str,
        )
        for table in TABLES
    }


def events_of_a_busy_day(stage, choose):
    """A day's events for the mother colony and the tank, conflicts included, oldest first."""
    start = datetime.now(UTC) - timedelta(hours=5)
    kinds = [
        ("moved", {"tank_id": stage.other_tank, "rack_id": stage.other_rack, "slot": "A1"}),
        ("moved", {"tank_id": stage.tank, "rack_id": stage.rack, "slot": "B2"}),
        ("priced", {"price_cents": 1500}),
        ("measured", {"heads": 4}),
        ("held", {"word": "pearl", "until": (start + timedelta(days=1)).isoformat()}),
        ("held", {"word": "kelp", "until": (start + timedelta(days=1)).isoformat()}),
        ("sold", {"price_cents": 1500}),
        ("sold", {"price_cents": 1600}),
        ("returned", {"status": "quarantine"}),
    ]
    made = []
    for number in range(10):
        kind, payload = choose(kinds)
        made.append(
            NewEvent(kind, stage.mother, payload, start + timedelta(minutes=choose(range(4))), f"{number + 1:032x}")
        )
    reading = {"tank_id": stage.tank, "quantity": "alk", "value": 8.0, "unit": "dkh"}
    made.append(NewEvent("reading", f"{99:032x}", reading, start, f"{99:032x}"))
    return made


@given(seed=st.integers(0, 10**6))
@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_any_order_and_repetition_of_deliveries_give_the_same_present_and_rebuilding_changes_nothing(
    tmp_path_factory, seed
):
    from tests.stage import Stage

    chance = random.Random(seed)
    stage = Stage(tmp_path_factory.mktemp("order"))
    events = events_of_a_busy_day(stage, chance.choice)
    shuffled = events + chance.choices(events, k=5)
    chance.shuffle(shuffled)
    seen = []
    for delivery in (events, shuffled):
        session = stage.database.reading()
        for event in delivery:
            record(session, stage.owner, [event], f"{7:032x}")
        seen.append(present(session))
        history.rebuild(session)
        assert present(session) == seen[-1]
        session.rollback()
        session.close()
    stage.close()
    assert seen[0] == seen[1]


def test_the_same_deed_sent_twice_is_done_once(stage):
    deed = new_deed()
    for _ in range(2):
        with stage.database.saving() as session:
            record(session, stage.owner, [NewEvent("noted", stage.mother, {"text": "opens well"})], deed)
    with stage.database.reading() as session:
        assert len(list(session.scalars(select(Event).where(Event.deed_id == deed)))) == 1


@pytest.mark.parametrize(
    ("event", "sentence"),
    [
        (NewEvent("teleported", "x", {}), "not a kind of event"),
        (NewEvent("priced", "f" * 32, {"price_cents": 5}), "no such specimen"),
        (NewEvent("undone", "", {"event_id": "f" * 32}), "has not arrived here yet"),
        (NewEvent("tank_closed", "f" * 32, {}), "no such tank"),
        (
            NewEvent("reading", "e" * 32, {"tank_id": "f" * 32, "quantity": "alk", "value": 8, "unit": "c"}),
            "given in dkh",
        ),
        (
            NewEvent("reading", "e" * 32, {"tank_id": "f" * 32, "quantity": "alk", "value": 150, "unit": "dkh"}),
            "not possible",
        ),
    ],
)
def test_an_event_that_cannot_be_kept_is_refused_with_the_reason(stage, event, sentence):
    with pytest.raises(Refused, match=sentence), stage.database.saving() as session:
        record(session, stage.owner, [event])


def test_a_payload_of_the_wrong_form_is_refused_and_nothing_of_its_deed_is_kept(stage):
    good = NewEvent("noted", stage.mother, {"text": "fine"})
    with pytest.raises(Refused, match="slot"), stage.database.saving() as session:
        record(session, stage.owner, [good, NewEvent("moved", stage.mother, {"tank_id": stage.tank, "slot": "44"})])
    with stage.database.reading() as session:
        assert session.scalar(select(Event.id).where(Event.kind == "noted")) is None


def test_an_event_dated_in_the_future_is_refused(stage):
    ahead = NewEvent("noted", stage.mother, {"text": "?"}, stage.later(hours=1))
    with pytest.raises(Refused, match="clock"), stage.database.saving() as session:
        record(session, stage.owner, [ahead])


def test_a_double_sale_is_never_refused(stage):
    with stage.database.saving() as session:
        record(session, stage.owner, [NewEvent("sold", stage.mother, {"price_cents": 1})])
        record(session, stage.owner, [NewEvent("sold", stage.mother, {"price_cents": 2})])
        assert [one["code"] for one in session.get(SpecimenRow, stage.mother).conflicts] == ["sold_after_sold"]


def test_undo_and_undo_of_the_undo(stage):
    with stage.database.saving() as session:
        deed = record(session, stage.owner, [NewEvent("priced", stage.mother, {"price_cents": 900})])
        undoing = undo(session, stage.owner, deed)
        assert session.get(SpecimenRow, stage.mother).price_cents is None
        undo(session, stage.owner, undoing)
        assert session.get(SpecimenRow, stage.mother).price_cents == 900


def test_a_correction_must_fit_the_form_of_what_it_corrects(stage):
    with stage.database.saving() as session:
        reading_id = "d" * 32
        given_reading = {"tank_id": stage.tank, "quantity": "alk", "value": 80, "unit": "ppm_caco3"}
        record(session, stage.owner, [NewEvent("reading", reading_id, given_reading, id=reading_id)])
        correct(session, stage.owner, reading_id, {"value": 142.8})
        assert round(session.get(ReadingRow, reading_id).value, 2) == 8.0
    with pytest.raises(Refused, match="value"), stage.database.saving() as session:
        correct(session, stage.owner, "d" * 32, {"value": "a lot"})
