"""Answers for the counter: every question of every kind has one; history changes what is said."""

from datetime import timedelta

import pytest

from tests.services.today.making import Shop
from tests.stage import new_memory
from webapp.schemas.profiles import load_profiles
from webapp.services.answers import answers
from webapp.services.panel import panel
from webapp.words.answers import QUESTION, answer_sentences

DAY = timedelta(days=1)


@pytest.fixture
def shop(stage):
    return Shop(stage)


def told(shop, specimen_id, now):
    session = shop.stage.database.reading()
    try:
        found = answers(session, panel(session, new_memory(), specimen_id, now), now)
        return {one.code: answer_sentences(one.code, one.values) for one in found}
    finally:
        session.close()


@pytest.mark.parametrize("kind", sorted(load_profiles()))
def test_every_question_of_every_kind_is_answered_in_whole_sentences(shop, kind):
    said = told(shop, shop.animal(profile_key=kind), shop.start + DAY)
    assert list(said) == list(QUESTION)
    for code, sentences in said.items():
        assert sentences, code
        for sentence in sentences:
            assert sentence[0].isupper() or sentence[0].isdigit(), sentence
            assert sentence.endswith((".", "?")), sentence
            assert ".." not in sentence and "  " not in sentence, sentence


def test_history_is_told_with_its_numbers(shop, stage):
    one = shop.frags(stage.mother, 1, shop.start, tank_id=stage.tank, rack_id=stage.rack, slot="B2")[0]
    for day in (1, 2, 3):
        shop.read("par", 110 + 10 * day, "umol", shop.start + day * DAY, rack_id=stage.rack)
    said = told(shop, one, shop.start + 4 * DAY)
    assert "Here it is used to 130 µmol (122 to 138)." in said["light"]
    assert "It heals: cut 4 days ago." in said["closed"]
    assert said["origin"][0] == "Grown here."
    assert "Cut from Ember Ring" in said["origin"][1] and "4 days ago." in said["origin"][1]
    shop.tell((one, "checked", {"slime": True}, shop.start + 4 * DAY))
    assert said["closed"] != told(shop, one, shop.start + 5 * DAY)["closed"]
    assert told(shop, one, shop.start + 5 * DAY)["closed"] == [
        "The last look saw brown slime or rot: do not sell it now."
    ]


def test_what_may_be_poisonous_is_said_and_cutting_it_at_home_is_not_advised(shop, stage):
    said = told(shop, stage.mother, shop.stage.later(days=1))
    assert "palytoxin" in said["poison"][0]
    assert "Not at home" in said["cut_it"][1]
