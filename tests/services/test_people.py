"""Signing in, and the count of failed tries."""

from datetime import timedelta

import pytest
from sqlalchemy import select
from werkzeug.security import generate_password_hash

from tests.stage import NOW, PIN
from webapp.errors import BadInput
from webapp.services import people
from webapp.storage.shop import Person


def tries(stage, name, secret, moments):
    outcomes = []
    for moment in moments:
        with stage.database.saving() as session:
            outcomes.append(people.sign_in(session, name, secret, "a phone", moment))
    return outcomes


def test_the_right_pin_gives_a_token_that_names_the_person(stage):
    [outcome] = tries(stage, "Noor", PIN, [NOW])
    with stage.database.reading() as session:
        assert people.author_for(session, outcome.token, NOW).name == "Noor"
        assert people.author_for(session, outcome.token + "x", NOW) is None
        assert people.author_for(session, outcome.token, NOW + timedelta(days=31)) is None


def test_a_pin_is_kept_in_a_hash_that_is_costly_to_guess(stage, monkeypatch):
    """scrypt (RFC 7914) with 32 MiB for each guess. All other tests keep PINs in a quicker one."""
    monkeypatch.setattr(people, "generate_password_hash", generate_password_hash)
    with stage.database.saving() as session:
        people.add_person(session, "Ines", PIN, "staff", NOW)
        session.flush()
        kept = session.scalar(select(Person.secret_hash).where(Person.name == "Ines"))
    assert kept.startswith("scrypt:32768:8:1$")
    assert PIN not in kept
    assert tries(stage, "Ines", PIN, [NOW])[0].token


def test_signing_out_ends_the_token_and_not_only_the_cookie(stage):
    [outcome] = tries(stage, "Noor", PIN, [NOW])
    with stage.database.saving() as session:
        people.sign_out(session, outcome.token, NOW)
        session.flush()
        assert people.author_for(session, outcome.token, NOW) is None


def test_an_unknown_name_and_a_wrong_pin_get_the_same_answer(stage):
    [unknown] = tries(stage, "Nobody", PIN, [NOW])
    [wrong] = tries(stage, "Noor", "000111222", [NOW])
    assert unknown.problem == wrong.problem


def test_after_five_failures_even_the_right_pin_waits_and_the_waits_grow(stage):
    tries(stage, "Noor", "wrong-1", [NOW] * 5)
    [blocked] = tries(stage, "noor", PIN, [NOW + timedelta(seconds=30)])
    assert blocked.retry_after_s > 0
    assert blocked.token == ""
    tries(stage, "Noor", "wrong-1", [NOW + timedelta(seconds=61)])
    [longer] = tries(stage, "Noor", PIN, [NOW + timedelta(seconds=62)])
    assert 240 < longer.retry_after_s <= 300
    [open_again] = tries(stage, "Noor", PIN, [NOW + timedelta(minutes=7)])
    assert open_again.token


def test_the_count_holds_over_a_restart(stage):
    from webapp.storage.database import Database

    tries(stage, "Noor", "wrong-1", [NOW] * 5)
    stage.database.close()
    stage.database = Database(stage.url)
    [blocked] = tries(stage, "Noor", PIN, [NOW + timedelta(seconds=1)])
    assert blocked.problem.startswith("Too many tries")


@pytest.mark.parametrize("secret", ["12345", "111111", "121212"])
def test_a_weak_pin_is_refused(stage, secret):
    with pytest.raises(BadInput), stage.database.saving() as session:
        people.add_person(session, "Ilse", secret, "staff", NOW)


def test_the_last_owner_cannot_be_shut_out(stage):
    with pytest.raises(BadInput, match="only owner"), stage.database.saving() as session:
        people.set_active(session, stage.owner.id, False)


def test_a_new_pin_signs_every_device_out(stage):
    [outcome] = tries(stage, "Noor", PIN, [NOW])
    with stage.database.saving() as session:
        people.set_secret(session, "Noor", "another-one")
    with stage.database.reading() as session:
        assert people.author_for(session, outcome.token, NOW) is None
