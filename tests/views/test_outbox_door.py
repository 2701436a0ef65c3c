"""The door for what was done without signal: every event once, each judged by itself, the author proven."""

import re
from datetime import UTC, datetime, timedelta

import pytest

from tests.door import Phone, events, hire, phone, row
from webapp.services import devices, people


def test_an_event_is_kept_once_however_often_it_comes(stage):
    one = phone(stage)
    note = one.event("noted", stage.mother, {"text": "Opens well.", "public": False})
    assert one.deliver(note) == ["accepted"]
    assert one.deliver(note) == ["known"]
    assert one.deliver(note, note) == ["known", "known"]
    [kept] = events(stage, kind="noted")
    assert (kept.id, kept.author_name, kept.deed_id) == (note["id"], "Noor", note["deed_id"])


def test_it_happened_when_it_happened(stage):
    one = phone(stage)
    then = datetime.now(UTC) - timedelta(seconds=40)
    one.deliver(one.event("noted", stage.mother, {"text": "Before the signal went."}, then))
    [kept] = events(stage, kind="noted")
    assert kept.occurred_at == then
    assert kept.received_at > then


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"kind": "teleported"}, "not a kind of event"),
        ({"payload": {"text": ""}}, "right form"),
        ({"payload": {"text": "x", "author": "Somebody"}}, "right form"),
        ({"kind": "priced", "payload": {"price_cents": -500}}, "price: an amount from 0.00 to 100000.00"),
        ({"subject_id": "0" * 32}, "no such specimen"),
        ({"occurred_at": "2126-01-01T00:00:00+00:00"}, "future"),
        ({"occurred_at": "yesterday"}, "right form"),
        ({"session": "0" * 64}, "Nobody was signed in"),
        ({"id": "short"}, "right form"),
        ({"payload": None}, "right form"),
    ],
)
def test_one_bad_event_never_holds_up_the_others(stage, changes, reason):
    one = phone(stage)
    good = [one.event("noted", stage.mother, {"text": f"Good {number}."}) for number in range(3)]
    bad = one.event("noted", stage.mother, {"text": "Bad."}) | changes
    assert one.deliver(good[0], bad, *good[1:]) == ["accepted", "refused", "accepted", "accepted"]
    assert reason in one.reasons[1]
    assert len(events(stage, kind="noted")) == 3


@pytest.mark.parametrize("junk", [None, 7, "text", [], {}])
def test_what_is_no_event_at_all_is_answered_too(stage, junk):
    one = phone(stage)
    good = one.event("noted", stage.mother, {"text": "Good."})
    replies = one.post([junk, good]).json["replies"]
    assert [reply["state"] for reply in replies] == ["refused", "accepted"]


def test_another_event_under_the_same_id_is_refused(stage):
    one = phone(stage)
    note = one.event("noted", stage.mother, {"text": "First."})
    assert one.deliver(note, note | {"kind": "named", "payload": {"name": "Other"}}) == ["accepted", "refused"]
    assert one.deliver(note | {"kind": "named", "payload": {"name": "Other"}}) == ["refused"]
    assert row(stage).name == "Ember Ring"


def test_an_event_that_breaks_something_here_costs_the_others_nothing(stage, monkeypatch):
    from webapp.storage import history

    one = phone(stage)
    take = history.take

    def breaking(session, taken):
        take(session, taken)
        if any(event.payload.get("text") == "poison" for event in taken):
            raise RuntimeError("a fold broke")

    monkeypatch.setattr(history, "take", breaking)
    items = [one.event("noted", stage.mother, {"text": text}) for text in ("a", "poison", "b")]
    assert one.deliver(*items) == ["accepted", "refused", "accepted"]
    assert "stays on the phone" in one.reasons[1]
    assert [event.payload["text"] for event in events(stage, kind="noted")] == ["a", "b"]


def test_the_author_is_whoever_was_signed_in_then_whatever_was_sent(stage):
    hire(stage, "Ines")
    shared = phone(stage, "Ines")
    by_ines = shared.event("noted", stage.mother, {"text": "By Ines."}, author="Noor", author_name="Noor")
    shared.sign_in("Noor")
    by_noor = shared.event("noted", stage.mother, {"text": "By Noor."})
    assert shared.deliver(by_ines, by_noor) == ["accepted", "accepted"]
    assert [event.author_name for event in events(stage, kind="noted")] == ["Ines", "Noor"]


def test_a_session_of_another_device_proves_nothing(stage):
    hire(stage, "Ines")
    one, other = phone(stage), phone(stage, "Ines")
    forged = one.event("noted", stage.mother, {"text": "As Ines."}, session=other.handle)
    assert one.deliver(forged) == ["refused"]


def test_work_done_while_signed_in_is_not_lost_when_the_session_has_ended_meanwhile(stage):
    hire(stage, "Ines")
    shared = phone(stage, "Ines")
    note = shared.event("noted", stage.mother, {"text": "Before the end."})
    shared.open("/switch").send("/sign-out")
    assert shared.post([note]).status_code == 401
    shared.sign_in("Noor")
    assert shared.deliver(note) == ["accepted"]
    [kept] = events(stage, kind="noted")
    assert kept.author_name == "Ines"


def test_what_was_done_after_a_session_had_ended_counts_when_the_same_person_signs_in_again(stage):
    hire(stage, "Ines")
    shared = phone(stage, "Ines")
    before = shared.handle
    with stage.database.saving() as session:
        people.set_secret(session, "Ines", "735102")
    late = datetime.now(UTC) + timedelta(minutes=9)
    note = shared.event("noted", stage.mother, {"text": "After the end."}, late, session=before)
    much_later = {"occurred_at": (datetime.now(UTC) - timedelta(days=3)).isoformat()}
    assert shared.post([note]).status_code == 401
    shared.sign_in("Noor")
    assert shared.deliver(note | much_later) == ["refused"]
    shared.sign_in("Ines", "735102")
    assert shared.deliver(note | much_later) == ["accepted"]
    assert events(stage, kind="noted")[0].author_name == "Ines"


def test_a_device_that_is_shut_out_is_turned_away_and_its_sessions_are_over(stage):
    one = phone(stage)
    with stage.database.saving() as session:
        [known] = devices.devices(session)
        devices.revoke(session, known.id, datetime.now(UTC))
    assert one.post([one.event("noted", stage.mother, {"text": "x"})]).status_code == 401
    assert one.open("/stock").path.startswith("/sign-in")


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "https://elsewhere.example"}, {"Origin": ""}, {"Origin": "http://localhost"}, {"X-Rackside": ""},
        {"Content-Type": "text/plain"},
    ],
)  # fmt: skip
def test_only_a_page_of_this_shop_can_send(stage, headers):
    """RFC 6454: the browser itself says where a request comes from; a form of another site can set neither header."""
    one = phone(stage)
    note = one.event("noted", stage.mother, {"text": "x"})
    assert one.post([note], headers).status_code in (403, 415)
    assert not events(stage, kind="noted")


def test_walk_ins_have_no_such_door(stage):
    walk_in = Phone(stage, "public")
    assert walk_in.post([]).status_code == 404
    assert walk_in.open("/outbox").status == 404
    assert walk_in.open("/sw.js").status == 404


def test_an_older_program_is_told_to_take_the_new_one_and_loses_nothing(stage):
    one = phone(stage)
    answer = one.post([one.event("noted", stage.mother, {"text": "x"})], shape=0)
    assert answer.status_code == 426
    assert "older program" in answer.json["error"]


@pytest.mark.parametrize(("minutes", "told"), [(0, ""), (7, "7 min ahead of"), (-45, "45 min behind")])
def test_a_wrong_clock_is_noticed_and_told(stage, minutes, told):
    one = phone(stage)
    answer = one.post([], now=(datetime.now(UTC) + timedelta(minutes=minutes)).isoformat()).json
    assert told in answer["clock"]
    assert bool(answer["clock"]) == bool(told)
    with stage.database.reading() as session:
        [known] = devices.devices(session)
    assert known.skew_s == pytest.approx(minutes * 60, abs=20)


def test_two_phones_that_changed_the_same_plug_both_keep_their_history_and_the_later_deed_stands(stage):
    one, other = phone(stage), phone(stage)
    base = datetime.now(UTC) - timedelta(seconds=50)
    early = one.event("priced", stage.mother, {"price_cents": 1000}, base)
    late = other.event("priced", stage.mother, {"price_cents": 2000}, base + timedelta(seconds=20))
    assert other.deliver(late) == ["accepted"]
    assert one.deliver(early) == ["accepted"]
    assert row(stage).price_cents == 2000
    assert len(events(stage, kind="priced")) == 2


def test_sold_twice_on_two_phones_is_kept_and_shown(stage):
    one, other = phone(stage), phone(stage)
    assert one.deliver(one.event("sold", stage.mother, {"price_cents": 900})) == ["accepted"]
    assert other.deliver(other.event("sold", stage.mother, {"price_cents": 900})) == ["accepted"]
    assert row(stage).conflicts


def test_the_counter_sells_but_records_nothing_else(stage):
    hire(stage, "Till", "counter")
    till = phone(stage, "Till")
    priced, sold = till.event("priced", stage.mother, {"price_cents": 1}), till.event("sold", stage.mother)
    noted = phone(stage).event("noted", stage.mother, {"text": "x"})
    assert till.deliver(priced, sold) == ["refused", "accepted"]
    assert "counter" in till.reasons[0]
    by_owner = phone(stage)
    moved = by_owner.event("named", stage.mother, {"name": "New"})
    assert by_owner.deliver(moved) == ["accepted"]
    undo = till.event("undone", "", {"event_id": moved["id"]})
    assert till.deliver(undo, till.event("undone", "", {"event_id": sold["id"]})) == ["refused", "accepted"]
    assert till.open("/settings").status == 403
    assert noted["kind"] == "noted"


# ---- forms that were filled in without signal


def test_the_counter_is_offered_only_what_it_may_record(stage):
    hire(stage, "Till", "counter")
    counter, owner = phone(stage, "Till").open("/do"), phone(stage).open("/do")
    kinds = [set(re.findall(r'"kind": ?"(\w+)"', one.page)) for one in (counter, owner)]
    assert kinds[0] == {"sold", "released", "returned"}
    assert kinds[1] == kinds[0] | {"checked", "status_set"}
    assert "The counter sells and prints" in counter.open("/series").text
