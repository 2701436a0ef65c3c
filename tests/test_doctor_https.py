"""The doctor looks at the shop's own certificate. Lifetimes: `webapp.certificates`, after Apple and RFC 5280."""

from datetime import UTC, datetime, timedelta

import pytest

from webapp import certificates, doctoring, running
from webapp.services.shop import load_shop, save_shop


@pytest.fixture
def folder(stage, tmp_path, monkeypatch):
    """Where the certificate lies. The computer has one address, whatever the real one has."""
    monkeypatch.setenv("RACKSIDE_INSTANCE", str(tmp_path / "instance"))
    for module in (running, doctoring):
        monkeypatch.setattr(module, "lan_addresses", lambda: ["192.168.1.20"])
    monkeypatch.setattr(running, "own_names", lambda: {"localhost", "127.0.0.1", "counter.local"})
    return running.authority_folder()


def made(folder, *hosts, days_ago=0):
    return certificates.hold(folder, hosts, datetime.now(UTC) - timedelta(days=days_ago))


def told(stage):
    """(well, sentence) about https."""
    found = [(one.well, one.sentence) for one in doctoring.examine(stage.url)]
    return [one for one in found if any(word in one[1].lower() for word in ("certif", "authority", "chmod"))]


HOSTS = ("shop.local", "counter.local", "192.168.1.20")


def test_before_the_first_start_there_is_nothing_to_look_after(stage, folder):
    assert told(stage) == [(True, "There is no certificate for staff phones yet; 'serve' makes one.")]


def test_a_fresh_one_is_well_and_says_how_long_it_lasts(stage, folder):
    made(folder, *HOSTS)
    leaf, authority = told(stage)
    assert leaf == (True, "The certificate for staff phones names 5 hosts and lasts 395 more days.")
    assert authority == (True, "Its authority, which phones trust, lasts 3650 more days.")


@pytest.mark.parametrize(("days_ago", "well"), [(397 - 1 - 31, True), (397 - 1 - 29, False), (410, False)])
def test_it_should_be_renewed_within_thirty_days_of_its_end(stage, folder, days_ago, well):
    made(folder, *HOSTS, days_ago=days_ago)
    leaf, _authority = told(stage)
    assert leaf[0] is well
    assert ("renews it" in leaf[1]) is not well


def test_the_end_of_the_authority_is_told_while_there_is_time(stage, folder):
    made(folder, *HOSTS, days_ago=3652 - 380)
    assert [sentence for well, sentence in told(stage) if not well and "authority" in sentence.lower()]


def test_an_address_it_does_not_name_is_told(stage, folder):
    made(folder, "shop.local", "counter.local", "192.168.1.99")
    assert (False, "The certificate does not name 192.168.1.20. 'serve' renews it by itself.") in told(stage)


def test_a_name_its_authority_may_not_vouch_for_is_told(stage, folder):
    made(folder, *HOSTS)
    with stage.database.saving() as session:
        save_shop(session, load_shop(session), host="RACK.EXAMPLE")
    assert any("may not vouch for rack.example" in sentence for well, sentence in told(stage) if not well)


def test_a_key_that_others_can_read_is_told(stage, folder):
    held = made(folder, *HOSTS)
    held.key.chmod(0o644)
    assert any(sentence.endswith(f"chmod 600 {held.key}") for well, sentence in told(stage) if not well)


def test_a_key_of_another_certificate_is_told(stage, folder, tmp_path):
    held = made(folder, *HOSTS)
    held.key.write_bytes(made(tmp_path / "other", *HOSTS).key.read_bytes())
    assert any("do not belong together" in sentence for well, sentence in told(stage) if not well)
