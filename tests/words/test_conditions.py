"""A rule's conditions as sentences: full days, and one day in the singular."""

import pytest

from webapp.words.conditions import condition_sentence


@pytest.mark.parametrize(("days", "told"), [
    (0.9, "0 days in quarantine, 28 needed"), (1.9, "1 day in quarantine, 28 needed"),
    (27.99, "27 days in quarantine, 28 needed"), (28.0, "28 days in quarantine, 28 needed"),
])  # fmt: skip
def test_only_full_days_are_told(days, told):
    assert condition_sentence("days_in", {"days": days, "needed": 28.0}) == told


def test_a_day_at_a_temperature():
    told = "A clean look after eggs have hatched: 1 day at 25.3 °C"
    assert condition_sentence("after_hatch", {"days": 1.2, "temp": 25.31}) == told
