"""`python3 demo`: seeds an empty shop once, keeps what was changed, starts over when told."""

import contextlib
import http.client
import os
import re
import signal
import sqlite3
import ssl
import subprocess
import sys

import pytest

from tests.house import project

pytestmark = pytest.mark.long

#: The demo with a small seed in the place of its own, which takes longer and is checked elsewhere.
PROGRAM = """
import sys, types
from datetime import UTC, datetime
from webapp.services import people, shop

def seed(session, progress):
    progress('Somebody comes in')
    people.add_person(session, 'Ines', '482913', 'owner', datetime.now(UTC))
    shop.save_shop(session, shop.Shop(), name='The Wet Corner', host='SHOP.LOCAL')

sys.modules['demo.seed'] = types.SimpleNamespace(seed=seed, PEOPLE=(('Ines', '482913', 'owner'),))
from demo.__main__ import main
sys.exit(main())
"""


@pytest.fixture
def demo(tmp_path):
    """Starts the demo, hands over its port and first lines, and stops it as Ctrl-C would."""

    @contextlib.contextmanager
    def start(*options):
        alone = os.environ | {"RACKSIDE_INSTANCE": str(tmp_path), "RACKSIDE_DATABASE": "sqlite:////nowhere/real.sqlite"}
        command = [sys.executable, "-u", "-c", PROGRAM, "--host", "127.0.0.1", *options]
        with subprocess.Popen(
            command, cwd=project.ROOT, env=alone, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
        ) as running:
            said = []
            try:
                for line in running.stdout:
                    said.append(line)
                    if "Ctrl-C" in line:
                        break
                text = "".join(said)
                yield int(re.search(r"http://127\.0\.0\.1:(\d+)/", text)[1]), text
            finally:
                running.send_signal(signal.SIGINT)
                running.communicate(timeout=20)
        assert running.returncode == 0

    return start


def status(port, path="/"):
    with contextlib.closing(http.client.HTTPConnection("127.0.0.1", port, timeout=10)) as connection:
        connection.request("GET", path)
        return connection.getresponse().status


def test_the_first_start_seeds_serves_and_invites(demo, tmp_path):
    with demo("--port", "0") as (port, said):
        assert status(port) == 200
        assert "Somebody comes in" in said
        assert re.search(r"Ines +PIN 482913 +\(owner\)", said)
        assert "open on plain http" in said
        assert re.search("[▀▄█]{5}", said)  # the QR symbol
    with contextlib.closing(sqlite3.connect(tmp_path / "demo.sqlite")) as connection:
        [(kept,)] = connection.execute("SELECT value FROM setting WHERE key = 'port'")
    assert int(kept) == port


def test_with_https_a_phone_that_trusts_its_authority_reaches_the_staff_door(demo, tmp_path):
    with demo("--port", "0", "--https", "0") as (port, said):
        assert f"set a phone up once: http://127.0.0.1:{port}/ca" in said
        https_port = int(re.search(r"Staff phones: https://shop\.local:(\d+)/", said)[1])
        assert status(port, "/ca") == 200
        trusting = ssl.create_default_context(cafile=str(tmp_path / "authority" / "authority.pem"))
        with contextlib.closing(http.client.HTTPSConnection("localhost", https_port, context=trusting)) as connection:
            connection.request("GET", "/ready")
            assert connection.getresponse().status == 200


def test_the_second_start_keeps_and_a_fresh_one_starts_over(demo, tmp_path):
    with demo("--port", "0"):
        pass
    with contextlib.closing(sqlite3.connect(tmp_path / "demo.sqlite")) as connection, connection:
        connection.execute("UPDATE person SET name = 'Changed'")
    with demo("--port", "0") as (_port, said):
        assert "goes on where it was" in said
    assert names(tmp_path) == ["Changed"]
    with demo("--port", "0", "--fresh") as (_port, said):
        assert "Somebody comes in" in said
    assert names(tmp_path) == ["Ines"]


def names(folder):
    with contextlib.closing(sqlite3.connect(folder / "demo.sqlite")) as connection:
        return [name for (name,) in connection.execute("SELECT name FROM person")]
