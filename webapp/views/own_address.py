"""The address under which the page of a refused form is opened again, so that 'back' never asks to send it anew."""

from flask import request

from webapp.views.straight import reads_only


def own_address() -> str | None:
    """For a page that answers a form: the address that opens it; '' where that is the page on which the form stood,
    which the browser knows. None for a page that was opened by its address, and for one that exists as an answer only:
    a photo that was read."""
    if request.method != "POST" or request.url_rule is None or reads_only(request.endpoint or ""):
        return None
    return request.full_path.rstrip("?") if "GET" in (request.url_rule.methods or ()) else ""
