"""Photos that waited on a phone without signal: what is read from them happened when they were taken."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta

from flask import request
from markupsafe import Markup

from webapp.services.recording import happening_at
from webapp.views.saving import now

LONGEST = timedelta(days=30)


def taken_at(present: datetime) -> datetime:
    """When the photo was taken, as the phone says that kept it: not after the present and not older than a month.
    Else the present."""
    try:
        said = datetime.fromisoformat(request.values.get("taken", ""))
    except ValueError:
        return present
    moment = said if said.tzinfo else said.replace(tzinfo=UTC)
    return moment if present - LONGEST <= moment <= present else present


@contextmanager
def when_taken() -> Iterator[None]:
    """What is recorded inside happened when the photo was taken."""
    if not request.values.get("taken"):
        yield
        return
    with happening_at(taken_at(now())):
        yield


def waited_fields() -> Markup:
    """Hidden fields that carry from page to page which photos these are and when they were taken."""
    names = [(name, request.values.get(name, "")[:400]) for name in ("waited", "taken")]
    field = Markup('<input type="hidden" name="{}" value="{}">')
    return Markup("").join(field.format(*pair) for pair in names if pair[1])
