"""What every answer carries and every request must have: written-out headers, cache rules, a host that is ours.

There is no HSTS on purpose: it covers every port of a name (RFC 6797, section 8.3) and would turn the plain http
addresses on printed tags into dead ends.
"""

from flask import Flask, Response, g, request

from webapp import doors
from webapp.addresses import own_names
from webapp.services.shop import load_shop
from webapp.views.saving import reading

CONTENT_SECURITY_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
    "connect-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; "
    "object-src 'none'; frame-ancestors 'none'"
)
HEADERS = {
    "Content-Security-Policy": CONTENT_SECURITY_POLICY,
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), clipboard-write=(self), geolocation=(), microphone=(), payment=(), usb=()",
}
# Only a secure context honours the opener policy; on the walk-ins' plain http a browser would log an error instead.
STAFF_HEADERS = (
    *HEADERS.items(), ("Cross-Origin-Opener-Policy", "same-origin"), ("Referrer-Policy", "same-origin"),
)  # fmt: skip
PUBLIC_HEADERS = (*HEADERS.items(), ("Referrer-Policy", "no-referrer"))


#: Where an app keeps the names it answers to.
OWN_HOSTS = "rackside_own_hosts"


def init_app(app: Flask) -> None:
    """Guard every request and dress every answer. Call it before the blueprints: its check must come first."""
    ours: set[str] = app.extensions.setdefault(OWN_HOSTS, own_names())

    def refuse_strange_hosts() -> Response | None:
        host = _host(request.environ.get("HTTP_HOST", ""))
        if host in ours:
            return None
        labels = (name.lower() for name in load_shop(reading()).hosts if name)
        ours.update(own_names(), app.config.get("OWN_NAMES", ()), labels)
        return None if host in ours else _not_ours(host)

    app.before_request(refuse_strange_hosts)
    app.after_request(_dress)


def _host(header: str) -> str:
    """The host of a Host header, without port, in lower case; '' when it is malformed."""
    text = header.strip().lower()
    if text.startswith("["):
        inside, bracket, port = text[1:].partition("]")
        return inside if bracket and (not port or (port[0] == ":" and port[1:].isdigit())) else ""
    name, colon, port = text.partition(":")
    return name.rstrip(".") if not colon or port.isdigit() else ""


def _not_ours(host: str) -> Response:
    named = f"the name '{host[:60]}'" if host else "this address"
    text = (
        f"Not ours: this computer does not answer to {named}.\n\n"
        "Scan the tag or the poster at the door again, or ask at the counter.\n"
    )
    return Response(text, status=400, content_type="text/plain; charset=utf-8")


def _dress(response: Response) -> Response:
    headers = response.headers
    kept = {name.lower() for name in headers.keys()}  # noqa: SIM118  iterating headers gives pairs
    if response.status_code != 304:  # what a browser kept holds for an answer that only says so (RFC 9110, 15.4.5)
        ours = STAFF_HEADERS if doors.door_of(request.environ) == doors.STAFF else PUBLIC_HEADERS
        headers.extend([pair for pair in ours if pair[0].lower() not in kept])
    if g.get("staff") is not None or "set-cookie" in kept or response.status_code >= 400:
        headers["Cache-Control"] = "no-store"
    elif "cache-control" not in kept:
        headers["Cache-Control"] = "no-cache"
    return response
