"""Apps that go from one test's shop to the next: to make one, with all its addresses, takes longer than most tests.

An app knows its shop by its database and its memory alone; what else a test may have told it is taken back.
"""

from collections.abc import Callable

from flask import Flask

from webapp import create_app
from webapp.config import Config
from webapp.security import OWN_HOSTS
from webapp.services.memory import Memory
from webapp.storage.database import Database
from webapp.views.tags import JOBS

_spare: list[tuple[Flask, dict]] = []


def lend(url: str, database: Database, memory: Memory) -> tuple[Flask, Callable[[], None]]:
    """An app of this shop, and what gives it back."""
    if _spare:
        app, config = _spare.pop()
    else:
        app = create_app(Config(url, "a key for tests only", testing=True), database)
        config = dict(app.config)
    app.extensions["rackside"] = (database, memory)

    def give_back() -> None:
        app.config.clear()
        app.config.update(config)
        app.extensions[OWN_HOSTS].clear()
        app.extensions[JOBS].close()
        app.extensions[JOBS] = type(app.extensions[JOBS])()
        _spare.append((app, config))

    return app, give_back
