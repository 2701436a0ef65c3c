"""Pests: marking tanks, stopping sale, when it is over. Two looks a week apart are common practice of the trade."""

from datetime import timedelta

import pytest

from tests.services.making_rows import LIMITS, ago
from tests.services.today.making import Shop
from webapp.services import pests
from webapp.services.recording import new_deed, undo
from webapp.services.shop import revision
from webapp.services.thresholds import save_thresholds
from webapp.services.updating import get_row, move, update
from webapp.storage.care import PestRow


def found(pest="glass_anemone", looks=()):
    told = [[ago(days).isoformat(), clean, ""] for days, clean in looks]
    return PestRow(pest=pest, found_at=ago(40), looks=told, treatments=[], tank_id="t", stops_sale=False)


def gone(row, temp_c=27.0):
    return [condition.code for condition in pests.gone_rule(row, LIMITS, temp_c).open]


@pytest.mark.parametrize(("first", "missed"), [(7.99, ["clean"]), (8, [])])
def test_two_clean_looks_a_week_apart(first, missed):
    assert gone(found(looks=[(first, True), (1, True)])) == missed


def test_seeing_it_again_begins_the_count_again():
    assert gone(found(looks=[(20, True), (10, False), (1, True)])) == ["clean"]


@pytest.mark.parametrize(("days", "missed"), [(10.99, ["after_hatch"]), (11, [])])
def test_an_egg_layer_needs_a_clean_look_after_the_hatch(days, missed):
    # Barton et al. 2019: Acropora flatworm eggs hatch after 11 days on average at 27 °C.
    assert gone(found("acropora_flatworm", [(40 - 3, True), (40 - days, True)])) == missed


def test_at_24_degrees_the_hatch_takes_as_much_longer_as_a_generation_does():
    row = found("acropora_flatworm", [(40 - 3, True), (40 - 18.5, True)])
    assert gone(row, 24.0) == ["after_hatch"]  # 11 · 64 / 38 = 18.53 days
    assert gone(found("acropora_flatworm", [(40 - 3, True), (40 - 18.6, True)]), 24.0) == []


def report(stage, **given):
    with stage.database.saving() as session:
        deed = new_deed()
        payload = {"tank_id": stage.tank, "pest": "brown_jelly", "stops_sale": True} | given
        return deed, pests.report_pest(session, stage.owner, deed, payload)


def stopped(stage):
    with stage.database.saving() as session:
        return pests.stopped_tanks(session, stage.memory, revision(session) + 1)


def test_a_finding_marks_the_tank_and_every_tank_it_was_carried_to(stage):
    report(stage)
    assert stopped(stage) == [stage.tank]
    with stage.database.saving() as session:
        move(session, stage.owner, new_deed(), [stage.mother], {"tank_id": stage.other_tank, "rack_id": None})
    assert stopped(stage) == sorted([stage.tank, stage.other_tank])


def test_a_finding_that_does_not_stop_sale_marks_the_tank_only(stage):
    report(stage, pest="vermetid", stops_sale=False)
    assert stopped(stage) == []


def test_undoing_the_finding_or_clearing_it_lets_sale_go_on(stage):
    deed, _ = report(stage)
    with stage.database.saving() as session:
        undo(session, stage.owner, deed)
    assert stopped(stage) == []
    _, pest_id = report(stage)
    with stage.database.saving() as session:
        pests.tell(session, stage.owner, new_deed(), pest_id, "pest_cleared", {})
    assert stopped(stage) == []
    with stage.database.saving() as session:
        pests.tell(session, stage.owner, new_deed(), pest_id, "pest_looked", {"clean": False})
    assert stopped(stage) == [stage.tank]


def test_a_finding_on_a_specimen_is_a_look_at_it(stage):
    report(stage, specimen_id=stage.mother)
    with stage.database.saving() as session:
        assert get_row(session, stage.mother).trouble == "slime"


def test_the_next_look_is_a_week_after_the_last(stage):
    _, pest_id = report(stage)
    with stage.database.saving() as session:
        finding = pests.get_finding(session, pest_id)
        assert finding.next_look == finding.found_at + timedelta(days=7)


def test_the_exposed_are_listed_by_name(stage):
    _, pest_id = report(stage)
    with stage.database.saving() as session:
        finding = pests.get_finding(session, pest_id)
        listed = pests.exposed_list(session, pests.exposure(session, finding, LIMITS))
        assert [(one.name, one.is_gone) for one in listed] == [("Ember Ring", False)]


def test_the_exposed_stand_where_they_are_now_in_the_order_of_slots(stage):
    """Carried out of slot A10, A2 and off the racks; one of them is sold. Slots count as people do: A2 before A10."""
    shop = Shop(stage)
    there = {"rack_id": stage.rack, "at": shop.start}
    late, early = shop.animal(slot="A10", **there), shop.animal(slot="A2", **there)
    gone = shop.animal(at=shop.start)
    _, pest_id = report(stage)
    shop.tell((gone, "sold", {}, stage.later(seconds=1)))
    with stage.database.saving() as session:
        finding = pests.get_finding(session, pest_id)
        places = pests.by_place(session, pests.exposed_list(session, pests.exposure(session, finding, LIMITS)))
        assert [(place, [one.id for one in here]) for place, here in places] == [
            ("North, N1", [stage.mother, early, late]),
            ("", [gone]),
        ]


def test_marks_are_worked_out_again_only_for_what_matters(stage):
    report(stage)

    def marks():
        with stage.database.saving() as session:
            return pests.marked_tanks(session, stage.memory, revision(session) + 1)

    before = marks()
    with stage.database.saving() as session:
        update(session, stage.owner, new_deed(), "noted", [stage.mother], {"text": "opens well"})
    assert marks() is before
    with stage.database.saving() as session:
        move(session, stage.owner, new_deed(), [stage.mother], {"tank_id": stage.other_tank, "rack_id": None})
    assert marks() is not before
    with stage.database.saving() as session:
        save_thresholds(session, {"pest_share_days": 3})
    assert sorted(marks()) == sorted([stage.tank, stage.other_tank])
