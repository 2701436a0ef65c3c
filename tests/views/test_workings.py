"""Every number of an answer can be traced to a function with a source, through the pages."""

import json
import re
import tomllib
from pathlib import Path

import pytest
from sqlalchemy import select

from tests.shop_client import Visitor
from webapp.fit.check import check
from webapp.fit.codes import REASONS
from webapp.fit.plan_codes import ACCLIMATION
from webapp.fit.specimen import Specimen
from webapp.schemas.profiles import load_profiles
from webapp.schemas.tank import tank_from_json
from webapp.science.references import REFERENCES
from webapp.services.workings import FUNCTIONS, cited, working_of, workings
from webapp.storage.specimen import SpecimenRow

CASES = sorted((Path(__file__).parent.parent / "fit" / "cases").glob("*.toml"))
WITHOUT_PUBLICATION = ("definition", "mass balance", "common practice", "our own", "estimate", "Newton's law")


@pytest.mark.parametrize("part", FUNCTIONS)
def test_every_function_names_a_source_that_can_be_looked_up(part):
    for one in workings()[part]:
        assert one.does and one.source
        assert one.keys or any(word in one.source for word in WITHOUT_PUBLICATION), one.name
        assert set(one.keys) <= set(REFERENCES)


def test_a_function_without_a_source_is_refused():
    def silent():
        """Says nothing of where it comes from."""

    with pytest.raises(ValueError, match="names no source"):
        working_of(silent)


def test_every_part_of_every_argued_case_has_its_functions():
    """Findings by factor; the rest of a report by its part. Codes with numbers stand in one of them."""
    parts = set()
    for path in CASES:
        told = tomllib.loads(path.read_text("utf-8"))
        specimen = Specimen(load_profiles()[told["profile"]], told["size_cm"])
        report = check(tank_from_json(json.loads(told["tank"])), specimen, load_profiles())
        parts |= {found.factor for found in report.findings}
        assert {note.code for found in report.findings for note in found.reasons} <= set(REASONS)
        assert {note.code for note in report.acclimation} <= set(ACCLIMATION)
    assert parts <= set(FUNCTIONS)
    assert {"whole", "spot", "plans", "acclimation", "used_to", "own_evidence"} <= set(FUNCTIONS)
    assert len(parts) >= 18


def test_each_factor_of_an_answer_leads_to_its_functions_and_these_to_their_publications(stage):
    with stage.database.reading() as session:
        code = session.scalar(select(SpecimenRow.code).where(SpecimenRow.id == stage.mother))
    buyer = Visitor(stage, "public").open(f"/{code}/answer?temp=25&alk=5&alk_unit=dkh&light_way=words&light_word=dim")
    links = set(re.findall(r'href="(/how\?kind=zoanthus#\w+)"', buyer.page))
    shown = buyer.page.count('<article class="factor">')
    assert shown == len(links) >= 10
    how = buyer.open("/how?kind=zoanthus").page
    ids = set(re.findall(r'id="([\w-]+)"', how))
    assert {link.partition("#")[2] for link in links} <= ids
    assert set(re.findall(r'href="#([\w-]+)"', how)) - {"main"} <= ids
    assert set(cited()) <= ids and "Ranges of" in buyer.text


def test_without_a_kind_and_with_an_unknown_one_the_page_still_stands(stage):
    for path in ("/how", "/how?kind=unicorn"):
        assert Visitor(stage, "public").open(path).status == 200
