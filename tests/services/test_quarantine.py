"""Release from quarantine and dates of dips, one step either side. Days and counts are common practice of the trade."""

import pytest

from tests.services.making_rows import LIMITS, NOW, ago, kind, look, row
from webapp.services.quarantine import dip_cautions, may_leave, next_dip


def settled(**columns):
    checks = [look(9, pest_free=True, bitten=False), look(1, pest_free=True, bitten=False, open=True)]
    return row("zoanthus", **{"status": "quarantine", "status_since": ago(14), "checks": checks} | columns)


def missing(one, key="zoanthus"):
    return [condition.code for condition in may_leave(one, kind(key), LIMITS, NOW).open]


@pytest.mark.parametrize(("key", "days"), [
    ("discosoma", 14), ("zoanthus", 14), ("sinularia", 14), ("caulastraea", 28), ("acropora", 42),
    ("montipora_plating", 42),
])  # fmt: skip
def test_days_by_group(key, days):
    assert missing(settled(status_since=ago(days - 0.01)), key) == ["days_in"]
    assert missing(settled(status_since=ago(days)), key) == []


@pytest.mark.parametrize(("first", "missed"), [(7.99, ["clean"]), (8, [])])
def test_two_clean_looks_a_week_apart(first, missed):
    checks = settled().checks
    checks[0] = look(first, pest_free=True)
    assert missing(settled(checks=checks)) == missed


def test_looks_before_quarantine_do_not_count():
    assert missing(settled(checks=[look(15, pest_free=True), settled().checks[1]])) == ["clean"]


def test_bite_marks_and_shut_polyps_stand_in_the_way():
    checks = [*settled().checks, look(0.5, bitten=True)]
    assert set(missing(settled(checks=checks))) == {"clean", "not_bitten"}
    assert missing(settled(checks=[*settled().checks, look(0.5, open=False)])) == ["open_now"]


def test_an_open_cut_stands_in_the_way():
    assert missing(settled(cut_at=ago(20))) == ["edge_closed"]
    assert missing(settled(cut_at=ago(20), checks=[*settled().checks, look(0.5, edge_closed=True)])) == []


@pytest.mark.parametrize(("temp_c", "first", "second", "hatch"), [
    (27, 12, 24, 11),  # Barton et al. 2019: eggs hatch after 11 days, a generation is 38 days at 27 °C
    (24, 12 * 64 / 38, 24 * 64 / 38, 11 * 64 / 38),  # and 64 days at 24 °C
])  # fmt: skip
def test_dips_are_repeated_as_eggs_hatch_at_this_temperature(temp_c, first, second, hatch):
    one = row("acropora", dips=[[ago(1).isoformat(), "iodine", True]])
    plan = next_dip(one, LIMITS, temp_c)
    assert (plan.due_at - ago(1)).total_seconds() / 86400 == pytest.approx(first, abs=1e-6)
    assert (plan.number, plan.hatch_days) == (2, pytest.approx(hatch))
    one.dips = [[ago(13).isoformat(), "iodine", True], [ago(1).isoformat(), "iodine", True]]
    assert (next_dip(one, LIMITS, temp_c).due_at - ago(13)).total_seconds() / 86400 == pytest.approx(second, abs=1e-6)


def test_the_second_dip_falls_after_the_hatch_and_the_third_before_worms_breed():
    # Barton et al. 2019: 11 days to hatch and 35 more to sexual maturity, 38 days a generation at the least (27 °C).
    for temp_c in (22, 24, 25.5, 27, 29):
        one = row("acropora", dips=[[ago(1).isoformat(), "iodine", True]])
        second = next_dip(one, LIMITS, temp_c)
        assert (second.due_at - ago(1)).total_seconds() / 86400 > second.hatch_days
        one.dips.append([second.due_at.isoformat(), "iodine", True])
        third = next_dip(one, LIMITS, temp_c)
        assert (third.due_at - ago(1)).total_seconds() / 86400 < third.hatch_days * 35 / 11


def test_a_single_dip_and_a_whole_series_plan_nothing():
    assert next_dip(row("acropora", dips=[[ago(1).isoformat(), "iodine", False]]), LIMITS, 26) is None
    whole = [[ago(day).isoformat(), "iodine", True] for day in (26, 14, 1)]
    assert next_dip(row("acropora", dips=whole), LIMITS, 26) is None


@pytest.mark.parametrize(("hours", "found"), [(47.9, ["fresh_cut"]), (48, [])])
def test_no_dip_of_a_fresh_cut(hours, found):
    assert dip_cautions(row("zoanthus", cut_at=ago(hours / 24)), kind("zoanthus"), LIMITS, NOW) == found


def test_clams_and_bleached_ones_are_not_dipped():
    one = row("tridacna_high_light", trouble="bleached")
    assert dip_cautions(one, kind("tridacna_high_light"), LIMITS, NOW) == ["never_dipped", "bleached"]
