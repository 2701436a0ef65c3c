"""Every kind of event that the registry knows: done without signal, sent, sent twice more, undone, and back again."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest

from tests.door import phone
from tests.schemas_filled import least_payload
from tests.stage import Stage
from tests.tally import COUNTED
from webapp.schemas.events import EVENT_KINDS
from webapp.storage.event import Event
from webapp.storage.history import PRESENT
from webapp.tags.codes import new_code

CREATING = {kind.subject_kind: name for name, kind in EVENT_KINDS.items() if kind.creates and name != "born"}


@pytest.fixture(scope="module")
def stage(tmp_path_factory):
    """One shop for all kinds: each puts back what it did."""
    made = Stage(tmp_path_factory.mktemp("kinds"))
    yield made
    made.close()


@pytest.fixture(scope="module")
def one(stage):
    """One phone for all kinds."""
    return phone(stage)


def present(stage):
    """Every row of every present, as plain values."""
    with stage.database.reading() as session:
        found = {}
        for table in (one.table for presents in PRESENT.values() for one in presents):
            columns = [column.key for column in table.__table__.columns]
            rows = session.query(table).all()
            told = (repr([(column, getattr(row, column)) for column in columns]) for row in rows)
            found[table.__tablename__] = sorted(told)
        return found


def count(stage):
    with stage.database.reading() as session:
        return session.query(Event).count()


def subject(stage, one, kind):
    """Something of that kind that exists, made at the door when the stage has none."""
    places = {"specimen": stage.mother, "tank": stage.tank, "rack": stage.rack}
    if kind in places:
        return places[kind]
    made = CREATING[kind]
    new = new_code() if kind == "tag" else uuid4().hex
    event = one.event(made, new, least_payload(made, named(stage)), datetime.now(UTC) - timedelta(seconds=20))
    assert one.deliver(event) == ["accepted"], one.reasons
    return new


def named(stage):
    return {
        "tank_id": stage.tank, "rack_id": stage.rack, "mother_id": stage.mother, "target_kind": "rack",
        "target_id": stage.other_rack, "profile_key": "zoanthus", "specimen_id": stage.mother, "other": uuid4().hex,
    }  # fmt: skip


@pytest.mark.long
@pytest.mark.usefixtures("deeds")
@pytest.mark.parametrize("kind", sorted(EVENT_KINDS))
def test_done_without_signal_sent_three_times_and_undone(stage, one, kind):
    rule = EVENT_KINDS[kind]
    then = datetime.now(UTC) - timedelta(seconds=5)
    places = named(stage)
    if rule.subject_kind:
        about = new_code() if rule.creates and rule.subject_kind == "tag" else uuid4().hex
        about = about if rule.creates else subject(stage, one, rule.subject_kind)
    else:
        about = ""
        target = one.event("named", stage.mother, {"name": "Once"}, then - timedelta(seconds=1))
        assert one.deliver(target) == ["accepted"]
        places |= {"event_id": target["id"], "changes": {"name": "Twice"}}
    before, recorded = present(stage), count(stage)
    event = one.event(kind, about, least_payload(kind, places), then)
    assert one.deliver(event) == ["accepted"], one.reasons
    after = present(stage)
    assert one.deliver(event) == ["known"]
    assert one.deliver(event, event) == ["known", "known"]
    assert present(stage) == after
    COUNTED.update(tried=2, twice=count(stage) - recorded - 1)
    assert count(stage) == recorded + 1
    undo = one.event("undone", "", {"event_id": event["id"]}, then + timedelta(seconds=1))
    assert one.deliver(undo) == ["accepted"], one.reasons
    assert one.deliver(undo) == ["known"]
    assert present(stage) == before
    assert count(stage) == recorded + 2
