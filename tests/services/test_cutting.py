"""What a frag session proposes. How kinds are cut is common practice."""

import pytest

from webapp.schemas.payloads import METHODS
from webapp.schemas.profiles import load_profiles
from webapp.services.cutting import usual_method
from webapp.services.fragging import FragSession, frag
from webapp.services.recording import new_deed


@pytest.mark.parametrize(
    ("kind", "method"),
    [
        ("discosoma", "foot_cut"), ("zoanthus", "scalpel"), ("sinularia", "scalpel"), ("acropora", "shears"),
        ("favites", "saw"), ("euphyllia_glabrescens", "cutter"),
    ],
)  # fmt: skip
def test_a_kind_that_was_never_cut_here_is_cut_as_it_usually_is(stage, kind, method):
    with stage.database.reading() as session:
        assert usual_method(session, "f" * 32, load_profiles()[kind]) == method


def test_every_kind_has_a_way_that_the_form_knows(stage):
    with stage.database.reading() as session:
        found = {key: usual_method(session, "f" * 32, profile) for key, profile in load_profiles().items()}
    assert set(found.values()) <= set(METHODS)
    assert sum(method == "other" for method in found.values()) < 12, found


def test_she_is_cut_again_as_she_was_cut_last(stage):
    with stage.database.saving() as session:
        frag(session, stage.owner, new_deed(), FragSession(stage.mother, "foot_cut", 1, stage.rack))
    with stage.database.reading() as session:
        assert usual_method(session, stage.mother, load_profiles()["acropora"]) == "foot_cut"
