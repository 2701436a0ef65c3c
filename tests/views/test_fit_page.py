"""Every factor reaches every verdict it can have, from what a buyer types into the form."""

import re
from functools import lru_cache
from urllib.parse import urlencode

import pytest
from sqlalchemy import select

from tests.shop_client import Visitor
from tests.stage import Stage
from webapp.fit.findings import ORDER
from webapp.services import intake
from webapp.services.recording import new_deed
from webapp.services.workings import FUNCTIONS
from webapp.storage.specimen import SpecimenRow
from webapp.words.factors import factor_name
from webapp.words.workings import PARTS

KINDS = ("acanthastrea", "acropora", "discosoma", "sarcophyton", "entacmaea_quadricolor", "tubastraea", "goniopora",
         "euphyllia_glabrescens")  # fmt: skip
FACTOR = re.compile(r'<article class="factor">\s*<header><h3>(.*?)</h3><span class="verdict v-(\w+)"', re.DOTALL)
WHOLE = re.compile(r'<section class="answer v-(\w+)"')
#: A good tank for fleshy stony corals, as typed.
GOOD = {
    "temp": "25.5", "temp_unit": "c", "temp_by": "digital_probe", "salinity": "35", "salinity_unit": "ppt",
    "salinity_by": "refractometer", "alk": "8.5", "alk_unit": "dkh", "alk_by": "drop_kit", "ca": "425",
    "ca_by": "drop_kit", "mg": "1320", "mg_by": "drop_kit", "ph": "8.1", "ph_by": "electrode", "no3": "8",
    "no3_by": "colorimeter", "po4": "0.05", "po4_by": "low_range_colorimeter", "ammonia": "0", "nitrite": "0",
    "volume": "250", "volume_unit": "l", "length": "100", "width": "50", "height": "50", "length_unit": "cm",
    "age": "24", "light_way": "meter", "par": "110", "par_corrected": "yes", "light_depth": "38",
    "flow_way": "words", "flow_word": "gentle_sway", "mate": "snail", "no_near": "yes", "space": "40", "feeds": "7",
    "summer": "26", "swing_alk": "0.2",
}  # fmt: skip
BLANK = None
ACAN, ACROPORA = "acanthastrea", "acropora"
#: factor -> verdict -> kind, what is typed instead of the good tank.
REACHED = {
    "temp": {"suits": (ACAN, {}), "close": (ACAN, {"temp": "27.6"}), "not_known": (ACAN, {"temp": "28.05"}),
                    "change_first": (ACAN, {"temp": "84.2", "temp_unit": "f"})},
    "salinity": {"suits": (ACAN, {}), "close": (ACAN, {"salinity": "32"}), "not_known": (ACAN, {"salinity": "1.025"}),
                 "change_first": (ACAN, {"salinity": "1.0215", "salinity_unit": "sg_25"})},
    "alk": {"suits": (ACAN, {"alk": "3.0", "alk_unit": "meq_l"}), "close": (ACAN, {"alk": "6.6"}),
                   "not_known": (ACAN, {"alk": "6"}), "change_first": (ACAN, {"alk": "90", "alk_unit": "ppm_caco3"})},
    "ca": {"suits": (ACAN, {}), "close": (ACAN, {"ca": "384"}), "not_known": (ACAN, {"ca": "360"}),
                "change_first": (ACAN, {"ca": "320"})},
    "mg": {"suits": (ACAN, {}), "close": (ACAN, {"mg": "1200"}), "not_known": (ACAN, {"mg": "1130"}),
                  "change_first": (ACAN, {"mg": "1050"})},
    "ph": {"suits": (ACAN, {}), "close": (ACAN, {"ph": "7.72"}), "not_known": (ACAN, {"ph": BLANK}),
           "change_first": (ACAN, {"ph": "7.4"})},
    "no3": {"suits": (ACAN, {}), "close": (ACAN, {"no3": "24"}), "not_known": (ACAN, {"no3": "30"}),
                "change_first": (ACAN, {"no3": "12", "no3_unit": "mg_l_n"})},
    "po4": {"suits": (ACAN, {}), "close": (ACAN, {"po4": "0.14"}), "not_known": (ACAN, {"po4": "0.18"}),
                  "change_first": (ACAN, {"po4": "100", "po4_unit": "ppb_p"})},
    "ammonia": {"suits": (ACAN, {}), "close": (ACAN, {"ammonia": "0.15", "ammonia_by": "colorimeter"}),
                "not_known": (ACAN, {"ammonia": "0.25"}), "change_first": (ACAN, {"ammonia": "1"})},
    "nitrite": {"suits": (ACAN, {}), "close": (ACAN, {"nitrite": "0.3"}), "not_known": (ACAN, {"nitrite": "0.5"}),
                "change_first": (ACAN, {"nitrite": "2"})},
    "stability": {"suits": (ACAN, {}), "close": (ACAN, {"swing_alk": "0.9"}),
                  "not_known": (ACROPORA, {"swing_alk": BLANK}), "change_first": (ACROPORA, {"swing_alk": "1.2"})},
    "summer": {"suits": (ACAN, {}), "close": (ACAN, {"summer": "27.4"}), "not_known": (ACAN, {"summer": "28"}),
                    "change_first": (ACAN, {"summer": "30"})},
    "light": {"suits": (ACAN, {}), "close": (ACAN, {"par": "62", "light_depth": "5"}),
              "not_known": (ACAN, {"light_way": BLANK}), "change_first": (ACAN, {"par": "15", "light_depth": "5"})},
    "flow": {"suits": (ACAN, {}), "not_known": (ACAN, {"flow_way": BLANK}),
             "change_first": (ACROPORA, {"flow_word": "dirt_settles"})},
    "tankmates": {"suits": (ACAN, {}), "close": (ACAN, {"mate": "tang"}), "not_known": (ACAN, {"mate": BLANK}),
                  "not_here": (ACAN, {"mate": "large_angelfish"})},
    "neighbours": {"suits": (ACAN, {}), "close": (ACAN, {"near1": "euphyllia_glabrescens", "near1_gap": "5"}),
                   "not_known": (ACAN, {"no_near": BLANK}),
                   "change_first": (ACAN, {"near1": "galaxea", "near1_gap": "5", "length": "60", "volume": BLANK}),
                   "not_here": (ACAN, {"near1": "galaxea", "length": "35", "width": "30", "volume": BLANK})},
    "chemistry": {
        "suits": ("sarcophyton", {"near1": "acropora", "near1_gap": "30", "carbon": "yes"}),
        "close": ("sarcophyton", {"near1": "acropora", "near1_gap": "30", "volume": BLANK, "length": "60"}),
    },
    "pumps": {"suits": ("entacmaea_quadricolor", {"open_pumps": "no"}),
                     "not_known": ("entacmaea_quadricolor", {}),
                     "change_first": ("entacmaea_quadricolor", {"open_pumps": "yes"})},
    "space": {"suits": (ACAN, {}), "close": (ACAN, {"space": "10"}), "not_known": (ACAN, {"space": BLANK}),
                   "change_first": (ACAN, {"space": "2"}),
                   "not_here": ("entacmaea_quadricolor", {"length": "28", "width": "28", "volume": BLANK})},
    "age": {"suits": (ACAN, {}), "not_known": (ACAN, {"age": BLANK}), "change_first": (ACAN, {"age": "2"})},
    "feeding": {"suits": ("goniopora", {}), "close": ("goniopora", {"feeds": "2"}),
                "not_known": (ACAN, {"feeds": BLANK}),
                "change_first": ("goniopora", {"feeds": "1"}), "not_here": ("tubastraea", {"feeds": "1"})},
}  # fmt: skip
CASES = [(name, verdict, *asked) for name, reached in REACHED.items() for verdict, asked in reached.items()]


@pytest.fixture(scope="module")
def shelf(tmp_path_factory):
    """A walk-in, and the code of a plug of each kind."""
    stage = Stage(tmp_path_factory.mktemp("shelf"))
    with stage.database.saving() as session:
        made = {
            kind: intake.take_in(
                session, stage.owner, new_deed(),
                {"profile_key": kind, "name": kind.title(), "origin": "bought_in", "status": "for_sale",
                 "tank_id": stage.tank, "rack_id": stage.rack, "slot": ""},
            )[0]
            for kind in KINDS
        }  # fmt: skip
        rows = session.execute(select(SpecimenRow.id, SpecimenRow.code)).all()
    codes = {row.id: row.code for row in rows}
    yield Visitor(stage, "public"), {kind: codes[one] for kind, one in made.items()}
    stage.close()


@lru_cache(maxsize=32)
def _form(visitor: Visitor, code: str) -> str:
    page = visitor.open(f"/{code}/fit?all=1").page
    assert f'<form method="get" action="/{code}/answer"' in page
    return page


def ask(shelf, kind: str, typed: dict) -> tuple[str, dict[str, str]]:
    """Fill the form with the good tank, but for `typed`, send it, and read the answer: the whole, and each factor."""
    visitor, codes = shelf
    said = GOOD | ({"no_near": BLANK} if "near1" in typed else {}) | typed
    filled = {name: value for name, value in said.items() if value is not BLANK}
    missing = [name for name in filled if f'name="{name}"' not in _form(visitor, codes[kind])]
    assert not missing, f"the form has no box for {missing}"
    visitor.open(f"/{codes[kind]}/answer?{urlencode(filled)}")
    assert visitor.status == 200, visitor.text
    return WHOLE.search(visitor.page)[1], dict(FACTOR.findall(visitor.page))


@pytest.mark.parametrize(("name", "verdict", "kind", "typed"), CASES, ids=[f"{one[0]}-{one[1]}" for one in CASES])
def test_a_factor_reaches_a_verdict(shelf, name, verdict, kind, typed):
    whole, factors = ask(shelf, kind, typed)
    assert factors[factor_name(name)] == verdict
    if verdict in ("change_first", "not_here"):
        assert ORDER.index(whole) >= ORDER.index(verdict)


def test_the_good_tank_suits(shelf):
    whole, factors = ask(shelf, ACAN, {})
    assert whole == "suits" and set(factors.values()) == {"suits"}
    assert len(factors) == 19


def test_no_factor_is_forgotten():
    assert set(REACHED) == set(FUNCTIONS) - set(PARTS)


def test_flow_is_never_merely_close(shelf):
    """Somewhere near is a spot with the flow it wants, or the range is too wide to settle: no 'close' above."""
    for speed in (1, 4, 9, 15, 22, 40, 90):
        for kind in (ACAN, ACROPORA):
            assert ask(shelf, kind, {"flow_way": "meter", "speed": str(speed)})[1]["Flow"] != "close"
