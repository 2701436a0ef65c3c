"""Two doors, one for walk-ins and one for staff. Which one is a property of the listener, never of the peer."""

from collections.abc import Callable, Iterable
from typing import Any

PUBLIC = "public"
STAFF = "staff"
KEY = "rackside.door"

WsgiApp = Callable[[dict[str, Any], Callable[..., Any]], Iterable[bytes]]


def through(app: WsgiApp, door: str) -> WsgiApp:
    """`app` as one listener serves it: every request carries that listener's door, whatever the client sends."""
    if door not in (PUBLIC, STAFF):
        raise ValueError(f"there is no door called {door!r}")

    def marked(environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        environ[KEY] = door
        return app(environ, start_response)

    return marked


def door_of(environ: dict[str, Any]) -> str:
    """The door of a request; one that no listener marked is a walk-in."""
    return environ.get(KEY, PUBLIC)
