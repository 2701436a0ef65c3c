"""Whole answers in sentences: many tanks against the real kinds, in two languages."""

import re

from hypothesis import HealthCheck, given, settings

from tests.words.making import (
    KINDS,
    SPECIMENS,
    TANKS,
    bracketed,
    labels_of,
    outside_brackets,
    speaker,
    texts_of,
)
from webapp.fit.check import check
from webapp.fit.findings import Note, Report
from webapp.fit.specimen import Specimen, UsedTo
from webapp.fit.tank import BuyerTank, LightSaid, Measured, Neighbour
from webapp.words.report import tell, tell_whole

SLOW = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
VERDICT_WORDS = {"Suits", "Close", "Not known", "Change first", "Not here"}


def units_typed(tank: BuyerTank) -> dict[str, str]:
    return {name: found[0].unit for name, found in tank.readings.items()}


@SLOW
@given(TANKS, SPECIMENS)
def test_every_answer_can_be_told_in_whole_sentences(tank, specimen):
    told = tell(check(tank, specimen, KINDS), speaker(typed=units_typed(tank)))
    assert told.whole_word in VERDICT_WORDS and told.whole_sentences
    for text in texts_of(told):
        assert text.endswith((".", "?")), text
        assert text[0] == text[0].upper() or text.startswith("pH"), text
        assert ".." not in text
    for text in (*texts_of(told), *labels_of(told)):
        assert not re.search(r"%\(|None|\bnan\b|_[a-z]|  | \.", text), text


@SLOW
@given(TANKS, SPECIMENS)
def test_a_factor_that_was_measured_is_told_with_its_number(tank, specimen):
    report = check(tank, specimen, KINDS)
    told = tell(report, speaker(typed=units_typed(tank)))
    for finding, factor in zip(report.findings, told.factors, strict=True):
        assert factor.reasons and factor.basis
        if finding.estimate is not None:
            assert re.search(r"\d", factor.reading)
            assert any(re.search(r"\d", reason) for reason in factor.reasons)


@SLOW
@given(TANKS, SPECIMENS)
def test_nothing_is_said_that_could_not_be_translated(tank, specimen):
    told = tell(check(tank, specimen, KINDS), bracketed(typed=units_typed(tank)))
    for text in (*texts_of(told), *labels_of(told)):
        assert not re.search(r"[A-Za-z]", outside_brackets(text)), text


@SLOW
@given(TANKS, SPECIMENS)
def test_a_decimal_comma_is_used_throughout(tank, specimen):
    told = tell(check(tank, specimen, KINDS), speaker(typed=units_typed(tank), decimal=","))
    for factor in told.factors:
        said = (factor.reading, factor.give_or_take, *factor.reasons, *factor.advice)
        for text in said:
            assert not re.search(r"\d\.\d", re.sub(r"0\.2 to 0\.3", "", text)), text


def answer_to(tank: BuyerTank, key: str = "acropora", used: dict | None = None):
    report = check(tank, Specimen(KINDS[key], 4.0, used or {}), KINDS)
    return tell(report, speaker(typed=units_typed(tank)))


def of(told, factor: str):
    return next(one for one in told.factors if one.factor == factor)


def test_a_reading_is_shown_in_the_unit_it_was_typed_in():
    # 25 degrees C are 77 F and 8.0 dKH are 2.853 meq/L, by definition (1 dKH: 10 mg CaO in a litre, 56.077 g/mol)
    told = answer_to(BuyerTank(readings={"temp": (Measured(77, "f"),), "alk": (Measured(2.853, "meq_l"),)}))
    assert of(told, "temp").reading == "77 °F"
    assert of(told, "temp").give_or_take == "give or take 0.9"
    assert of(told, "alk").reading == "2.85 meq/L"
    assert of(told, "alk").unit == "meq/L"


def test_a_hydrometer_reading_comes_back_as_typed_in_a_warm_tank():
    readings = {
        "temp": (Measured(27, "c"),),
        "salinity": (Measured(1.0245, "sg_60f", "hydrometer_swing"),),
    }
    assert of(answer_to(BuyerTank(readings=readings)), "salinity").reading == "SG 1.0245"


def test_conductivity_comes_back_as_typed_in_a_cool_tank():
    readings = {"temp": (Measured(22, "c"),), "salinity": (Measured(50.1, "ms_cm", "conductivity_meter"),)}
    assert of(answer_to(BuyerTank(readings=readings)), "salinity").reading == "50.1 mS/cm"


def test_the_summary_names_what_is_wrong_with_its_reading():
    told = answer_to(BuyerTank(readings={"no3": (Measured(60, "mg_l", "laboratory"),)}))
    assert told.whole_word == "Change first"
    assert told.whole_sentences[0] == "What must change first: nitrate (60 mg/L NO3)."


def test_the_summary_names_who_would_eat_it():
    told = answer_to(BuyerTank(tankmates=("parrotfish", "goby")))
    assert told.whole_word == "Not here"
    assert "parrotfish" in told.whole_sentences[0]


def test_a_question_offers_what_was_meant_and_how_to_insist():
    told = answer_to(BuyerTank(readings={"ca": (Measured(1050, "mg_l"),)}))
    question = told.questions[0]
    # 1050 mg/L as CaCO3 x 40.078 / 100.087 = 420 mg/L of calcium (IUPAC atomic weights)
    assert question.offers == [("mg_l_caco3", "1050 mg/L as CaCO3, that is 420 mg/L", 1050)]
    assert question.meant == "ca:1050:mg_l"


def test_a_light_that_cannot_be_is_asked_about_by_what_was_typed():
    light = LightSaid("fixture", kind="t5", watts=3000)
    sides = {name: Measured(50, "cm") for name in ("length", "width", "height")}
    assert "3000 watts" in answer_to(BuyerTank(light=light, **sides)).questions[0].text


def test_a_place_is_told_only_where_light_or_flow_was_given():
    habit = answer_to(BuyerTank())
    assert "habit only" in habit.spot.sentences[0] and "below the surface" not in " ".join(habit.spot.sentences)
    seen = answer_to(BuyerTank(light=LightSaid("words", word="strong"), height=Measured(50, "cm")))
    assert "cm below the surface" in seen.spot.sentences[0]


def test_no_place_is_offered_where_the_animal_cannot_go():
    assert answer_to(BuyerTank(tankmates=("parrotfish",), light=LightSaid("words", word="strong"))).spot is None


def test_days_that_ask_for_the_same_are_told_once():
    # 4 dKH up at no more than 0.5 a day are eight equal days
    tank = BuyerTank(readings={"alk": (Measured(5.0, "dkh", "laboratory"),)}, volume=Measured(100, "l"))
    told = answer_to(tank, "acropora")
    plan = of(told, "alk").plan
    assert len(told.schedule) == 1 and len(plan.steps) == 1
    assert told.schedule[0].day == f"1 to {told.schedule[0].last_day + 1}"
    assert plan.steps[0][0].startswith("Days 1 to ") and plan.steps[0][0].endswith(", each day")
    assert "alkalinity 7.8 dKH" in told.schedule[0].expect


def test_a_plan_gives_the_grams_that_the_chemistry_asks_for():
    # a quarter into the ideal (7 to 10) is 7.75, shown as 7.8; 84.006 g/mol of NaHCO3, 1 dKH = 0.35663 mmol/L:
    # 2.75 dKH in 85 L (100 L less 15 %) take 7.0 g
    tank = BuyerTank(readings={"alk": (Measured(5.0, "dkh", "laboratory"),)}, volume=Measured(100, "l"))
    title = of(answer_to(tank), "alk").plan.title
    assert title == "Bring alkalinity to 7.8 dKH: 7 g of sodium bicarbonate in all"


def test_steps_of_acclimation_are_headed_by_day_and_week():
    used = {"par": UsedTo(60, 55, 65, 20, 60), "salinity": UsedTo(35, 34.8, 35.2, 20, 60)}
    tank = BuyerTank(
        readings={"salinity": (Measured(29, "ppt", "laboratory"),)},
        light=LightSaid("meter", par=300, depth_cm=10, corrected_for_water=True),
    )
    told = answer_to(tank, "acropora", used)
    when = [heading for heading, _ in told.acclimation]
    assert "After 1 week" in when and "After 4 weeks" in when and "Day 2" in when
    assert all(when) and len(told.acclimation) > 10


def test_neighbours_are_told_by_name_without_brackets():
    told = answer_to(BuyerTank(neighbours=(Neighbour("discosoma", 1.0),)), "acropora")
    assert "mushroom," in " ".join(of(told, "neighbours").reasons) + ","
    assert "(" not in " ".join(of(told, "neighbours").advice)


def test_two_alike_are_told_once_with_their_count():
    near = Neighbour("discosoma", 1.0)
    one, two = (of(answer_to(BuyerTank(neighbours=(near,) * n), "acropora"), "neighbours") for n in (1, 2))
    assert [said.replace(" (2 of them)", "") for said in two.reasons] == one.reasons != two.reasons
    assert two.advice == one.advice


def test_a_report_may_be_empty():
    told = tell(Report("x", 1, "suits", (Note("whole_suits"),), ()), speaker())
    assert told.factors == [] and told.spot is None and told.whole_sentences == ["Everything that counts suits it."]


def test_the_whole_alone_is_told_as_in_the_whole_answer():
    told = Report("x", 1, "suits", (Note("whole_suits"),), ())
    assert tell_whole(told, speaker()) == tell(told, speaker()).whole_sentences


def test_a_thermometer_is_no_kit():
    typed = {"temp": (Measured(25, "c"),), "alk": (Measured(8, "dkh"),)}
    told = answer_to(BuyerTank(readings=typed), "acropora")
    assert "Which thermometer was not said. Taken as: glass thermometer." in of(told, "temp").reasons
    assert any(said.startswith("How it was measured was not said.") for said in of(told, "alk").reasons)
    assert not any("kit" in said for said in of(told, "temp").reasons)
