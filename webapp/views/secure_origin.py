"""The two origins of the shop: plain http for walk-ins, https for staff, and the way from one to the other."""

from flask import current_app, request

from webapp.views.identity import shop


def staff_origin() -> str:
    """Where staff reach this shop over https, under the name that this request used; '' when there is no such door."""
    given = current_app.config.get("STAFF_ADDRESS", "")
    port = current_app.config.get("HTTPS_PORT")
    if given or not port:
        return given
    return f"https://{_host()}" if port == 443 else f"https://{_host()}:{port}"


def staff_link() -> str:
    """This very page at the staff's https door, '' when there is none or this is it."""
    origin = staff_origin()
    return origin + request.full_path.rstrip("?") if origin and not request.is_secure else ""


def plain_origin() -> str:
    """The walk-ins' address of this shop, as on its labels."""
    here = shop()
    name = here.host.lower() or _host()
    return f"http://{name}" if here.port == 80 else f"http://{name}:{here.port}"


def _host() -> str:
    """The host of this request, without port, an IPv6 address in its brackets."""
    host = request.host
    return host.rpartition("]")[0] + "]" if host.startswith("[") else host.partition(":")[0]
