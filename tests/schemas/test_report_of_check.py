"""From a tank's JSON through the check to the report's JSON, for every kind that ships with the program."""

import json

import pytest

from webapp.fit.check import check
from webapp.fit.plan_codes import ACCLIMATION, ACTIONS, CAUTIONS, NOTES
from webapp.fit.specimen import Specimen, UsedTo
from webapp.schemas.profiles import load_profiles
from webapp.schemas.report import report_from_json, report_to_json
from webapp.schemas.tank import tank_from_json

POOR_TANK = {
    "readings": {
        "temp": {"value": 82, "unit": "f", "method": "digital_probe"},
        "salinity": {"value": 1.0215, "unit": "sg_25"},
        "alk": {"value": 1.9, "unit": "meq_l", "method": "laboratory"},
        "ca": {"value": 350, "unit": "mg_l"},
        "mg": {"value": 1100, "unit": "mg_l"},
        "ph": {"value": 8.0, "unit": "nbs"},
        "no3": {"value": 14, "unit": "mg_l_n", "method": "colorimeter"},
        "po4": {"value": 150, "unit": "ppb_p", "method": "colorimeter"},
    },
    "volume": {"value": 50, "unit": "gal_us"},
    "light": {"way": "fixture", "kind": "led_reef_mixed", "watts": 120, "hours": 9, "height_cm": 20},
    "flow": {"way": "pumps", "pumps": [{"rated_l_h": 4000, "count": 2}]},
    "tankmates": ["tang", "anemonefish"],
    "neighbours": [{"key": "galaxea", "gap_cm": 30}],
    "age_months": 14,
}


def used_to(value):
    return UsedTo(value, value, value, 12, 60.0)


HERE = {"temp": used_to(25.0), "salinity": used_to(35.0), "par": used_to(90.0), "light_hours": used_to(9.0)}


@pytest.mark.parametrize("key", sorted(load_profiles()))
def test_the_whole_way_for_every_kind(key):
    report = check(tank_from_json(POOR_TANK), Specimen(load_profiles()[key], 3.0, HERE), load_profiles())
    text = json.dumps(report_to_json(report), allow_nan=False)
    assert report_from_json(json.loads(text)) == report
    assert {note.code for note in report.acclimation} <= set(ACCLIMATION)
    assert {note.code for note in report.schedule_notes} <= set(NOTES)
    assert {step.action for step in report.schedule} <= set(ACTIONS)
    for finding in report.findings:
        if finding.plan:
            assert {note.code for note in finding.plan.cautions} <= set(CAUTIONS)
            assert finding.band.ideal_low <= finding.plan.target <= finding.band.ideal_high
    last = report.schedule[-1].expect
    for finding in report.findings:
        if finding.plan and finding.factor not in ("no3", "po4"):
            assert finding.band.ideal_low <= last[finding.factor] <= finding.band.ideal_high, finding.factor
