"""Invented buyers whose answers were argued in words, by hand, before the check was asked: tests/fit/cases.

Those with `argued` were committed before the first run; `afterwards` tells what it showed, and the first answer.
"""

import json
import tomllib
from pathlib import Path

import pytest

from webapp.fit.check import check
from webapp.fit.specimen import Specimen, UsedTo
from webapp.schemas.profiles import load_profiles
from webapp.schemas.tank import tank_from_json

CASES = sorted(Path(__file__).with_name("cases").glob("*.toml"))
GROUPS = {"corallimorph", "zoanthid", "soft", "gorgonian", "lps", "sps", "anemone", "clam"}


def _told(path):
    return tomllib.loads(path.read_text("utf-8"))


@pytest.fixture(params=CASES, ids=lambda path: path.stem, scope="module")
def case(request):
    told = _told(request.param)
    used = {factor: UsedTo(value, value, value, 20, 60.0) for factor, value in told.get("used_to", {}).items()}
    specimen = Specimen(load_profiles()[told["profile"]], told["size_cm"], used)
    return told["expect"], check(tank_from_json(json.loads(told["tank"])), specimen, load_profiles())


def test_thirty_were_argued_before_the_first_run_and_say_what_it_showed():
    blind = [told for told in map(_told, CASES) if "argued" in told]
    assert len(blind) == 30
    assert sum("First answer:" in told.get("afterwards", "") for told in blind) == 5


def test_there_are_thirty_and_every_group_is_among_them():
    kinds = [load_profiles()[_told(path)["profile"]].group for path in CASES]
    assert len(kinds) >= 30
    assert set(kinds) == GROUPS


def test_every_factor(case):
    expected, report = case
    assert {found.factor: found.verdict for found in report.findings} == expected["factors"]


def test_the_whole_and_where_it_would_stand(case):
    expected, report = case
    assert report.whole == expected["whole"]
    assert report.spot.zone == expected["zone"]


def test_every_dose_and_no_other(case):
    expected, report = case
    doses = expected.get("dose", {})
    plans = {found.factor: found.plan for found in report.findings if found.plan}
    assert set(plans) == set(doses)
    for factor, dose in doses.items():
        plan = plans[factor]
        assert (plan.action, plan.unit) == (dose["action"], dose["unit"]), factor
        if "total" in dose:
            assert plan.days == dose["days"], factor
            assert plan.total == pytest.approx(dose["total"], rel=dose["within_percent"] / 100), factor
        if "least" in dose:  # argued as a range, before the plan's own aim was known
            assert dose["least"] <= abs(plan.total) <= dose["most"], factor
            assert dose["days_least"] <= plan.days <= dose["days_most"], factor


def test_what_is_asked_and_what_would_settle_it(case):
    expected, report = case
    assert {one.quantity: one.code for one in report.questions} == {
        one["quantity"]: one["code"] for one in expected.get("questions", ())
    }
    for one in expected.get("questions", ()):
        offers = {unit: at for asked in report.questions for unit, _typed, at in asked.offers}
        assert offers[one["unit"]] == pytest.approx(one["canonical"], rel=0.005)
    if "settle_next" in expected:
        assert list(report.settle_next) == expected["settle_next"]


def test_what_is_advised_and_said_beside_it(case):
    expected, report = case
    advice = {found.factor: {note.code for note in found.advice} for found in report.findings}
    for factor, codes in expected.get("advice", {}).items():
        assert set(codes) <= advice[factor], factor
    assert set(expected.get("because", ())) <= {note.code for note in report.whole_reasons}
    said = {note.code: note.values for note in (*report.acclimation, *report.safety, *report.unknowable)}
    for note in expected.get("notes", ()):
        numbers = {name: value for name, value in note.items() if name != "code"}
        assert {name: said[note["code"]][name] for name in numbers} == pytest.approx(numbers)
