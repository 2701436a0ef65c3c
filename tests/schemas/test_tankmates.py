"""The livestock table and the profiles say the same, seen from either side."""

from webapp.schemas.profiles import GROUPS, load_profiles
from webapp.schemas.tankmates import load_tankmates


def test_what_bites_a_kind_is_the_same_from_both_sides():
    for key, profile in load_profiles().items():
        from_table = {name: mate.bites(profile) for name, mate in load_tankmates().items() if mate.bites(profile)}
        assert from_table == profile.nipped_by, key


def test_what_a_kind_catches_is_the_same_from_both_sides():
    for key, profile in load_profiles().items():
        from_table = {n: mate.caught_by[key] for n, mate in load_tankmates().items() if key in mate.caught_by}
        assert from_table == profile.catches, key


def test_the_table_names_only_kinds_and_groups_that_exist():
    known = set(load_profiles()) | set(GROUPS)
    for mate in load_tankmates().values():
        assert set(mate.nips) <= known
        assert set(mate.caught_by) <= set(load_profiles())


def test_published_facts_about_livestock():
    mates = load_tankmates()
    profiles = load_profiles()
    # cole_2008: most coral-eating fish are butterflyfish
    assert mates["butterflyfish"].bites(profiles["acropora"]) == "never"
    # hamner_dunn_1980: the giant cup mushroom closes over shrimps and fish
    assert mates["shrimp_cleaner"].caught_by["amplexidiscus"] == "never"
    # bos_2011: the ball-tip kind swallows sea stars, and gobies lived beside it unharmed
    assert mates["sea_star"].caught_by["pseudocorynactis"] == "never"
    assert mates["goby"].caught_by["pseudocorynactis"] == "risk"
