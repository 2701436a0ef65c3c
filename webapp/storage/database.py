"""The engine and its two kinds of session: one that reads, one that writes and holds the write lock from the start."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Connection, Engine, create_engine, event, update
from sqlalchemy.orm import Session, sessionmaker

from webapp.storage import care as _care  # noqa: F401
from webapp.storage import event as _event  # noqa: F401  every model is loaded with the database
from webapp.storage import place as _place  # noqa: F401
from webapp.storage import sale as _sale  # noqa: F401
from webapp.storage import specimen as _specimen  # noqa: F401
from webapp.storage.shop import Clock
from webapp.storage.watching import Watches

BUSY_TIMEOUT_S = 10


def _prepare(connection: sqlite3.Connection, _record: object) -> None:
    """SQLite's own defaults do not suit a shop: foreign keys off, one writer blocks readers, no patience."""
    connection.isolation_level = None  # the driver must not begin transactions by itself
    for pragma in (
        "foreign_keys=ON",
        "journal_mode=WAL",
        "synchronous=NORMAL",
        f"busy_timeout={BUSY_TIMEOUT_S * 1000}",
    ):
        connection.execute(f"PRAGMA {pragma}")


def _begin(connection: Connection) -> None:
    mode = connection.get_execution_options().get("sqlite_begin", "DEFERRED")
    connection.connection.driver_connection.execute(f"BEGIN {mode}")  # type: ignore[union-attr]


def open_engine(url: str) -> Engine:
    """An engine for `url` (any SQLAlchemy URL); on SQLite with write-ahead log, foreign keys and a busy timeout."""
    engine = create_engine(url)
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _prepare)
        event.listen(engine, "begin", _begin)
    return engine


class Database:
    """Sessions of one database. Close it when the app stops."""

    def __init__(self, url: str):
        self.engine = open_engine(url)
        self._reading = sessionmaker(self.engine, autoflush=False)
        self._saving = sessionmaker(self.engine.execution_options(sqlite_begin="IMMEDIATE"))
        self._watches = Watches(self.engine)

    def reading(self) -> Session:
        """A session to read with; the caller closes it."""
        return self._reading()

    @contextmanager
    def saving(self) -> Iterator[Session]:
        """The one commit: all that is done inside is kept together, or nothing of it when an error leaves the block."""
        session = self._saving()
        try:
            yield session
            session.execute(update(Clock).values(revision=Clock.revision + 1))
            session.commit()
        except BaseException:
            session.rollback()
            raise
        finally:
            session.close()

    def asking(self) -> Connection | None:
        """What this thread asks single questions with, without a session's upkeep; None where sessions must do."""
        return self._watches.connection()

    def revision(self) -> int:
        """The number of the last commit that this process can see; cheap enough to ask at every request."""
        return self._watches.revision()

    def close(self) -> None:
        """Let go of every connection."""
        self._watches.close()
        self.engine.dispose()
