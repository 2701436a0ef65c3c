"""`python -m webapp fit`: from a file, from standard input, by kind and by code."""

import json

import pytest
from click.testing import CliRunner
from sqlalchemy import select

from webapp import cli
from webapp.schemas.report import report_from_json
from webapp.schemas.tank import tank_from_json
from webapp.storage.specimen import SpecimenRow

TANK = {
    "readings": {"temp": {"value": 77.9, "unit": "°F"}, "salinity": {"value": 35, "unit": "ppt"}},
    "light": {"way": "words", "word": "modest"},
}


@pytest.fixture
def run(monkeypatch, tmp_path):
    monkeypatch.setenv("RACKSIDE_DATABASE", f"sqlite:///{tmp_path / 'none.sqlite'}")

    def call(*words, text=None):
        return CliRunner().invoke(cli.main, ["fit", *map(str, words)], input=text)

    return call


def test_by_kind_from_standard_input_with_no_database(run, tmp_path):
    done = run("-", "--profile", "discosoma", text=json.dumps(TANK))
    assert done.exit_code == 0, done.output
    report = report_from_json(json.loads(done.stdout))
    temp = next(found for found in report.findings if found.factor == "temp")
    assert temp.estimate.mid == pytest.approx(25.5)
    assert not (tmp_path / "none.sqlite").exists()


def test_from_a_file_with_what_it_is_used_to(run, tmp_path):
    tank, used = tmp_path / "tank.json", tmp_path / "used.json"
    tank.write_text(json.dumps(TANK), "utf-8")
    used.write_text('{"salinity": 33}', "utf-8")
    done = run(tank, "--profile", "discosoma", "--used-to", used, "--size-cm", 4)
    drip = next(note for note in json.loads(done.stdout)["acclimation"] if note["code"] == "drip")
    assert drip["values"]["end_ppt"] == pytest.approx(34)


def test_by_code(run, stage, monkeypatch):
    with stage.database.reading() as session:
        code = session.scalar(select(SpecimenRow.code).where(SpecimenRow.id == stage.mother))
    monkeypatch.setenv("RACKSIDE_DATABASE", stage.url)
    done = run("-", "--code", code.lower(), text=json.dumps(TANK))
    assert done.exit_code == 0, done.output
    assert json.loads(done.stdout)["profile_key"] == "zoanthus"


@pytest.mark.parametrize(
    ("words", "text", "said"),
    [
        (["--profile", "unicorn"], "{}", "'unicorn' is not a kind"),
        (["--profile", "xenia"], '{"volume": {"value": 2, "unit": "cups"}}', "tank.volume.unit"),
        (["--profile", "xenia"], "{", "not JSON"),
        ([], "{}", "by its profile or by its code"),
    ],
)
def test_what_is_wrong_is_named_and_the_exit_status_is_1(run, words, text, said):
    done = run("-", *words, text=text)
    assert done.exit_code == 1
    assert said in done.output


def test_the_example_of_the_help_is_a_tank(run):
    text = CliRunner().invoke(cli.main, ["fit", "--help"]).output
    shown = text[text.index("{") : text.rindex("}") + 1]
    assert tank_from_json(json.loads(shown)).readings["temp"][0].unit == "f"
