"""Whose turn it is on a device: several people may be signed in on a shared phone, one of them at work."""

import secrets
from typing import Any

from flask import after_this_request, request, session
from werkzeug.wrappers import Response

from webapp.services import devices, people
from webapp.services.people import digest_of
from webapp.services.turns import SHIFT
from webapp.views import cookies
from webapp.views.saving import now, reading


def device_name() -> str:
    """A short word for the device, for the list of sessions: what its browser says it runs on."""
    agent = request.user_agent.string
    names = ("iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux")
    return next((name for name in names if name in agent), "device")


def this_device() -> devices.Known | None:
    """The device of this request, when it is known and not shut out."""
    return devices.device_for(reading(), cookies.device_token())


def sign_in_here(keeping: Any, name: str, secret: str) -> people.SignIn:
    """Try to sign in on this device, which becomes known by the first success."""
    device = devices.device_for(keeping, cookies.device_token())
    known = device.id if device else None
    outcome = people.sign_in(keeping, name, secret, device.name if device else device_name(), now(), known)
    if outcome.token:
        if known is None:
            known, token = devices.register(keeping, device_name(), now())
            people.bind_session(keeping, outcome.token, known)
            after_this_request(_remembering(token))
        take_turn(" ".join(name.split()), outcome.token)
    return outcome


def take_turn(name: str, token: str) -> None:
    """Work goes on in this person's name; whoever else is signed in on the device stays so."""
    others = dict(session.get("tokens", {}))
    _begin(others | {name: token})
    session["token"] = token


def handle() -> str:
    """How this session is named in what the device keeps; it lets nobody in."""
    return digest_of(session.get("token", ""))


def signed_in_here() -> list[tuple[str, bool]]:
    """(name, whether a tap is enough) of everybody with a session on this device, the one at work left out."""
    found = []
    for name, token in session.get("tokens", {}).items():
        person = people.author_for(reading(), token, now()) if token != session.get("token") else None
        if person is not None:
            since = people.signed_in_at(reading(), token)
            found.append((name, person.role != "owner" and since is not None and now() - since < SHIFT))
    return sorted(found)


def leave(keeping: Any) -> None:
    """End the session at work here, on the server too; the others on this device stay."""
    token = session.get("token", "")
    people.sign_out(keeping, token, now())
    left = {name: other for name, other in session.get("tokens", {}).items() if other != token}
    _begin(left)


def _begin(tokens: dict[str, str]) -> None:
    """A session of these tokens. What its forms are known by stands in it from the start: else each of the first pages,
    which a phone asks for at once, would make its own, and the forms of all but the last would have grown old."""
    session.clear()
    session.permanent = True
    session["tokens"] = tokens
    session["csrf_token"] = secrets.token_hex(20)


def _remembering(token: str) -> Any:
    def remember(answer: Response) -> Response:
        cookies.know_again(answer, token)
        return answer

    return remember
