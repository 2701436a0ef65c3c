"""The cookies of staff: a session, and what makes a device known. Over https their names bind them to this host alone.

RFC 6265bis, 4.1.3.2: a browser takes a cookie whose name begins with __Host- only when it is Secure, has no Domain and
the path /, so no other host and no plain http page can set it.

The session holds what is on the till and whose turn it is, and a phone has several requests under way at once. So only
an answer that changes the session carries it: were it in every answer, one to an older request that comes in late would
put back the till, or the person, of before. How long a session lasts unused, the shop counts itself (`SESSION_IDLE`).
"""

from flask import Flask, Request, Response, request
from flask.sessions import SecureCookieSession, SecureCookieSessionInterface

DEVICE = "rackside_device"
LONGEST_S = 400 * 24 * 3600  # the longest that browsers keep a cookie (RFC 6265bis, 5.5)


class DoorSessions(SecureCookieSessionInterface):
    """Flask's own session cookie; secure and bound to the host where the request came over https."""

    def get_cookie_name(self, app: Flask) -> str:
        """The session's name at this door."""
        return bound(super().get_cookie_name(app))

    def open_session(self, app: Flask, request: Request) -> SecureCookieSession | None:
        """Most walk-ins have none: nothing is there to be verified."""
        if self.get_cookie_name(app) not in request.cookies:
            return self.session_class()
        return super().open_session(app, request)

    def get_cookie_secure(self, app: Flask) -> bool:
        """Only over https a browser would keep a secure one."""
        return request.is_secure


def bound(name: str) -> str:
    """The name of a cookie at the door of this request."""
    return f"__Host-{name}" if request.is_secure else name


def device_token() -> str | None:
    """What this device showed of itself."""
    return request.cookies.get(bound(DEVICE))


def know_again(answer: Response, token: str) -> None:
    """Let the device keep its token."""
    answer.set_cookie(
        bound(DEVICE), token, max_age=LONGEST_S, secure=request.is_secure, httponly=True, samesite="Lax", path="/"
    )
