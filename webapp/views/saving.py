"""The sessions of a request: one to read with, closed when it ends, and the one commit."""

from collections.abc import Callable, Hashable
from contextlib import AbstractContextManager
from datetime import UTC, datetime
from functools import partial
from typing import Any

from flask import Flask, current_app, g

from webapp.services.memory import Memory

#: (key, make) -> what `make` gave for the key.
Recall = Callable[[Hashable, Callable[[], Any]], Any]


def init_app(app: Flask, database: Any, memory: Memory) -> None:
    """Give the app its database and its memory between requests."""
    app.extensions["rackside"] = (database, memory)
    app.teardown_appcontext(_close)


def reading() -> Any:
    """The session this request reads with."""
    if "reading" not in g:
        g.reading = current_app.extensions["rackside"][0].reading()
    return g.reading


def asking() -> Any:
    """What one question is asked with, which sees what has been kept until then."""
    return current_app.extensions["rackside"][0].asking() or reading()


def reading_anew() -> Any:
    """As `reading`, but seeing what others have kept since."""
    _close()
    return reading()


def saving() -> AbstractContextManager[Any]:
    """`with saving() as session:` keeps all that is done inside together, or nothing of it."""
    _close()
    return current_app.extensions["rackside"][0].saving()


def memory() -> Memory:
    """What is remembered between requests."""
    return current_app.extensions["rackside"][1]


def revision() -> int:
    """The revision of the database that this request began with: what is read is never older."""
    known = g.get("revision")
    if known is None:
        known = g.revision = current_app.extensions["rackside"][0].revision()
    return known


def recalling() -> Recall:
    """`recall(key, make)`: what is remembered at the revision of this request; for pages that ask for many things."""
    return partial(memory().get, revision())


def now() -> datetime:
    """The moment of this request."""
    moment = g.get("now")
    if moment is None:
        moment = g.now = datetime.now(UTC)
    return moment


def afterwards() -> bool:
    """Whether what is asked for has happened already: a form that was filled in without signal and arrives later."""
    return bool(g.get("afterwards", False))


def _close(_error: BaseException | None = None) -> None:
    session = g.pop("reading", None)
    if session is not None:
        session.close()
