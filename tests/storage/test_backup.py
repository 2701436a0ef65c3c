"""A backup made while the shop is open holds one whole moment, and comes back whole."""

import os
import sqlite3
import threading
from contextlib import closing

import pytest

from tests.stage import PIN, Stage
from webapp.errors import BadInput
from webapp.services import intake, people
from webapp.services.recording import new_deed
from webapp.storage import backup, migrating
from webapp.storage.database import Database


def everything(path):
    """Every row of every table, whatever the order, as the sqlite3 module alone sees them."""
    with closing(sqlite3.connect(path)) as connection:
        tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {name: sorted(map(repr, connection.execute(f'SELECT * FROM "{name}"'))) for name in tables}


def revision(path):
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute("SELECT revision FROM clock").fetchone()[0]


def take_in_one(stage, number):
    given = {"profile_key": "zoanthus", "name": f"Number {number}", "origin": "bought_in", "tank_id": stage.tank}
    with stage.database.saving() as session:
        return intake.take_in(session, stage.owner, new_deed(), given)


def test_a_backup_is_one_file_with_every_row_readable_by_its_owner_only(stage, tmp_path):
    kept = tmp_path / "kept.sqlite"
    counts = backup.backup(stage.url, kept)
    assert everything(kept) == everything(backup.database_file(stage.url))
    assert counts["specimen"] == 1
    assert [path.name for path in tmp_path.glob("kept*")] == ["kept.sqlite"]
    assert os.name == "nt" or kept.stat().st_mode & 0o077 == 0


def test_a_backup_while_somebody_writes_holds_whole_deeds_only(stage, tmp_path):
    """Every specimen here comes with its event and its tag in one transaction; a torn copy would have more of one."""
    stop, written = threading.Event(), []

    def write():
        while not stop.is_set() and len(written) < 500:
            take_in_one(stage, len(written))
            written.append(1)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        copies = []
        for number in range(5):
            before = len(written)
            path = tmp_path / f"{number}.sqlite"
            counts = backup.backup(stage.url, path)
            copies.append((before, counts, len(written)))
            assert backup.check(path) == counts
    finally:
        stop.set()
        writer.join()
    for before, counts, after in copies:
        assert before <= counts["specimen"] - 1 <= after + 1
        # two tanks, two racks and every specimen have a tag; each subject has one event and each tag another
        assert counts["tag"] == counts["specimen"] + 4
        assert counts["event"] == 2 * counts["tag"]
    assert written


def test_a_restored_shop_is_the_shop_of_the_backup_and_everybody_signs_in_again(stage, tmp_path):
    with stage.database.saving() as session:
        token = people.sign_in(session, "Noor", PIN, "a phone", stage.later()).token
    kept = tmp_path / "kept.sqlite"
    backup.backup(stage.url, kept)
    take_in_one(stage, 1)
    place = backup.database_file(stage.url)
    stage.close()
    after = everything(place)
    counts, before = backup.restore(kept, stage.url)
    assert everything(before) == after
    told, found = everything(kept), everything(place)
    for changed in ("staff_session", "clock"):
        told.pop(changed), found.pop(changed)
    assert found == told
    assert counts["specimen"] == 1
    opened = Database(stage.url)
    with opened.saving() as session:
        assert people.author_for(session, token, stage.later()) is None
        assert people.sign_in(session, "Noor", PIN, "a phone", stage.later()).token
    opened.close()


def test_pages_kept_by_phones_are_older_than_any_page_of_a_restored_shop(stage, tmp_path):
    kept = tmp_path / "kept.sqlite"
    backup.backup(stage.url, kept)
    for number in range(3):
        take_in_one(stage, number)
    newest = revision(backup.database_file(stage.url))
    stage.close()
    backup.restore(kept, stage.url)
    assert revision(backup.database_file(stage.url)) > newest > revision(kept)


def test_a_backup_goes_onto_a_new_computer(stage, tmp_path):
    kept = tmp_path / "kept.sqlite"
    backup.backup(stage.url, kept)
    url = f"sqlite:///{tmp_path / 'new' / 'shop.sqlite'}"
    counts, before = backup.restore(kept, url)
    assert before is None
    assert counts["event"] == len(everything(backup.database_file(url))["event"])


def test_nothing_is_restored_over_a_shop_that_is_open(stage, tmp_path):
    kept = tmp_path / "kept.sqlite"
    backup.backup(stage.url, kept)
    take_in_one(stage, 1)
    place = backup.database_file(stage.url)
    before = everything(place)
    with pytest.raises(BadInput, match="Stop it first"):
        backup.restore(kept, stage.url)
    assert everything(place) == before
    assert not list(place.parent.glob("*.part*"))


def _cut(path):
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def _scribble(path):
    body = bytearray(path.read_bytes())
    middle = len(body) // 2
    body[middle : middle + 4096] = os.urandom(4096)
    path.write_bytes(body)


def _orphan(path):
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(
            "INSERT INTO staff_session (digest, person_id, device, created_at, seen_at) "
            "VALUES ('d', 'nobody', '', '2026-05-04', '2026-05-04')"
        )


def _newer(path):
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")


def _other_program(path):
    path.unlink()
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("CREATE TABLE something (id INTEGER)")


@pytest.mark.parametrize(
    ("harm", "words"),
    [
        (_cut, "damaged|not a backup"),
        (_scribble, "damaged|not a backup"),
        (_orphan, "a row of staff_session points to a row of person"),
        (_newer, "newer version"),
        (_other_program, "not a backup of this program"),
        (lambda path: path.write_text("a letter"), "not a backup"),
        (lambda path: path.write_bytes(b""), "not a backup"),
        (lambda path: path.unlink(), "not a backup"),
    ],
)
def test_what_is_not_a_whole_backup_is_refused_and_the_shop_stays_as_it_was(tmp_path, harm, words):
    stage = Stage(tmp_path)
    kept = tmp_path / "kept.sqlite"
    backup.backup(stage.url, kept)
    harm(kept)
    stage.close()
    before = everything(backup.database_file(stage.url))
    with pytest.raises(BadInput, match=words):
        backup.restore(kept, stage.url)
    assert everything(backup.database_file(stage.url)) == before
    assert sorted(path.name for path in tmp_path.glob("*.sqlite*") if path != kept) == ["shop.sqlite"]


def test_a_damaged_database_makes_room_for_its_backup(stage, tmp_path):
    kept = tmp_path / "kept.sqlite"
    backup.backup(stage.url, kept)
    stage.close()
    place = backup.database_file(stage.url)
    place.write_text("the disk died here")
    _counts, before = backup.restore(kept, stage.url)
    assert before.read_text() == "the disk died here"
    assert backup.check(place)["specimen"] == 1


def test_a_backup_never_replaces_a_file(stage, tmp_path):
    kept = tmp_path / "kept.sqlite"
    kept.write_text("something dear")
    with pytest.raises(BadInput, match="exists already"):
        backup.backup(stage.url, kept)
    assert kept.read_text() == "something dear"


def test_a_folder_that_does_not_exist_is_told(stage, tmp_path):
    with pytest.raises(BadInput, match="cannot be written"):
        backup.backup(stage.url, tmp_path / "no" / "such" / "folder" / "kept.sqlite")


@pytest.mark.parametrize("url", ["sqlite://", "sqlite:///:memory:", "postgresql://localhost/shop"])
def test_other_databases_are_left_to_their_own_tools(url, tmp_path):
    with pytest.raises(BadInput, match="Only a SQLite file"):
        backup.backup(url, tmp_path / "kept.sqlite")


def test_every_known_revision_contains_the_newest():
    assert set(migrating.heads()) <= migrating.revisions()
