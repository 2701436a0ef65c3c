"""Who is asking: the signed-in person, and the gates that staff pages stand behind."""

from collections.abc import Callable
from functools import wraps
from typing import Any
from urllib.parse import urlsplit

from flask import abort, current_app, g, redirect, request, session, url_for
from werkzeug.wrappers import Response

from webapp.services.people import author_for
from webapp.services.recording import Author
from webapp.services.shop import Shop, load_shop
from webapp.views.saving import memory, now, reading, revision

_NOT_ASKED: Any = object()


def shop() -> Shop:
    """The shop's settings."""
    settings = g.get("shop")
    if settings is None:
        settings = g.shop = memory().get(revision(), "shop", lambda: load_shop(reading()))
    return settings


def staff() -> Author | None:
    """The person signed in on this device, or None."""
    person = g.get("staff", _NOT_ASKED)
    if person is _NOT_ASKED:
        token = session.get("token") if staff_door() else None
        person = g.staff = author_for(reading(), token, now()) if token else None
    return person


def staff_door() -> bool:
    """Whether this request came through a listener on which staff may sign in."""
    return request.environ.get("rackside.door") == "staff" or current_app.config["STAFF_ON_PUBLIC_DOOR"]


def author() -> Author:
    """The person signed in; only inside a view behind `staff_only`."""
    person = staff()
    assert person is not None
    return person


def staff_only(view: Callable[..., Any]) -> Callable[..., Any]:
    """A view for people who work here. Through the walk-ins' door it does not exist."""

    @wraps(view)
    def guarded(*args: Any, **kwargs: Any) -> Any:
        if not staff_door():
            abort(404)
        if staff() is None:
            return _to_sign_in()
        return view(*args, **kwargs)

    return guarded


def owner_only(view: Callable[..., Any]) -> Callable[..., Any]:
    """A view for owners."""

    @wraps(view)
    @staff_only
    def guarded(*args: Any, **kwargs: Any) -> Any:
        if author().role != "owner":
            abort(403)
        return view(*args, **kwargs)

    return guarded


def local_path(target: str | None, fallback: str) -> str:
    """`target` if it is a path of this app, else `fallback`: no redirect to a caller's address."""
    if not target:
        return fallback
    parts = urlsplit(target)
    is_path = target.startswith("/") and not target.startswith(("//", "/\\")) and "\\" not in target
    return target if is_path and not parts.scheme and not parts.netloc and target.isprintable() else fallback


def _to_sign_in() -> Response:
    back = request.full_path.rstrip("?") if request.method == "GET" else ""
    return redirect(url_for("people.sign_in", next=back))
