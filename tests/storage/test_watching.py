"""A thread's own open connection: each question sees the newest commit, and it closes from any thread."""

import threading

from sqlalchemy import select

from webapp.storage.database import Database
from webapp.storage.migrating import upgrade
from webapp.storage.shop import Clock, Setting


def _named(database: Database, name: str) -> None:
    with database.saving() as session:
        session.merge(Setting(key="name", value=name))


def test_each_question_sees_what_others_have_kept_until_then(tmp_path):
    url = f"sqlite:///{tmp_path / 'shop.sqlite'}"
    upgrade(url)
    ours, theirs = Database(url), Database(url)
    asked = select(Setting.value).where(Setting.key == "name")
    for number in range(1, 4):
        _named(theirs, f"Name {number}")
        assert ours.asking().execute(asked).scalar_one() == f"Name {number}"
        assert ours.revision() == ours.asking().execute(select(Clock.revision)).scalar_one() == theirs.revision()
    _named(ours, "Our own")
    assert ours.asking().execute(asked).scalar_one() == "Our own"
    ours.close()
    theirs.close()


def test_threads_have_connections_of_their_own_which_the_main_thread_closes(tmp_path):
    url = f"sqlite:///{tmp_path / 'shop.sqlite'}"
    upgrade(url)
    database, found = Database(url), []
    threads = [threading.Thread(target=lambda: found.append(database.asking())) for _ in range(3)]
    for thread in threads:
        thread.start()
        thread.join()
    assert len({id(connection) for connection in [*found, database.asking()]}) == 4
    database.close()
    assert all(connection.closed for connection in found)
