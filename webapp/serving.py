"""The listeners: one app behind several doors, a log without query strings, and a clean stop."""

import errno
import logging
import signal
import socket
import ssl
import sys
import threading
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import quote

from cheroot.ssl.builtin import BuiltinSSLAdapter
from cheroot.wsgi import Server

from webapp import doors
from webapp.errors import ShopError

log = logging.getLogger("rackside.access")

FALLBACK_PORT = 8000
#: A body announced as larger is refused unread.
LARGEST_BODY_BYTES = 64 * 1024 * 1024
THREADS = 12
LOOK_AFTER_S = 300


class CannotListen(ShopError):
    """The system does not let this program listen there; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class Listener:
    """An open door. Requests wait in its queue until `serve` is called."""

    door: str
    server: Server

    @property
    def port(self) -> int:
        """The port that the system gave."""
        return self.server.bind_addr[1]

    def renew(self, certificate: Path, key: Path) -> None:
        """Show another certificate to whoever connects from now on."""
        self.server.ssl_adapter.context.load_cert_chain(certificate, key)


def open_door(
    app: doors.WsgiApp, door: str, host: str, port: int, certificate: Path | None = None, key: Path | None = None
) -> Listener:
    """Listen on host and port; with TLS when a certificate (with its chain, PEM) and its key are given.

    Raises CannotListen.
    """
    _try_to_bind(host, port)
    secured = _secured(certificate, key) if certificate is not None else None
    server = Server(
        (host, port), logged(drained(doors.through(app, door)), door), numthreads=THREADS, server_name="Rackside",
        request_queue_size=64, timeout=20, shutdown_timeout=3,
    )  # fmt: skip
    server.ssl_adapter = secured
    server.max_request_header_size = 64 * 1024
    server.max_request_body_size = LARGEST_BODY_BYTES
    server.error_log = _log_error
    server.prepare()
    return Listener(door, server)


def open_public_door(app: doors.WsgiApp, host: str, port: int, say: Callable[[str], None]) -> Listener:
    """The walk-ins' door, on 8000 where the system refuses the port; `say` then gets what that does to labels."""
    try:
        return open_door(app, doors.PUBLIC, host, port)
    except CannotListen as error:
        if port >= 1024:
            raise
        say(
            f"{error} Serving on port {FALLBACK_PORT} instead. Labels printed without a port, such as "
            "http://SHOP.LOCAL/…, lead to port 80 and will not open until this program may use it. Either allow that "
            f"(DEVELOPERS.md, 'Port 80') or choose a label address with port {FALLBACK_PORT} before the first label is "
            "printed; its symbol is larger."
        )
        return open_door(app, doors.PUBLIC, host, FALLBACK_PORT)


def serve(
    listeners: Sequence[Listener],
    ready: Callable[[], None] = lambda: None,
    now_and_then: Callable[[], None] = lambda: None,
) -> None:
    """Serve until Ctrl-C or a termination signal, let running requests finish, then close every door.

    `ready` is called once a signal would stop it cleanly, `now_and_then` every LOOK_AFTER_S seconds.
    """
    stop = threading.Event()
    before = {number: signal.signal(number, lambda *_: stop.set()) for number in (signal.SIGINT, signal.SIGTERM)}
    threads = [threading.Thread(target=listener.server.serve, name=listener.door) for listener in listeners]
    try:
        for thread in threads:
            thread.start()
        ready()
        looked = time.monotonic()
        while not stop.wait(0.5) and all(thread.is_alive() for thread in threads):
            if time.monotonic() - looked >= LOOK_AFTER_S:
                now_and_then()
                looked = time.monotonic()
    finally:
        close(listeners)
        for thread in threads:
            thread.join(5)
        for number, handler in before.items():
            signal.signal(number, handler)


def close(listeners: Sequence[Listener]) -> None:
    """Close every door."""
    for listener in listeners:
        listener.server.stop()


def logged(app: doors.WsgiApp, door: str) -> doors.WsgiApp:
    """`app` with one line a request: door, method, path, status, milliseconds. No query string (it holds the buyer's
    readings) and no address of the phone."""

    def timed(environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        start = time.perf_counter()

        def noted(status: str, headers: list[tuple[str, str]], *rest: Any) -> Any:
            path = quote(environ.get("PATH_INFO", "").encode("latin-1", "replace"))
            milliseconds = (time.perf_counter() - start) * 1000
            log.info("%s %s %s %s %.0f ms", door, environ.get("REQUEST_METHOD", ""), path, status[:3], milliseconds)
            return start_response(status, headers, *rest)

        return app(environ, noted)

    return timed


def drained(app: doors.WsgiApp) -> doors.WsgiApp:
    """`app` with every body read to its end, also one that it refused: closing a connection with unread data resets it,
    and the phone would show a network error in the place of the answer."""

    def whole(environ: dict[str, Any], start_response: Callable[..., Any]) -> Iterable[bytes]:
        answer = app(environ, start_response)
        if environ.get("CONTENT_LENGTH"):
            while environ["wsgi.input"].read(64 * 1024):
                pass
        return answer

    return whole


class _InTheWorker(BuiltinSSLAdapter):
    """Leaves the handshake to the thread that reads the request: a phone that never finishes it holds up nobody."""

    def wrap(self, sock: socket.socket) -> tuple[ssl.SSLSocket, dict[str, str]]:
        """The socket, to be secured at its first read."""
        secured = self.context.wrap_socket(sock, do_handshake_on_connect=False, server_side=True)
        return secured, {"wsgi.url_scheme": "https", "HTTPS": "on"}


def _secured(certificate: Path, key: Path | None) -> BuiltinSSLAdapter:
    try:
        adapter = _InTheWorker(str(certificate), str(key) if key is not None else None)
    except (OSError, ssl.SSLError) as error:
        raise CannotListen(f"The certificate {certificate} and its key cannot be used: {error}.") from error
    adapter.context.minimum_version = ssl.TLSVersion.TLSv1_2
    return adapter


def _log_error(message: str = "", level: int = logging.INFO, traceback: bool = False) -> None:
    error = sys.exc_info()[1]
    if isinstance(error, ssl.SSLError):  # a phone that does not know the authority yet hangs up: nobody's fault
        log.info("https: no agreement with a phone (%s)", error.reason or "hung up")
        return
    log.log(level, "%s", message, exc_info=traceback)


def _try_to_bind(host: str, port: int) -> None:
    """The server forgets which error the system gave, so the system is asked here first."""
    try:
        family, kind, protocol, _name, address = socket.getaddrinfo(
            host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE
        )[0]
        with socket.socket(family, kind, protocol) as trial:
            if port:
                trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            trial.bind(address)
    except OSError as error:
        raise CannotListen(_reason(error, host, port)) from error


def _reason(error: OSError, host: str, port: int) -> str:
    if error.errno in (errno.EACCES, errno.EPERM):
        return f"The system does not let this program use port {port}."
    if error.errno == errno.EADDRINUSE:
        return f"Port {port} is in use by another program (or by this one, started before)."
    if isinstance(error, socket.gaierror) or error.errno == errno.EADDRNOTAVAIL:
        return f"This computer has no address {host}."
    return f"Port {port} of {host} cannot be used: {error.strerror or error}."
