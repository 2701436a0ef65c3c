"""`card`, `card_repeat`, `card_growth`: the care card over a socket against a bare Flask route with the same bytes.

The bare route sends the same headers too: they are bytes that a client reads. Both apps run in processes of their own
behind the same server on loopback; one client asks over one kept connection.
"""

import http.client
import multiprocessing
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

from tests.bench.big_shop import build

LARGE, SMALL = 100_000, 1_000
ASKED = 1500
ROUNDS = 3


def run(emit: Callable[..., None]) -> None:
    """Build both shops, ask, emit. Times are seconds a request, the best of three rounds, codes never asked before."""
    random = Random(11)
    with tempfile.TemporaryDirectory() as folder:
        large = build(Path(folder) / "large.sqlite", LARGE)
        small = build(Path(folder) / "small.sqlite", SMALL)
        codes = random.sample(large, ASKED * ROUNDS)
        with _serving(_app, str(Path(folder) / "large.sqlite")) as port:
            ours, bodies = _asked_once(port, codes)
            repeat, tag = _revalidated(port, codes[0])
            headers = _own_headers(port, codes[0])
            _check_freshness(Path(folder) / "large.sqlite", port, codes[0], tag)
        with _serving(_app, str(Path(folder) / "small.sqlite")) as port:
            growth, _ = _asked_once(port, small[: ASKED // ROUNDS * ROUNDS])
        with _serving(_bare, (bodies, headers)) as port:
            bare, _ = _asked_once(port, codes)
    emit("card", ours, bare, ratio=bare / ours)
    emit("card_repeat", repeat, bare, ratio=bare / repeat)
    emit("card_growth", ours, growth, ratio=ours / growth)


def _app(path: str) -> object:
    from webapp import create_app
    from webapp.config import Config

    return create_app(Config(f"sqlite:///{path}", "a key for the benchmark"))


def _bare(given: tuple[dict[str, bytes], list[tuple[str, str]]]) -> object:
    from flask import Flask, Response

    (bodies, headers), app = given, Flask("bare")

    @app.get("/<code>")
    def page(code: str) -> Response:
        return Response(bodies[code], headers=headers)

    return app


def _serve(make: Callable[..., object], given: object, ready: object) -> None:
    from webapp.serving import open_door

    listener = open_door(make(given), "public", "127.0.0.1", 0)
    ready.send(listener.port)
    listener.server.serve()


@contextmanager
def _serving(make: Callable[..., object], given: object) -> Iterator[int]:
    ours, theirs = multiprocessing.Pipe()
    process = multiprocessing.get_context("spawn").Process(target=_serve, args=(make, given, theirs), daemon=True)
    process.start()
    theirs.close()  # so that a server that dies ends the wait
    try:
        yield ours.recv()
    finally:
        process.terminate()
        process.join()


def _get(connection: http.client.HTTPConnection, code: str, tag: str = "") -> tuple[int, bytes, str]:
    connection.request("GET", f"/{code}", headers={"If-None-Match": tag} if tag else {})
    answer = connection.getresponse()
    return answer.status, answer.read(), answer.getheader("ETag") or ""


def _asked_once(port: int, codes: list[str]) -> tuple[float, dict[str, bytes]]:
    """Seconds a request (the best round), and every page. Each code is asked once."""
    connection = http.client.HTTPConnection("127.0.0.1", port)
    each, seconds, bodies = len(codes) // ROUNDS, [], {}
    for number in range(ROUNDS):
        batch = codes[number * each : (number + 1) * each]
        start = time.perf_counter()
        for code in batch:
            status, body, _tag = _get(connection, code)
            assert status == 200, (code, status)
            bodies[code] = body
        seconds.append((time.perf_counter() - start) / len(batch))
    return min(seconds), bodies


def _revalidated(port: int, code: str) -> tuple[float, str]:
    """Seconds a revalidation of a card already seen, and its tag."""
    connection = http.client.HTTPConnection("127.0.0.1", port)
    _status, _body, tag = _get(connection, code)
    seconds = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        for _number in range(ASKED):
            status, body, _tag = _get(connection, code, tag)
            assert (status, body) == (304, b"")
        seconds.append((time.perf_counter() - start) / ASKED)
    return min(seconds), tag


def _own_headers(port: int, code: str) -> list[tuple[str, str]]:
    """The headers of a card but those that the server gives every answer."""
    connection = http.client.HTTPConnection("127.0.0.1", port)
    connection.request("GET", f"/{code}")
    answer = connection.getresponse()
    answer.read()
    return [pair for pair in answer.getheaders() if pair[0] not in ("Date", "Server", "Content-Length")]


def _check_freshness(path: Path, port: int, code: str, tag: str) -> None:
    """A staff event shows in the very next request."""
    from webapp.services.cards import find
    from webapp.services.recording import Author, NewEvent, record
    from webapp.storage.database import Database

    database = Database(f"sqlite:///{path}")
    with database.saving() as session:
        target = find(session, code).target_id
        record(
            session, Author(None, "Noor"), [NewEvent("noted", target, {"text": "Seen a minute ago.", "public": True})]
        )
    database.close()
    status, body, _tag = _get(http.client.HTTPConnection("127.0.0.1", port), code, tag)
    assert status == 200 and b"Seen a minute ago." in body
