"""POST /api/fit, at both doors."""

import json
import tomllib
from pathlib import Path

import pytest
from sqlalchemy import select

from tests.shop_client import Visitor
from webapp.fit.check import check
from webapp.fit.specimen import Specimen
from webapp.schemas.profiles import load_profiles
from webapp.schemas.report import report_from_json, report_to_json
from webapp.schemas.tank import tank_from_json
from webapp.storage.specimen import SpecimenRow

CASES = sorted((Path(__file__).parent.parent / "fit" / "cases").glob("*.toml"))
TANK = {"readings": {"temp": {"value": 25, "unit": "c"}, "alk": {"value": 150, "unit": "dkh"}}}


@pytest.fixture(params=["public", "staff"])
def post(stage, request):
    visitor = Visitor(stage, request.param)

    def send(body, **more):
        given = {"data": body} if isinstance(body, bytes | str) else {"json": body}
        return visitor._client.post("/api/fit", environ_overrides=visitor._environ(), **given, **more)

    return send


def test_by_kind(post):
    answer = post({"tank": TANK, "profile": "discosoma"})
    assert answer.status_code == 200
    report = report_from_json(answer.get_json())
    assert report.profile_key == "discosoma" and report.questions[0].code == "other_unit"


def test_by_code(post, stage):
    with stage.database.reading() as session:
        code = session.scalar(select(SpecimenRow.code).where(SpecimenRow.id == stage.mother))
    assert post({"tank": TANK, "code": code.lower()}).get_json()["profile_key"] == "zoanthus"


@pytest.mark.parametrize(
    ("body", "status", "field"),
    [
        ("no json", 400, None),
        ({"tank": TANK, "profile": "unicorn"}, 422, "profile"),
        ({"tank": {"readings": {"temp": {"value": 25, "unit": "bar"}}}, "profile": "xenia"}, 422,
         "tank.readings.temp.unit"),
        ({"tank": TANK, "code": "AAAAAAA"}, 404, "code"),
        ('{"tank": {"age_months": NaN}, "profile": "xenia"}', 400, None),
        ("[" * 60_000, 400, None),
        (b" " * 70_000, 413, None),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said_as_json(post, body, status, field):
    answer = post(body)
    assert answer.status_code == status
    assert answer.get_json()["field"] == field and answer.get_json()["error"]


def test_nothing_else_is_opened_there(stage):
    assert Visitor(stage, "public").open("/api/fit").status == 405


def test_every_argued_case_gets_the_same_answer_as_from_the_check_itself(stage):
    visitor = Visitor(stage, "public")
    for path in CASES:
        told = tomllib.loads(path.read_text("utf-8"))
        form = {"tank": json.loads(told["tank"]), "profile": told["profile"], "size_cm": told["size_cm"]}
        answer = visitor._client.post("/api/fit", json=form, environ_overrides=visitor._environ())
        specimen = Specimen(load_profiles()[told["profile"]], told["size_cm"])
        expected = report_to_json(check(tank_from_json(form["tank"]), specimen, load_profiles()))
        assert answer.get_json() == json.loads(json.dumps(expected)), path
