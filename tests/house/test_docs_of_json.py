"""The tables of the JSON door name every field, unit, method and word that it takes and gives."""

import re

import pytest

from tests.house import project
from webapp.schemas import choices
from webapp.schemas.fit_request import FitRequestSchema
from webapp.schemas.report import FindingShape, PlanShape, QuestionShape, ReportSchema, SpotShape, StepShape
from webapp.schemas.tank import TankSchema
from webapp.schemas.tankmates import load_tankmates

TEXT = project.read("DEVELOPERS.md").partition("## The fit check for programs")[2].partition("\n## ")[0]
NAMED = set(re.findall(r"\w+", TEXT))


@pytest.mark.parametrize(
    "shape", [TankSchema, FitRequestSchema, ReportSchema, FindingShape, QuestionShape, SpotShape, StepShape, PlanShape]
)
def test_every_field(shape):
    assert set(shape._declared_fields) <= NAMED


def test_every_unit_and_method():
    for quantity in choices.READINGS:
        row = next(line for line in TEXT.splitlines() if line.startswith(f"| `{quantity}` |"))
        missing = {*choices.UNIT_KEYS[quantity], *choices.METHOD_KEYS[quantity]} - set(re.findall(r"`(\w+)`", row))
        assert not missing, quantity


def test_every_word_that_may_be_chosen():
    words = (
        *choices.LAMP_KINDS, *choices.LIGHT_WORDS, *choices.LUX_COLOURS, *choices.INSTRUMENTS, *choices.PUMP_KINDS,
        *choices.FLOW_WORDS, *choices.UNIT_KEYS["volume"], *choices.UNIT_KEYS["length"], *load_tankmates(),
    )  # fmt: skip
    assert set(words) <= NAMED
