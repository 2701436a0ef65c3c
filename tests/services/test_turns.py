"""Taking over a phone without signal: the PIN is sealed on the phone, checked here, counted here."""

import base64
from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import padding
from sqlalchemy import select

from tests.door import phone
from tests.stage import NOW, PIN
from webapp.services import people
from webapp.storage.event import Event
from webapp.storage.shop import Person, StaffSession

INES = "735102"


@pytest.fixture
def shared_phone(stage):
    """A phone of Noor's (owner) on which Ines (staff) has signed in too; Noor is at work."""
    with stage.database.saving() as session:
        people.add_person(session, "Ines", INES, "staff", NOW)
        people.add_person(session, "Otto", "918273", "staff", NOW)
    return phone(stage, "Ines", INES).sign_in("Noor")


def known(one):
    """What the phone is told: (the key to seal with, {name: person})."""
    said = one._client.get("/outbox/people", environ_overrides=one._environ()).json
    return said["key"], {person["name"]: person for person in said["people"]}


def seal(key, pin, label):
    """As a browser does it: RSA-OAEP with SHA-256 and a label (W3C, Web Cryptography API, 22)."""
    lock = serialization.load_der_public_key(base64.b64decode(key))
    scheme = padding.OAEP(padding.MGF1(hashes.SHA256()), hashes.SHA256(), label.encode())
    return base64.b64encode(lock.encrypt(pin.encode(), scheme)).decode()


def turn(one, name, pin, person=None, **changes):
    key, others = known(one)
    handle, person_id = uuid4().hex * 2, person or others[name]["id"]
    made = {"handle": handle, "person_id": person_id, "at": datetime.now(UTC).isoformat()}
    return made | {"sealed": seal(key, pin, f"{handle} {person_id}")} | changes


def note(one, stage, handle, text="By whom?", at=None):
    return one.event("noted", stage.mother, {"text": text}, at) | {"session": handle}


def authors(stage):
    with stage.database.reading() as session:
        return list(session.scalars(select(Event.author_name).where(Event.kind == "noted").order_by(Event.seq)))


def test_the_right_pin_makes_the_deeds_that_persons(stage, shared_phone):
    one = turn(shared_phone, "Ines", INES)
    assert shared_phone.deliver(note(shared_phone, stage, one["handle"]), turns=[one]) == ["accepted"]
    later = note(shared_phone, stage, one["handle"])
    assert shared_phone.deliver(later) == ["accepted"]  # the turn goes on, its PIN is not sent again
    assert shared_phone.deliver(later, turns=[one]) == ["known"]
    assert authors(stage) == ["Ines", "Ines"]


def test_a_wrong_pin_takes_nothing_in_that_name_and_holds_up_nobody_else(stage, shared_phone):
    one = turn(shared_phone, "Ines", "735103")
    own, other = note(shared_phone, stage, shared_phone.handle), note(shared_phone, stage, one["handle"])
    assert shared_phone.deliver(other, own, turns=[one]) == ["refused", "accepted"]
    assert shared_phone.reasons[0] == "The PIN given for Ines then was not right."
    assert authors(stage) == ["Noor"]
    assert shared_phone.deliver(other | {"session": shared_phone.handle}) == ["accepted"]  # into one's own name


def by_name(one, name, at=None):
    """A turn without a PIN."""
    at = at or datetime.now(UTC)
    return {"handle": uuid4().hex * 2, "person_id": known(one)[1][name]["id"], "at": at.isoformat()}


def test_an_owner_takes_over_by_pin_only_and_others_by_name_within_their_shift(stage, shared_phone):
    _key, others = known(shared_phone)
    assert (others["Noor"]["until"], set(others)) == ("", {"Ines", "Noor"})  # Otto has never signed in here
    left = datetime.fromisoformat(others["Ines"]["until"]) - datetime.now(UTC)
    assert timedelta(hours=11, minutes=59) < left <= timedelta(hours=12)
    ines, noor, with_pin = by_name(shared_phone, "Ines"), by_name(shared_phone, "Noor"), turn(shared_phone, "Noor", PIN)
    items = [note(shared_phone, stage, one["handle"]) for one in (ines, noor, with_pin)]
    assert shared_phone.deliver(*items, turns=[ines, noor, with_pin]) == ["accepted", "refused", "accepted"]
    assert shared_phone.reasons[1].startswith("The PIN of Noor was needed to take over then.")
    assert authors(stage) == ["Ines", "Noor"]


def test_a_turn_by_name_counts_until_the_shift_of_the_pin_before_it_is_over(stage, shared_phone):
    given = datetime.now(UTC) - timedelta(hours=20)
    with stage.database.saving() as session:
        [kept] = session.scalars(select(StaffSession).join(Person).where(Person.name == "Ines"))
        kept.created_at = given
    at = given + timedelta(hours=11)
    ines, late = by_name(shared_phone, "Ines", at), by_name(shared_phone, "Ines", given + timedelta(hours=13))
    turns = [(ines, 11), (ines, 11.9), (ines, 14), (late, 13)]
    items = [note(shared_phone, stage, one["handle"], at=given + timedelta(hours=hours)) for one, hours in turns]
    assert shared_phone.deliver(*items, turns=[ines, late]) == ["accepted", "accepted", "refused", "refused"]
    assert shared_phone.reasons[2].startswith("Nobody was signed in on this device then.")
    assert shared_phone.reasons[3].startswith("The PIN of Ines was needed to take over then.")
    then = given + timedelta(hours=15)  # what was begun by name makes it no longer
    again = by_name(shared_phone, "Ines", then)
    assert shared_phone.deliver(note(shared_phone, stage, again["handle"], at=then), turns=[again]) == ["refused"]
    shared_phone.sign_in("Ines", INES)  # the PIN settles it
    settled = [items[2], items[3] | {"session": shared_phone.handle}]
    assert shared_phone.deliver(*settled) == ["accepted", "accepted"]
    assert authors(stage) == ["Ines"] * 4


def test_who_signed_out_does_not_take_over_by_name(stage, shared_phone):
    one = by_name(shared_phone, "Ines")
    with stage.database.saving() as session:
        [kept] = session.scalars(select(StaffSession).join(Person).where(Person.name == "Ines"))
        kept.ended_at = datetime.now(UTC) - timedelta(hours=1)
        kept.created_at = datetime.now(UTC) - timedelta(hours=2)
    assert known(shared_phone)[1]["Ines"]["until"] == ""
    assert shared_phone.deliver(note(shared_phone, stage, one["handle"]), turns=[one]) == ["refused"]


def test_wrong_pins_are_counted_for_the_device_and_wait_as_at_the_sign_in(stage, shared_phone):
    wrong = [turn(shared_phone, "Noor", f"10000{number}") for number in range(people.FREE_TRIES)]
    items = [note(shared_phone, stage, one["handle"]) for one in wrong]
    assert shared_phone.deliver(*items, turns=wrong) == ["refused"] * people.FREE_TRIES
    right = turn(shared_phone, "Noor", PIN)
    item, own = note(shared_phone, stage, right["handle"]), note(shared_phone, stage, shared_phone.handle)
    said = shared_phone.post([item, own], turns=[right]).json
    assert [one["state"] for one in said["turns"]] == ["later"]
    assert [reply["id"] for reply in said["replies"]] == [own["id"]]  # what has to wait is not answered: it stays


@pytest.mark.parametrize(
    "changes", [{"handle": "a" * 64}, {"sealed": "AAAA"}, {"sealed": "not base 64"}, {"person_id": "0" * 32}]
)
def test_a_seal_serves_one_turn_of_one_person(stage, shared_phone, changes):
    one = turn(shared_phone, "Ines", INES) | changes
    assert shared_phone.deliver(note(shared_phone, stage, one["handle"]), turns=[one]) == ["refused"]
    assert authors(stage) == []


def test_who_never_signed_in_on_the_device_cannot_take_it_over(stage, shared_phone):
    with stage.database.reading() as session:
        otto = next(row[0] for row in people.people(session) if row[1] == "Otto")
    one = turn(shared_phone, "Otto", "918273", otto)
    assert shared_phone.deliver(note(shared_phone, stage, one["handle"]), turns=[one]) == ["refused"]
    assert "signed in on this device before" in shared_phone.reasons[0]


def test_another_phone_cannot_use_the_turn_nor_does_it_let_anybody_in(stage, shared_phone):
    one = turn(shared_phone, "Ines", INES)
    shared_phone.deliver(note(shared_phone, stage, one["handle"]), turns=[one])
    other = phone(stage)
    assert other.deliver(note(other, stage, one["handle"])) == ["refused"]
    assert other.deliver(note(other, stage, one["handle"]), turns=[one]) == ["refused"]
    with stage.database.reading() as session:
        assert people.author_for(session, one["handle"], datetime.now(UTC)) is None


def test_it_covers_a_shift_and_no_more(stage, shared_phone):
    then = datetime.now(UTC) - timedelta(days=2)
    one = turn(shared_phone, "Ines", INES, at=then.isoformat())
    items = [note(shared_phone, stage, one["handle"], at=then + timedelta(hours=hours)) for hours in (-1, 0, 11, 13)]
    assert shared_phone.deliver(*items, turns=[one]) == ["refused", "accepted", "accepted", "refused"]
