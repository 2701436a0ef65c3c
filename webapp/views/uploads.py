"""How much a request may carry: pages that take a photo allow a whole one from a phone, every other page far less."""

from collections.abc import Callable
from typing import Any, TypeVar

from flask import Flask, current_app, request

from webapp.errors import BadInput
from webapp.tags.opening import MAX_PHOTO_BYTES

#: Room for the other fields of the form around the photo.
_ROUND_IT = 200_000
View = TypeVar("View", bound=Callable[..., Any])


def takes_photo(view: View) -> View:
    """Marks a view whose form has a photo. Put it under the route."""
    view.takes_photo = True  # type: ignore[attr-defined]
    return view


def init_app(app: Flask) -> None:
    """Set each request's limit. Call it before anything that reads forms."""
    app.before_request(_set_limit)


def sent_photo(field: str = "photo") -> bytes:
    """The photo of this request. BadInput when there is none."""
    file = request.files.get(field)
    data = file.read() if file else b""
    if not data:
        raise BadInput("Take or choose a photo first.", field)
    return data


def _set_limit() -> None:
    view = current_app.view_functions.get(request.endpoint or "")
    if getattr(view, "takes_photo", False):
        request.max_content_length = MAX_PHOTO_BYTES + _ROUND_IT
