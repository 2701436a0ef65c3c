"""The public history kept for the card: what stands, nothing that is the shop's own business, in any order."""

import json

from hypothesis import given
from hypothesis import strategies as st

from tests.storage.test_folding import BIRTH, happened, histories
from webapp.storage.folding import standing
from webapp.storage.present_story import present_story

SECRETS = {"cost_cents": 4711, "supplier": "Deep Water Imports", "papers": "permit 9", "price_cents": 4712,
           "author": "Noor"}  # fmt: skip


def told(events):
    return json.loads(present_story(events)["lines"])


@given(histories(), st.randoms(use_true_random=False))
def test_any_order_and_any_repetition_give_the_same_story(events, random):
    delivered = events + random.choices(events, k=len(events))
    random.shuffle(delivered)
    assert present_story(delivered) == present_story(events)


@given(histories())
def test_only_what_stands_is_told_oldest_first(events):
    moments = {(event.kind, event.occurred_at.isoformat()) for event in standing(events)}
    lines = told(events) if present_story(events) else []
    assert {(kind, at) for kind, at, _values in lines} <= moments
    assert [at for _kind, at, _values in lines] == sorted(at for _kind, at, _values in lines)


def test_costs_suppliers_and_staff_notes_are_not_in_it():
    events = [
        happened(1, "arrived", BIRTH | SECRETS | {"origin": "wild"}, 0),
        happened(2, "noted", {"text": "told the rep to call", "public": False}, 1),
        happened(3, "noted", {"text": "opens well", "public": True}, 2),
        happened(4, "priced", {"price_cents": 4712}, 3),
        happened(5, "sold", {"price_cents": 4712, "sale": 7}, 4),
    ]
    kept = present_story(events)["lines"]
    assert "opens well" in kept
    for secret in (*map(str, SECRETS.values()), "told the rep to call"):
        assert secret not in kept
    assert [kind for kind, _at, _values in json.loads(kept)] == ["arrived", "noted", "sold"]


def test_a_correction_is_told_as_if_it_had_been_so_from_the_start():
    events = [
        happened(1, "born", BIRTH | {"method": "saw"}, 0),
        happened(2, "corrected", {"event_id": f"{1:032x}", "changes": {"method": "scalpel"}}, 1),
    ]
    assert told(events) == [["born", events[0].occurred_at.isoformat(), {
        "method": "scalpel", "status": "healing", "slot": "", "tank_id": BIRTH["tank_id"],
    }]]  # fmt: skip


def test_a_frag_session_says_how_many_and_not_which():
    assert told([happened(1, "cut", {"pieces": ["x", "y"]}, 0)])[0][2] == {"pieces": 2}


def test_nothing_to_tell_is_no_row():
    assert present_story([happened(1, "noted", {"text": "x", "public": False}, 0)]) is None
