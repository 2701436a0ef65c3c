"""Binding tags: two things never share a live tag, nothing is forgotten, the order of arrival makes no difference."""

from datetime import timedelta
from itertools import permutations

import pytest

from webapp.errors import BadInput
from webapp.services import binding, cards
from webapp.services.recording import new_deed, undo
from webapp.storage.folding import Happened
from webapp.storage.present_place import present_tag
from webapp.storage.specimen import SpecimenRow


def saved(stage, deed, *given, deed_id=None):
    with stage.database.saving() as session:
        return deed(session, stage.owner, deed_id or new_deed(), *given)


def tag(stage, code):
    with stage.database.reading() as session:
        return binding.get_tag(session, code)


def code_of(stage, specimen_id):
    with stage.database.reading() as session:
        return session.get(SpecimenRow, specimen_id).code


def test_blanks_are_made_once_a_deed(stage):
    deed_id = new_deed()
    codes = saved(stage, binding.make_blanks, 5, deed_id=deed_id)
    assert saved(stage, binding.make_blanks, 5, deed_id=deed_id) == codes
    assert len(set(codes)) == 5
    assert {tag(stage, code).state for code in codes} == {"blank"}


def test_a_blank_bound_to_a_specimen_retires_its_tag_and_both_open_its_card(stage):
    old = code_of(stage, stage.mother)
    (new,) = saved(stage, binding.make_blanks, 1)
    saved(stage, binding.bind, new.lower(), "specimen", stage.mother)
    assert code_of(stage, stage.mother) == new
    assert (tag(stage, new).state, tag(stage, old).state) == ("live", "retired")
    with stage.database.reading() as session:
        assert {cards.find(session, code).target_id for code in (old, new)} == {stage.mother}


@pytest.mark.parametrize("kind", ["tank", "rack"])
def test_tanks_and_racks_take_a_tag_too(stage, kind):
    (code,) = saved(stage, binding.make_blanks, 1)
    target = {"tank": stage.tank, "rack": stage.rack}[kind]
    saved(stage, binding.bind, code, kind, target)
    assert tag(stage, code).target.id == target


def test_a_tag_in_use_is_not_bound_to_another_unless_that_is_meant(stage):
    code = code_of(stage, stage.mother)
    with pytest.raises(BadInput, match="Two never share a tag"):
        saved(stage, binding.bind, code, "rack", stage.rack)
    saved(stage, binding.bind, code, "rack", stage.rack, stage.mother)
    found = tag(stage, code)
    assert (found.target.id, found.in_conflict) == (stage.rack, False)
    assert code_of(stage, stage.mother) is None


def test_a_new_specimen_under_a_blank_tag(stage):
    (code,) = saved(stage, binding.make_blanks, 1)
    given = {"profile_key": "zoanthus", "name": "Dusk", "origin": "bought_in", "tank_id": stage.tank}
    deed_id = new_deed()
    specimen_id = saved(stage, binding.bind_new, code, given, deed_id=deed_id)
    assert saved(stage, binding.bind_new, code, given, deed_id=deed_id) == specimen_id
    assert code_of(stage, specimen_id) == code
    with pytest.raises(BadInput, match="in use"):
        saved(stage, binding.bind_new, code, given)


def test_replace_retire_free_and_undo_are_all_in_the_history(stage):
    old = code_of(stage, stage.mother)
    (new,) = saved(stage, binding.make_blanks, 1)
    replacing = new_deed()
    saved(stage, binding.replace, old, new, deed_id=replacing)
    assert [tag(stage, code).state for code in (old, new)] == ["retired", "live"]
    saved(stage, lambda session, author, _deed: undo(session, author, replacing))
    assert [tag(stage, code).state for code in (old, new)] == ["live", "blank"]
    saved(stage, binding.retire, old, "torn")
    saved(stage, binding.free, old)
    assert tag(stage, old).state == "blank"
    kinds = [told.kind for told in tag(stage, old).story]
    assert kinds == ["unbound", "tag_retired", "undone", "tag_retired", "bound"]


def test_misread_and_foreign_codes_are_refused(stage):
    with pytest.raises(BadInput, match="whole code"):
        tag(stage, "AAAAAAA")


def test_two_phones_that_bind_one_blank_make_a_conflict_whatever_arrives_first(stage):
    with stage.database.reading() as session:
        start = session.get(SpecimenRow, stage.mother).started_at
    one, two, three = ("1" * 32, "2" * 32, "3" * 32)
    events = [
        Happened("a" * 32, "tag_made", start, {}),
        Happened("b" * 32, "bound", start + timedelta(minutes=1), {"target_kind": "rack", "target_id": one}),
        Happened("c" * 32, "bound", start + timedelta(minutes=2), {"target_kind": "rack", "target_id": two}),
    ]
    presents = [present_tag(order) for order in permutations(events)]
    assert all(now == presents[0] for now in presents)
    assert presents[0]["target_id"] == two
    assert [conflict["other_id"] for conflict in presents[0]["conflicts"]] == [one]
    meant = {"target_kind": "rack", "target_id": three, "instead_of": two}
    settled = [*events, Happened("d" * 32, "bound", start + timedelta(minutes=3), meant)]
    assert {str(present_tag(order)["conflicts"]) for order in permutations(settled)} == {"[]"}
