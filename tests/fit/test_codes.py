"""The check says nothing that is not listed, with no value that is not listed."""

import re
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

import webapp.fit
from tests.fit.making import BANDS, kind, tank
from webapp.fit import codes, plan_codes
from webapp.fit.check import check
from webapp.fit.findings import Note, Report
from webapp.fit.specimen import Specimen, UsedTo
from webapp.fit.tank import FlowSaid, LightSaid, Measured, Neighbour, PumpSaid

OURS = (
    "beside", "care", "chemistry", "leaving", "lighting", "mending", "neighbours", "ph_cause", "placing", "readings",
    "space", "steadiness", "streaming", "habits", "tankmates", "toxins", "water", "whole", "zero", "judge",
)  # fmt: skip


def notes_of(answer: Report) -> list[Note]:
    found = [note for f in answer.findings for note in (*f.reasons, *f.advice)]
    spot = answer.spot.reasons if answer.spot else ()
    return [*found, *spot, *answer.whole_reasons, *answer.safety, *answer.paperwork, *answer.unknowable]


TYPED = st.builds(
    Measured,
    st.one_of(st.floats(-5, 60), st.floats(0, 6000), st.just(0.0)),
    st.sampled_from(("c", "f", "ppt", "sg_25", "dkh", "meq_l", "mg_l", "mg_l_n", "nbs", "mg_l_unsure")),
    st.sampled_from(("", "drop_kit", "colour_card", "colorimeter", "laboratory", "hydrometer_glass", "electrode")),
)
QUANTITIES = ("temp", "salinity", "alk", "ca", "mg", "ph", "no3", "po4", "ammonia", "nitrite")
TANKS = st.builds(
    tank,
    readings=st.dictionaries(st.sampled_from(QUANTITIES), st.lists(TYPED, min_size=1, max_size=2).map(tuple)),
    volume=st.one_of(st.none(), st.builds(Measured, st.floats(10, 900), st.sampled_from(("l", "gal", "gal_us")))),
    length=st.one_of(st.none(), st.builds(Measured, st.floats(15, 200), st.just("cm"))),
    light=st.sampled_from((
        None, LightSaid("words", word="strong"), LightSaid("meter", par=5000, depth_cm=10),
        LightSaid("meter", par=300, depth_cm=10), LightSaid("lux", lux=9000, depth_cm=0, colour="white"),
        LightSaid("fixture", kind="t5", count=4, watts=39, height_cm=12), LightSaid("words", word="no such word"),
    )),
    flow=st.sampled_from((
        None, FlowSaid("words", word="gentle_sway"), FlowSaid("meter", speed_cm_s=30),
        FlowSaid("meter", speed_cm_s=300),
        FlowSaid("pumps", (PumpSaid(4000, "wave_narrow", 2), PumpSaid(1500, "return"))),
    )),
    tankmates=st.sampled_from((None, (), ("tang",), ("goby", "butterflyfish"))),
    neighbours=st.sampled_from((None, (), (Neighbour("walker", 3.0), Neighbour("nobody")), (Neighbour("leather"),))),
    free_space_cm=st.sampled_from((None, 1.0, 6.0, 90.0)),
    age_months=st.sampled_from((None, 1.0, 30.0)),
    feeding_days_per_week=st.sampled_from((None, 0.0, 2.0, 7.0)),
    summer_high=st.sampled_from((None, Measured(30, "c"), Measured(90, "c"))),
    carbon=st.sampled_from((None, True)),
    open_pumps=st.sampled_from((None, True, False)),
    swings=st.sampled_from(({}, {"alk": 0.6, "temp": 2.0})),
)  # fmt: skip
KINDS = st.builds(
    kind,
    group=st.sampled_from(("lps", "sps", "soft", "anemone", "clam", "corallimorph")),
    bands=st.sampled_from((BANDS, {**BANDS, "par": BANDS["po4"]}, {})),
    placement=st.sampled_from(("bottom", "lower", "upper", "anywhere")),
    adult_cm=st.sampled_from((8.0, 120.0)),
    skeleton=st.booleans(),
    calcium_demand=st.sampled_from((0, 3)),
    hardiness=st.sampled_from((1, 3, 5)),
    feeding_days_per_week=st.sampled_from((0, 2, 7)),
    nipped_by=st.sampled_from(({}, {"tang": "risk", "butterflyfish": "never"})),
    catches=st.sampled_from(({}, {"goby": "risk"}, {"goby": "never", "tang": "never"})),
    cites=st.sampled_from(("II", "not listed")),
    toxic=st.booleans(),
    stings=st.booleans(),
    toxicity_note=st.sampled_from(("low", "sharp skeleton", "terpenes")),
)
OTHERS = {
    "walker": kind(key="walker", scientific="Ambulata ficta", group="anemone"),
    "leather": kind(key="leather", scientific="Coriacea ficta", group="soft", toxicity_note="terpenes"),
}
USED = st.sampled_from(({}, {"temp": UsedTo(22.0, 21.5, 22.5, 40, 60), "par": UsedTo(90.0, 80.0, 100.0, 5, 60)}))


@given(TANKS, KINDS, USED)
@settings(max_examples=150, deadline=None)
def test_every_code_and_value_is_listed(buyer, profile, used):
    answer = check(buyer, Specimen(profile, used_to=used), OTHERS)
    for note in notes_of(answer):
        assert set(note.values) == set(codes.ALL[note.code].values), note
    for question in answer.questions:
        assert question.code in codes.QUESTIONS
        assert set(question.values) - {"answer"} <= set(codes.QUESTIONS[question.code].values)
    for note in (*answer.schedule_notes, *answer.acclimation):
        assert note.code in plan_codes.ALL


def test_every_listed_code_is_used_somewhere():
    room = Path(webapp.fit.__file__).parent
    text = "".join((room / f"{name}.py").read_text() for name in (*OURS, "asking", "size"))
    unused = [code for code in codes.ALL if not re.search(rf'"{code}"', text)]
    assert unused == []


def test_our_codes_and_those_of_the_plans_do_not_clash():
    shared = codes.ALL.keys() & plan_codes.ALL.keys()
    assert shared <= {"test_again"}
