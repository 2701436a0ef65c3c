"""Forms that were filled in without signal: put to the page they belong to, as the person who filled them in then."""

import base64
import binascii
import re
from html import unescape
from io import BytesIO
from typing import Any

from flask import Request, current_app, g, request, session
from werkzeug.datastructures import FileStorage, MultiDict
from werkzeug.exceptions import HTTPException
from werkzeug.routing import RequestRedirect
from werkzeug.wrappers import Response

from webapp.errors import Refused, ShopError
from webapp.services.outbox import ACCEPTED, KNOWN, OUR_FAULT, REFUSED, Authors
from webapp.services.recording import deeds_here, happening_at
from webapp.views.identity import author
from webapp.views.saving import reading, reading_anew
from webapp.views.straight import straight_because

#: What a page may not change of the session that the form is sent in.
_OWN = ("_flashes", "token", "tokens", "csrf_token", "_permanent")
REASONS = {403: "Only an owner may do that.", 404: "The page for this is gone. Look whether it is still needed."}
_ERRORS = re.compile(r'<div class="errors".*?</div>', re.DOTALL)
_TAGS = re.compile(r"<h2>.*?</h2>|<[^>]+>", re.DOTALL)


def replay(item: dict[str, Any], device_id: str, live: bool) -> dict[str, str]:
    """What became of the form: a reply, with where to go next. The deed in the form makes it happen once."""
    form = item["form"]
    outcome = {"id": item["id"], "state": REFUSED, "reason": ""}
    deeds = {value for name, value in form["fields_"] if name.split("-")[-1] == "deed"}
    if deeds != {item["deed_id"]}:
        return outcome | {"reason": "This form has no deed of its own. Open the page and do it there."}
    try:
        if deeds_here(reading_anew(), deeds):
            return outcome | {"state": KNOWN}
        person = Authors(reading(), device_id, author()).of(item["session"], item["occurred_at"])
        return outcome | _put(form, item, person, live)
    except ShopError as error:
        return outcome | {"reason": str(error)}
    except HTTPException as error:
        return outcome | {"reason": REASONS.get(error.code or 0, error.description or "This could not be done.")}
    except Exception as error:
        if current_app.testing:
            raise
        current_app.logger.exception("A kept form broke %s", form["action"], exc_info=error)
        return outcome | {"reason": OUR_FAULT}


def _put(form: dict[str, Any], item: dict[str, Any], person: Any, live: bool) -> dict[str, str]:
    """Call the view as a request of that person at that moment would have."""
    fields: MultiDict[str, Any] = MultiDict([*form["fields_"], *((f["field"], _file(f)) for f in form["files"])])
    held = {key: value for key, value in session.items() if key not in _OWN}
    door = {"rackside.door": request.environ.get("rackside.door", "public")}
    with (
        current_app.app_context(),
        current_app.test_request_context(
            form["action"], method="POST", data=fields, base_url=request.host_url, environ_overrides=door
        ) as there,
    ):
        _check_page(there.request)
        session.update(held)
        g.staff, g.now, g.csrf_valid, g.afterwards = person, item["occurred_at"], True, not live
        with happening_at(item["occurred_at"]):
            view = current_app.view_functions[there.request.endpoint]
            answer = current_app.make_response(view(**(there.request.view_args or {})))
        said = list(session.get("_flashes", []))
        left = {key: value for key, value in session.items() if key not in _OWN}
        done = bool(deeds_here(reading_anew(), {item["deed_id"]}))
        there.request.close()
        there.request.environ["wsgi.input"].close()
    if done and left != held:  # an answer that changes nothing carries no session
        session.update(left)
    if live and done:
        session["_flashes"] = [*session.get("_flashes", []), *said]
    return _outcome(answer, [text for category, text in said if category == "error"], done)


def _check_page(asked: Request) -> None:
    """Raises Refused or NotFound for a form that no page may take afterwards."""
    if isinstance(asked.routing_exception, RequestRedirect):
        raise Refused("The page for this is elsewhere now. Open it and do it there.")
    if asked.routing_exception is not None:
        raise asked.routing_exception
    why = straight_because(asked.endpoint or "")
    if why:
        raise Refused(f"This is not done without signal: {why}. Open the page and do it there.")


def _outcome(answer: Response, problems: list[str], done: bool) -> dict[str, str]:
    """Done is what is recorded, whatever the page said."""
    if done:
        return {"state": ACCEPTED, "location": answer.headers.get("Location", "")}
    found = _ERRORS.search(answer.get_data(as_text=True))
    words = " ".join(unescape(_TAGS.sub(" ", found[0])).split()) if found else ""
    return {"reason": " ".join([words, *problems]).strip() or "This could not be done. Open the page and do it there."}


def _file(given: dict[str, str]) -> FileStorage:
    try:
        data = base64.b64decode(given["data"], validate=True)
    except binascii.Error as error:
        raise Refused("A picture did not arrive whole. Take it again.") from error
    return FileStorage(BytesIO(data), filename=given["name"], content_type=given["type"])
