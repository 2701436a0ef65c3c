"""Listeners over real sockets on loopback."""

import contextlib
import errno
import http.client
import logging
import signal
import socket
import ssl
import subprocess
import sys
import threading

import pytest
from flask import Flask, request

from webapp import certificates, doors, serving


def make_app():
    app = Flask(__name__)
    app.config["MAX_CONTENT_LENGTH"] = 1000
    app.add_url_rule("/", "door", lambda: doors.door_of(request.environ))
    app.add_url_rule("/sent", "sent", lambda: str(len(request.get_data())), methods=["POST"])
    return app


@pytest.fixture
def served():
    opened = []

    def start(door=doors.PUBLIC):
        listener = serving.open_door(make_app(), door, "127.0.0.1", 0)
        thread = threading.Thread(target=listener.server.serve)
        thread.start()
        opened.append((listener, thread))
        return listener

    yield start
    serving.close([listener for listener, _ in opened])
    for _, thread in opened:
        thread.join(5)


def ask(listener, method="GET", path="/", body=None):
    connection = http.client.HTTPConnection("127.0.0.1", listener.port, timeout=10)
    try:
        connection.request(method, path, body)
        answer = connection.getresponse()
        return answer.status, answer.read().decode(), dict(answer.getheaders())
    finally:
        connection.close()


@pytest.mark.parametrize("door", [doors.PUBLIC, doors.STAFF])
def test_the_door_is_that_of_the_listener(served, door):
    assert ask(served(door))[:2] == (200, door)


def test_the_server_does_not_tell_its_version(served):
    assert ask(served())[2]["Server"] == "Rackside"


def test_the_log_has_the_path_but_never_the_query_string(served, caplog):
    with caplog.at_level(logging.INFO, "rackside.access"):
        ask(served(), path="/?alkalinity=8.2&volume_l=200")
        ask(served(), path="/a%0Ab?secret=1")
    lines = [record.getMessage() for record in caplog.records]
    assert lines[0].startswith("public GET / 200 ")
    assert lines[1].startswith("public GET /a%0Ab 404 ")
    assert not any("8.2" in line or "secret" in line or "?" in line for line in lines)


def test_a_body_that_is_too_large_is_read_to_its_end_so_that_the_answer_arrives(served):
    """Closing with unread data resets the connection (RFC 2525, section 2.17), and a phone would show no answer."""
    status, _, _ = ask(served(), "POST", "/sent", bytes(40 * 1024 * 1024))
    assert status == 413


def test_a_body_beyond_all_measure_is_refused_unread(served):
    with socket.create_connection(("127.0.0.1", served().port), timeout=10) as connection:
        connection.sendall(b"POST /sent HTTP/1.1\r\nHost: localhost\r\nContent-Length: 99999999999\r\n\r\n")
        assert connection.recv(1000).startswith(b"HTTP/1.1 413")


def test_a_port_in_use_is_told():
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        with pytest.raises(serving.CannotListen, match=f"Port {port} is in use"):
            serving.open_door(make_app(), doors.PUBLIC, "127.0.0.1", port)


def test_an_address_of_another_computer_is_told():
    with pytest.raises(serving.CannotListen, match="no address 192.0.2.1"):
        serving.open_door(make_app(), doors.PUBLIC, "192.0.2.1", 8000)


def test_a_refused_port_falls_back_and_says_what_that_does_to_labels(monkeypatch):
    plain_bind, said, free = socket.socket.bind, [], _free_port()

    def refusing(self, address):
        if address[1] == 80:
            raise PermissionError(errno.EACCES, "Permission denied")
        return plain_bind(self, address)

    monkeypatch.setattr(socket.socket, "bind", refusing)
    monkeypatch.setattr(serving, "FALLBACK_PORT", free)
    listener = serving.open_public_door(make_app(), "127.0.0.1", 80, said.append)
    serving.close([listener])
    assert listener.port == free
    assert "does not let this program use port 80" in said[0]
    assert "Labels printed without a port" in said[0]
    assert "will not open" in said[0]


def _free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


@pytest.mark.long
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_a_signal_stops_every_door_and_leaves_the_port_free(number):
    program = (
        "import sys\n"
        "from webapp import serving\n"
        "from tests.test_serving import make_app\n"
        "doors = [serving.open_door(make_app(), name, '127.0.0.1', 0) for name in ('public', 'staff')]\n"
        "print(*(door.port for door in doors), flush=True)\n"
        "serving.serve(doors)\n"
        "print('stopped', flush=True)\n"
    )
    with subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.PIPE, text=True) as process:
        ports = [int(word) for word in process.stdout.readline().split()]
        for port in ports:
            with contextlib.closing(http.client.HTTPConnection("127.0.0.1", port, timeout=10)) as connection:
                connection.request("GET", "/")
                assert connection.getresponse().status == 200
        process.send_signal(number)
        assert process.communicate(timeout=20)[0] == "stopped\n"
    assert process.returncode == 0
    for port in ports:
        with pytest.raises(ConnectionRefusedError), socket.create_connection(("127.0.0.1", port), timeout=2):
            pass


@pytest.fixture
def secured(tmp_path):
    held = certificates.hold(tmp_path / "authority", ["localhost", "127.0.0.1"])
    listener = serving.open_door(make_app(), doors.STAFF, "127.0.0.1", 0, held.certificate, held.key)
    thread = threading.Thread(target=listener.server.serve)
    thread.start()
    yield listener, held
    serving.close([listener])
    thread.join(5)


def ask_securely(listener, held, **limits):
    context = ssl.create_default_context(cafile=str(held.authority))
    for name, value in limits.items():
        setattr(context, name, value)
    connection = http.client.HTTPSConnection("127.0.0.1", listener.port, timeout=10, context=context)
    try:
        connection.request("GET", "/")
        return connection.getresponse().read().decode(), connection.sock.version()
    finally:
        connection.close()


def test_https_is_served_with_the_shops_own_certificate(secured):
    assert ask_securely(*secured) == ("staff", "TLSv1.3")
    assert ask_securely(*secured, maximum_version=ssl.TLSVersion.TLSv1_2) == ("staff", "TLSv1.2")


def test_nothing_older_than_tls_1_2_is_offered(secured):
    """RFC 8996: TLS 1.0 and 1.1 must not be used."""
    assert secured[0].server.ssl_adapter.context.minimum_version == ssl.TLSVersion.TLSv1_2


def test_phones_that_never_finish_the_handshake_hold_up_nobody(secured):
    listener, held = secured
    with contextlib.ExitStack() as waiting:
        for _ in range(8):
            waiting.enter_context(socket.create_connection(("127.0.0.1", listener.port)))
        assert ask_securely(listener, held)[0] == "staff"


def test_a_phone_that_does_not_know_the_authority_leaves_one_line_in_the_log(secured, tmp_path, caplog):
    stranger = certificates.hold(tmp_path / "other", ["127.0.0.1"])
    with caplog.at_level(logging.INFO, "rackside.access"), pytest.raises(ssl.SSLCertVerificationError):
        ask_securely(secured[0], stranger)
    assert ask_securely(*secured)[0] == "staff"
    assert not [record for record in caplog.records if record.exc_info]


def test_a_renewed_certificate_is_shown_without_a_restart(secured, tmp_path):
    listener, held = secured
    other = certificates.hold(tmp_path / "other", ["127.0.0.1"])
    listener.renew(other.certificate, other.key)
    assert ask_securely(listener, other)[0] == "staff"


def test_a_certificate_that_cannot_be_used_is_named(tmp_path):
    broken = tmp_path / "broken.pem"
    broken.write_text("nothing")
    with pytest.raises(serving.CannotListen, match=r"broken\.pem"):
        serving.open_door(make_app(), doors.STAFF, "127.0.0.1", 0, broken, broken)
