"""One connection a thread that stays open: tells cheaply whether anybody has committed, answers single questions."""

import threading

from sqlalchemy import Connection, Engine, NullPool, create_engine, select

from webapp.storage.shop import Clock


class _Watch(threading.local):
    """One thread's own connection, the version it last saw, and the revision that went with it."""

    connection: Connection | None = None
    version: int = -1
    revision: int = 0


class Watches:
    """Asks `PRAGMA data_version`, which changes with every commit of another connection, and reads the clock only then.

    What is read after `revision()` is never older than what it said. Other databases are asked each time.
    """

    def __init__(self, engine: Engine):
        self._engine = engine
        self._is_sqlite = engine.dialect.name == "sqlite"
        self._own = create_engine(engine.url, poolclass=NullPool, isolation_level="AUTOCOMMIT")
        self._watch = _Watch()
        self._open: list[Connection] = []
        self._lock = threading.Lock()

    def connection(self) -> Connection | None:
        """This thread's own; nothing is ever written through it, and each statement sees the newest commit.

        Only for SQLite, where a connection cannot be lost.
        """
        if not self._is_sqlite:
            return None
        watch = self._watch
        if watch.connection is None:
            watch.connection = self._own.connect()
            with self._lock:
                self._open.append(watch.connection)
        return watch.connection

    def revision(self) -> int:
        """The clock's revision now."""
        connection = self.connection()
        if connection is None:
            with self._engine.connect() as other:
                return _read(other)
        watch = self._watch
        driver = connection.connection.driver_connection
        version = driver.execute("PRAGMA data_version").fetchone()[0]  # type: ignore[union-attr]
        if version != watch.version:
            watch.revision = _read(connection)
            watch.version = version
        return watch.revision

    def close(self) -> None:
        """Let go of every thread's connection."""
        with self._lock:
            for connection in self._open:
                connection.close()
            self._open.clear()
        self._watch = _Watch()
        self._own.dispose()


def _read(connection: Connection) -> int:
    return connection.scalar(select(Clock.revision).where(Clock.id == 1)) or 0
