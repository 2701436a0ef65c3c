"""The present follows from the events alone: any order and any repetition of deliveries give the same."""

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from webapp.storage.folding import Happened, standing, undone_ids
from webapp.storage.present_specimen import present_specimen

START = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
TANKS = ["a" * 32, "b" * 32]
BIRTH = {
    "profile_key": "zoanthus",
    "name": "Ring",
    "tank_id": TANKS[0],
    "rack_id": None,
    "slot": "",
    "status": "healing",
}


def happened(number: int, kind: str, payload: dict, minutes: float) -> Happened:
    return Happened(f"{number:032x}", kind, START + timedelta(minutes=minutes), payload)


_PAYLOADS = {
    "born": st.just(BIRTH | {"mother_id": "c" * 32, "method": "saw"}),
    "moved": st.sampled_from(TANKS).map(lambda tank: {"tank_id": tank, "rack_id": None, "slot": ""}),
    "status_set": st.sampled_from(["for_sale", "kept", "healing"]).map(lambda status: {"status": status}),
    "measured": st.integers(1, 40).map(lambda heads: {"heads": heads}),
    "priced": st.integers(0, 9000).map(lambda cents: {"price_cents": cents}),
    "held": st.sampled_from(["pearl", "kelp"]).map(
        lambda word: {"word": word, "until": (START + timedelta(hours=6)).isoformat()}
    ),
    "released": st.just({}),
    "sold": st.integers(0, 9000).map(lambda cents: {"price_cents": cents}),
    "returned": st.just({"status": "quarantine"}),
    "lost": st.just({"cause": "pest"}),
    "noted": st.just({"text": "opens well"}),
}


@st.composite
def histories(draw: st.DrawFn) -> list[Happened]:
    events = [happened(0, "born", BIRTH | {"mother_id": "c" * 32, "method": "saw"}, 0)]
    for number in range(1, draw(st.integers(1, 12))):
        minutes = draw(st.integers(0, 5))  # few values, so that ties are common
        kind = draw(st.sampled_from([*_PAYLOADS, "undone", "corrected"]))
        if kind == "undone":
            target = draw(st.sampled_from(events))
            events.append(happened(number, "undone", {"event_id": target.id}, minutes))
        elif kind == "corrected":
            payload = {"event_id": events[0].id, "changes": {"name": draw(st.sampled_from(["Dot", "Rim"]))}}
            events.append(happened(number, "corrected", payload, minutes))
        else:
            events.append(happened(number, kind, draw(_PAYLOADS[kind]), minutes))
    return events


@given(histories(), st.randoms(use_true_random=False))
def test_any_order_and_any_repetition_give_the_same_present(events, random):
    delivered = events + random.choices(events, k=len(events))
    random.shuffle(delivered)
    assert present_specimen(delivered) == present_specimen(events)


@given(histories())
def test_an_undone_event_leaves_no_trace_and_undoing_the_undo_brings_it_back(events):
    last = events[-1]
    undo = happened(900, "undone", {"event_id": last.id}, 9)
    redo = happened(901, "undone", {"event_id": undo.id}, 10)
    assert present_specimen([*events, undo]) == present_specimen(events[:-1])
    assert present_specimen([*events, undo, redo]) == present_specimen(events)


@given(histories())
def test_everywhere_it_lived_is_one_line_without_gaps_or_overlaps_while_it_was_here(events):
    present = present_specimen(events)
    if present is None:
        return
    ends = [home[3] for home in present["lived"]]
    assert None not in ends[:-1]
    for earlier, later in zip(present["lived"], present["lived"][1:], strict=False):
        assert earlier[3] <= later[2]


def test_two_sales_are_kept_and_shown_as_a_conflict_that_an_undo_settles():
    events = [
        happened(0, "born", BIRTH | {"mother_id": "c" * 32, "method": "saw"}, 0),
        happened(1, "sold", {"price_cents": 2000}, 10),
        happened(2, "sold", {"price_cents": 2500}, 11),
    ]
    present = present_specimen(events)
    assert present["status"] == "sold"
    assert present["price_cents"] == 2000
    assert [one["code"] for one in present["conflicts"]] == ["sold_after_sold"]
    settled = present_specimen([*events, happened(3, "undone", {"event_id": events[1].id}, 12)])
    assert settled["conflicts"] == []
    assert settled["price_cents"] == 2500


def test_a_hold_by_a_second_word_is_a_conflict_and_the_first_stays():
    until = (START + timedelta(days=2)).isoformat()
    events = [
        happened(0, "born", BIRTH | {"mother_id": "c" * 32, "method": "saw"}, 0),
        happened(1, "held", {"word": "pearl", "until": until}, 10),
        happened(2, "held", {"word": "kelp", "until": until}, 11),
    ]
    present = present_specimen(events)
    assert present["hold_word"] == "pearl"
    assert [one["code"] for one in present["conflicts"]] == ["held_twice"]


def test_a_correction_changes_what_was_said_without_removing_it():
    birth = happened(0, "born", BIRTH | {"mother_id": "c" * 32, "method": "saw"}, 0)
    fix = happened(1, "corrected", {"event_id": birth.id, "changes": {"profile_key": "palythoa"}}, 60)
    assert present_specimen([birth, fix])["profile_key"] == "palythoa"
    assert present_specimen([birth, fix, happened(2, "undone", {"event_id": fix.id}, 61)])["profile_key"] == "zoanthus"
    assert birth.payload["profile_key"] == "zoanthus"


def test_two_undos_that_name_each_other_do_not_hang():
    events = [
        happened(1, "undone", {"event_id": f"{2:032x}"}, 0),
        happened(2, "undone", {"event_id": f"{1:032x}"}, 1),
    ]
    assert undone_ids(events) == {f"{1:032x}", f"{2:032x}"}
    assert standing(events) == []


def test_without_a_creation_there_is_no_specimen():
    assert present_specimen([happened(1, "priced", {"price_cents": 5}, 0)]) is None
