import pytest

from tests.stage import Stage


@pytest.fixture
def stage(tmp_path):
    made = Stage(tmp_path)
    yield made
    made.close()
