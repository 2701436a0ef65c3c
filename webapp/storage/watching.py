"""The revision of the database without a query each time: SQLite tells cheaply whether anybody has committed."""

import sqlite3
import threading

from sqlalchemy import Engine, select

from webapp.storage.shop import Clock


class _Watch(threading.local):
    """One thread's own connection, the version it last saw, and the revision that went with it."""

    connection: sqlite3.Connection | None = None
    version: int = -1
    revision: int = 0


class Watches:
    """Asks `PRAGMA data_version`, which changes with every commit of another connection, and reads the clock only then.

    What is read after `revision()` is never older than what it said. Other databases are asked each time.
    """

    def __init__(self, engine: Engine):
        self._engine = engine
        self._watch = _Watch()
        self._open: list[sqlite3.Connection] = []
        self._lock = threading.Lock()

    def revision(self) -> int:
        """The clock's revision now."""
        if self._engine.dialect.name != "sqlite":
            return self._read()
        watch = self._watch
        if watch.connection is None:
            watch.connection = sqlite3.connect(str(self._engine.url.database), check_same_thread=False, timeout=10)
            with self._lock:
                self._open.append(watch.connection)
        version = watch.connection.execute("PRAGMA data_version").fetchone()[0]
        if version != watch.version:
            watch.revision = self._read()
            watch.version = version
        return watch.revision

    def close(self) -> None:
        """Let go of every thread's connection."""
        with self._lock:
            for connection in self._open:
                connection.close()
            self._open.clear()
        self._watch = _Watch()

    def _read(self) -> int:
        with self._engine.connect() as connection:
            return connection.scalar(select(Clock.revision).where(Clock.id == 1)) or 0
