"""The invented shop, seeded once for all that look at it."""

from io import BytesIO

import pytest
from PIL import Image

from demo.seed import seed
from tests.demo.clock import NOW
from webapp.storage.database import Database
from webapp.storage.migrating import upgrade


def _dot(*_about: object) -> bytes:
    file = BytesIO()
    Image.new("RGB", (8, 8), (30, 90, 120)).save(file, "WEBP")
    return file.getvalue()


@pytest.fixture(scope="session")
def said() -> list[str]:
    return []


@pytest.fixture(scope="session")
def database(tmp_path_factory, said):
    """The shop, seeded once."""
    url = f"sqlite:///{tmp_path_factory.mktemp('seeded')}/demo.sqlite"
    upgrade(url)
    made = Database(url)
    with made.saving() as session:
        seed(session, said.append, _dot, NOW)
    yield made
    made.close()


@pytest.fixture
def session(database):
    with database.reading() as opened:
        yield opened
