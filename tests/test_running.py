"""A shop that is closed leaves nothing running behind it."""

import threading
import time

import pytest

from webapp.config import Config
from webapp.running import Running
from webapp.tags.codes import new_code
from webapp.tags.page import Label
from webapp.tags.ready_sheets import READY_SHEETS
from webapp.views.tags import JOBS


@pytest.mark.long
def test_closing_stops_a_batch_of_labels_that_is_being_made(stage, tmp_path, monkeypatch):
    others = set(threading.enumerate())
    monkeypatch.setenv("RACKSIDE_INSTANCE", str(tmp_path / "instance"))
    shop = Running(Config(stage.url, "a key for tests only"), lambda _line: None)
    jobs = shop._app.extensions[JOBS]
    job = jobs.start(labels(600), next(iter(READY_SHEETS.values())), 1, "pdf")
    waiting = jobs.start(labels(600), next(iter(READY_SHEETS.values())), 1, "pdf")
    begun = time.monotonic()
    while job.done == 0 and time.monotonic() - begun < 20:
        time.sleep(0.02)
    assert job.state == "working"
    shop.close()
    assert (job.state, waiting.state) == ("stopped", "stopped")
    assert not job.path.parent.exists()
    assert not [one for one in set(threading.enumerate()) - others if one.name.startswith("labels")]


def labels(count):
    return [Label((code := new_code()), f"http://SHOP.LOCAL/{code}") for _ in range(count)]
