"""Ready for sale, one step either side of every threshold. The thresholds are common practice of the trade."""

import pytest

from tests.services.making_rows import LIMITS, NOW, ago, kind, look, row
from webapp.services.ready import ready_for_sale


def healed(**columns):
    """A zoanthid frag that meets the rule: 5 days open of 7, clean twice a week apart, 5 days old, 3 polyps."""
    checks = [look(8, pest_free=True), *[look(day, open=True) for day in (4, 3, 2, 1)],
              look(0, open=True, pest_free=True, holds=True, edge_closed=True)]  # fmt: skip
    return row("zoanthus", **{"cut_at": ago(10), "heads": 3, "checks": checks} | columns)


def missing(one, key="zoanthus", limits=LIMITS):
    return [condition.code for condition in ready_for_sale(one, kind(key), limits, NOW).open]


def test_the_rule_is_met():
    assert missing(healed()) == []


@pytest.mark.parametrize(("days", "missed"), [(4.99, ["days_since_cut"]), (5, [])])
def test_days_since_the_cut_for_what_must_hold_by_itself(days, missed):
    checks = [look(4.9, open=True), *healed().checks[2:]]
    one = healed(cut_at=ago(days), checks=checks)
    assert [code for code in missing(one) if code == "days_since_cut"] == missed


@pytest.mark.parametrize(("heads", "missed"), [(2, ["large_heads"]), (3, []), (None, ["large_heads"])])
def test_polyps(heads, missed):
    assert missing(healed(heads=heads)) == missed


@pytest.mark.parametrize(("first", "missed"), [(6.99, ["clean"]), (7, [])])
def test_two_clean_looks_a_week_apart(first, missed):
    checks = [look(first, pest_free=True), *healed().checks[1:]]
    assert missing(healed(checks=checks)) == missed


def test_a_pest_between_begins_the_count_again():
    checks = healed().checks
    assert missing(healed(checks=[checks[0], look(3.5, pest_free=False), *checks[1:]])) == ["clean"]


@pytest.mark.parametrize(("days", "missed"), [((6, 3, 2, 1), []), ((7, 3, 2, 1), ["opens"]), ((3, 2, 1), ["opens"])])
def test_open_on_five_of_the_last_seven_days(days, missed):
    checks = [look(8, pest_free=True), *[look(day, open=True) for day in days], healed().checks[-1]]
    assert missing(healed(checks=checks)) == missed


def test_two_looks_on_one_day_count_once():
    checks = [look(8, pest_free=True), *[look(day, open=True) for day in (3, 2, 1, 1.01)], healed().checks[-1]]
    assert missing(healed(checks=checks)) == ["opens"]


@pytest.mark.parametrize("key", ["holds", "edge_closed"])
def test_what_nobody_looked_at_is_not_met(key):
    checks = healed().checks
    checks[-1].pop(key)
    state = ready_for_sale(healed(checks=checks), kind("zoanthus"), LIMITS, NOW)
    assert [(one.code, one.met) for one in state.open] == [(key, None)]


def test_a_trouble_stands_in_the_way():
    assert missing(healed(trouble="slime")) == ["nothing_wrong"]


def test_a_glued_stony_piece_is_judged_by_its_cut_not_by_the_days_it_takes_to_grow_over():
    checks = healed().checks + [look(0, ate=True)]
    assert missing(healed(profile_key="acanthastrea", heads=1, checks=checks), "acanthastrea") == []
    assert "days_since_cut" in missing(healed(profile_key="cyphastrea", checks=checks), "cyphastrea")


def test_a_large_polyp_frag_must_have_eaten_once():
    one = healed(heads=1)
    assert missing(one, "caulastraea") == ["ate"]
    one.checks.append(look(0, ate=True))
    one.checks.append(look(0, ate=False))
    assert missing(one, "caulastraea") == []


@pytest.mark.parametrize(("mm", "missed"), [(0.99, ["new_tissue"]), (1, [])])
def test_a_small_polyp_frag_must_have_grown_onto_its_plug(mm, missed):
    one = healed(size_mm=20)
    one.checks.append(look(0, new_tissue_mm=mm))
    assert missing(one, "stylophora") == missed


@pytest.mark.parametrize(("key", "size", "missed"), [
    ("stylophora", 19.9, True), ("stylophora", 20, False), ("sarcophyton", 29.9, True), ("sarcophyton", 30, False),
    ("discosoma", 19.9, True), ("discosoma", 20, False),
])  # fmt: skip
def test_least_sizes(key, size, missed):
    assert ("large_size_mm" in missing(healed(size_mm=size), key)) is missed


def test_what_lies_on_the_sand_need_not_hold():
    checks = healed().checks
    checks[-1].pop("holds")
    assert missing(healed(heads=1, checks=[*checks, look(0, ate=True)]), "trachyphyllia") == []


def test_the_shops_own_number_holds():
    assert missing(healed(), limits=LIMITS | {"open_days": 6}) == ["opens"]
