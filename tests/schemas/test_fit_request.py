import json

import pytest

from webapp.errors import BadInput
from webapp.schemas.fit_request import fit_request_from_json
from webapp.schemas.jsontext import from_text

TANK = {"readings": {"temp": {"value": 25, "unit": "c"}}}


def test_a_kind_with_what_it_is_used_to():
    asked = fit_request_from_json({"tank": TANK, "profile": "xenia", "size_cm": 4, "used_to": {"salinity": 34}})
    assert (asked.profile, asked.code, asked.size_cm) == ("xenia", "", 4)
    assert asked.conditions["salinity"].median == 34


@pytest.mark.parametrize(
    ("form", "path"),
    [
        ({"tank": TANK}, "profile"),
        ({"tank": TANK, "profile": "xenia", "code": "ABCDEFG"}, "profile"),
        ({"tank": TANK, "code": "ABCDEFG", "size_cm": 3}, "code"),
        ({"profile": "xenia"}, "tank"),
        ({"tank": {"readings": {"alk": {"value": 8, "unit": "cups"}}}, "profile": "xenia"}, "tank.readings.alk.unit"),
        ({"tank": {"readings": {"no3": [{"value": 1, "unit": "mg_l"}, {"value": "much", "unit": "mg_l"}]}},
          "profile": "xenia"}, "tank.readings.no3.1.value"),
        ({"tank": {"light": {"way": "fixture", "kind": "sun"}}, "profile": "xenia"}, "tank.light.kind"),
        ({"tank": {"tankmates": ["dragon"]}, "profile": "xenia"}, "tank.tankmates.0"),
        ({"tank": {"colour": "blue"}, "profile": "xenia"}, "tank.colour"),
        ({"tank": TANK, "profile": "xenia", "used_to": {"luck": 1}}, "used_to.luck"),
        ([], None),
    ],
)  # fmt: skip
def test_every_wrong_path_is_named(form, path):
    with pytest.raises(BadInput) as wrong:
        fit_request_from_json(form)
    assert wrong.value.field == path
    assert path is None or path in str(wrong.value)


@pytest.mark.parametrize("text", ["", "{", "[NaN]", '{"a": Infinity}', "[" * 100_000, b"\xff\xfe{}"])
def test_text_that_is_no_json_is_refused(text):
    with pytest.raises(json.JSONDecodeError):
        from_text(text)
