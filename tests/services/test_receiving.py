"""A shipment's books: what arrived, what is missing, what is claimed, sent twice, undone."""

from datetime import UTC, datetime, timedelta

import pytest

from tests.services.making_rows import LIMITS
from webapp.errors import BadInput
from webapp.schemas.profiles import load_profiles
from webapp.services import receiving
from webapp.services.places import occupants
from webapp.services.recording import new_deed, undo
from webapp.services.updating import get_row

OPENED = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)


@pytest.fixture
def session(stage):
    with stage.database.saving() as open_session:
        yield open_session


@pytest.fixture
def shipment(session, stage):
    given = {"supplier": "a farm far away", "papers": "P-1", "opened_at": OPENED.isoformat()}
    made = receiving.set_shipment(session, stage.owner, new_deed(), given)
    for key, name, count in (("zoanthus", "Rim", 5), ("acropora", "Tip", 4), ("fungia", "Plate", 1)):
        line = {"profile_key": key, "name": name, "count": count, "origin": "wild", "cost_cents": 1500}
        receiving.add_line(session, stage.owner, new_deed(), made, line)
    return made


def read(session, shipment):
    return receiving.get_shipment(session, load_profiles(), LIMITS, shipment)


def line_of(session, shipment, name):
    return next(line for line in read(session, shipment).lines if line.name == name)


def take(session, stage, shipment, alive, dead, deed=None, **place):
    where = {"tank_id": stage.other_tank, "rack_id": stage.other_rack} | place
    line = line_of(session, shipment, "Rim")
    return receiving.take_line(
        session, stage.owner, deed or new_deed(), read(session, shipment), line, (alive, dead), where, OPENED
    )


def test_the_demanding_are_opened_first_and_what_poisons_last(session, shipment):
    assert [line.name for line in read(session, shipment).lines] == ["Tip", "Plate", "Rim"]


def test_the_cost_by_the_order(session, shipment):
    assert read(session, shipment).cost_cents == 10 * 1500


def test_counts_and_shares(session, stage, shipment):
    take(session, stage, shipment, 3, 1)
    line = line_of(session, shipment, "Rim")
    assert (line.alive, line.dead, line.missing) == (3, 1, 1)
    assert read(session, shipment).dead_pct == 25
    take(session, stage, shipment, 2, 0)
    line = line_of(session, shipment, "Rim")
    assert (line.alive, line.dead, line.missing) == (5, 1, -1)


def test_the_living_take_the_next_free_slots(session, stage, shipment):
    ids = take(session, stage, shipment, 3, 0)
    assert [one.slot for one in occupants(session, rack_id=stage.other_rack)] == ["A1", "A2", "A3"]
    one = get_row(session, ids[0])
    assert (one.status, one.supplier, one.papers, one.cost_cents, one.shipment_id) == (
        "quarantine", "a farm far away", "P-1", 1500, shipment,
    )  # fmt: skip


def test_what_finds_no_slot_stands_on_the_rack_without_one(session, stage, shipment):
    take(session, stage, shipment, 7, 0)
    assert sorted(one.slot for one in occupants(session, rack_id=stage.other_rack)) == [
        "", "A1", "A2", "A3", "B1", "B2", "B3",
    ]  # fmt: skip


def test_sent_twice_it_is_taken_in_once(session, stage, shipment):
    deed = new_deed()
    assert take(session, stage, shipment, 2, 1, deed) == take(session, stage, shipment, 2, 1, deed)
    line = line_of(session, shipment, "Rim")
    assert (line.alive, line.dead) == (2, 1)
    assert len(occupants(session, rack_id=stage.other_rack)) == 2


def test_undone_nothing_of_it_is_left(session, stage, shipment):
    deed = new_deed()
    take(session, stage, shipment, 2, 1, deed)
    undo(session, stage.owner, deed)
    assert line_of(session, shipment, "Rim").alive is None
    assert occupants(session, rack_id=stage.other_rack) == []


def test_the_claims_window_is_the_suppliers_own_or_the_shops(session, stage, shipment):
    assert read(session, shipment).claim_until == OPENED + timedelta(hours=24)
    receiving.set_shipment(session, stage.owner, new_deed(), {"claim_h": 2.0}, shipment)
    assert read(session, shipment).claim_until == OPENED + timedelta(hours=2)


def test_an_empty_bag_is_refused(session, stage, shipment):
    with pytest.raises(BadInput, match="Count what was in the bag"):
        take(session, stage, shipment, 0, 0)


def test_a_rack_of_another_tank_is_refused(session, stage, shipment):
    with pytest.raises(BadInput, match="stands in North"):
        take(session, stage, shipment, 1, 0, rack_id=stage.rack)


def test_a_line_that_does_not_come_is_off_the_list(session, stage, shipment):
    line = line_of(session, shipment, "Plate")
    receiving.tell(session, stage.owner, new_deed(), shipment, "line_dropped", {"line": line.id})
    assert [one.name for one in read(session, shipment).lines] == ["Tip", "Rim"]
