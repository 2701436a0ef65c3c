"""What a frag session proposes. How kinds are cut is common practice."""

import pytest

from webapp.schemas.payloads import METHODS
from webapp.schemas.profiles import load_profiles
from webapp.services.cutting import last_method, ways_named
from webapp.services.fragging import FragSession, frag
from webapp.services.recording import new_deed


@pytest.mark.parametrize(
    ("kind", "method"),
    [
        ("discosoma", "foot_cut"), ("zoanthus", "scalpel"), ("sinularia", "scalpel"), ("acropora", "shears"),
        ("favites", "saw"), ("euphyllia_glabrescens", "cutter"),
    ],
)  # fmt: skip
def test_the_way_that_is_usual_for_a_kind_is_offered_first(kind, method):
    assert ways_named(load_profiles()[kind])[0] == method


def test_nearly_every_kind_has_a_way_that_the_form_knows():
    found = {key: ways_named(profile) for key, profile in load_profiles().items()}
    assert {method for ways in found.values() for method in ways} <= set(METHODS)
    assert sum(not ways for ways in found.values()) < 12, found


def test_she_is_cut_again_as_she_was_cut_last_and_nothing_is_guessed_before(stage):
    with stage.database.reading() as session:
        assert last_method(session, stage.mother) == ""
    with stage.database.saving() as session:
        frag(session, stage.owner, new_deed(), FragSession(stage.mother, "foot_cut", 1, stage.rack))
    with stage.database.reading() as session:
        assert last_method(session, stage.mother) == "foot_cut"
