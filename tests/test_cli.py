"""The command line, on a shop of its own."""

import sqlite3
from contextlib import closing

import pytest
from click.testing import CliRunner

from tests.stage import PIN
from webapp import cli, doctoring
from webapp.services import people, shop
from webapp.storage import backup


@pytest.fixture
def run(stage, tmp_path, monkeypatch):
    monkeypatch.setenv("RACKSIDE_INSTANCE", str(tmp_path / "instance"))
    monkeypatch.setenv("RACKSIDE_DATABASE", stage.url)
    return lambda *words, **options: CliRunner().invoke(cli.main, [str(word) for word in words], **options)


def test_backup_and_restore_tell_what_they_checked(run, stage, tmp_path):
    kept = tmp_path / "kept.sqlite"
    done = run("backup", kept)
    assert done.exit_code == 0
    assert "whole and checked" in done.output
    assert "1 specimens" in done.output
    stage.close()
    restored = run("restore", kept)
    assert restored.exit_code == 0
    assert "What was there before is kept at" in restored.output


def test_an_error_is_a_sentence_and_a_status_not_a_traceback(run, stage, tmp_path):
    kept = tmp_path / "kept.sqlite"
    kept.write_text("something else")
    for command in ("backup", "restore"):
        done = run(command, kept)
        assert done.exit_code == 1
        assert done.output.startswith("Error: ")
        assert done.output.count("\n") == 1


def test_rebuilding_makes_the_same_present(run, stage, tmp_path):
    before, after = tmp_path / "before.sqlite", tmp_path / "after.sqlite"
    backup.backup(stage.url, before)
    done = run("rebuild")
    assert done.exit_code == 0
    assert "Made again from the history" in done.output
    backup.backup(stage.url, after)
    for table in ("specimen", "tank", "rack", "tag"):
        rows = [_rows(path, table) for path in (before, after)]
        assert rows[0]
        assert rows[0] == rows[1]


def _rows(path, table):
    with closing(sqlite3.connect(path)) as connection:
        return sorted(connection.execute(f"SELECT * FROM {table}"), key=repr)


def test_people_are_added_listed_and_given_new_pins(run, stage):
    assert run("people", "add", "Ines", input=f"{PIN}\n{PIN}\n").exit_code == 0
    listed = run("people", "list").output
    assert "Noor  owner" in listed
    assert "Ines  staff" in listed
    assert run("people", "reset-pin", "Ines", input="735102\n735102\n").exit_code == 0
    with stage.database.saving() as session:
        assert not people.sign_in(session, "Ines", PIN, "", stage.later()).token
        assert people.sign_in(session, "Ines", "735102", "", stage.later()).token


def test_a_pin_that_is_typed_differently_the_second_time_is_not_taken(run):
    assert run("people", "add", "Ines", input=f"{PIN}\n735102\n").exit_code != 0


def test_the_doctor_finds_a_sound_shop_well(run, monkeypatch):
    monkeypatch.setattr(doctoring, "lan_addresses", lambda: ["192.168.1.20"])
    done = run("doctor")
    assert "is sound: " in done.output
    assert "Labels lead to http://SHOP.LOCAL/" in done.output
    assert "LOOK" not in done.output
    assert done.exit_code == 0


def test_the_doctor_names_a_damaged_database(run, stage):
    stage.close()
    backup.database_file(stage.url).write_text("the disk died here")
    done = run("doctor")
    assert "LOOK" in done.output
    assert "is not a backup of this program" in done.output or "damaged" in done.output
    assert done.exit_code == 1


def test_the_doctor_sees_that_the_address_on_labels_is_no_longer_ours(run, stage, monkeypatch):
    monkeypatch.setattr(doctoring, "lan_addresses", lambda: ["192.168.1.20"])
    with stage.database.saving() as session:
        shop.save_shop(session, shop.load_shop(session), host="192.168.1.99")
    assert "Labels lead to 192.168.1.99, no longer this computer" in run("doctor").output


def test_an_empty_place_is_told_how_to_begin(run, tmp_path, monkeypatch):
    monkeypatch.setenv("RACKSIDE_DATABASE", f"sqlite:///{tmp_path / 'none.sqlite'}")
    done = run("doctor")
    assert "There is no database" in done.output
    assert not (tmp_path / "none.sqlite").exists()
