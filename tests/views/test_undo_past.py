"""Undo in a history: one tap for a week; of what is older a person opens it first and is told what it means."""

import re
from datetime import timedelta

from tests.shop_client import Visitor
from webapp.services.recording import NewEvent, new_deed, record
from webapp.storage.specimen import SpecimenRow


def folded(staff, words):
    """Whether the way back from what is told in these words has to be opened first."""
    line = staff.find(rf"(<li>(?:(?!<li>).)*{words}.*?)</li>")
    assert "/undo/" in line
    return bool(re.search(r"<details>.*?/undo/", line, re.DOTALL))


def test_a_deed_of_long_ago_is_opened_before_it_is_undone(stage):
    with stage.database.saving() as session:
        for days, cents in ((30, 1100), (1, 1200)):
            at = stage.later() - timedelta(days=days)
            record(session, stage.owner, [NewEvent("priced", stage.mother, {"price_cents": cents}, at)], new_deed())
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    assert folded(staff, "Price now 11.00") and not folded(staff, "Price now 12.00")
    assert "This was 30 days ago" in staff.text
    for words, left in (("Price now 11.00", 1200), ("Price now 12.00", None)):
        line = staff.open(f"/s/{stage.mother}").find(rf"(<li>(?:(?!<li>).)*{words}.*?)</li>")
        staff.send(re.search(r"/undo/[0-9a-f]{32}", line)[0])
        with stage.database.reading() as session:
            assert session.get(SpecimenRow, stage.mother).price_cents == left
