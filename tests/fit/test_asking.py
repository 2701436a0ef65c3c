"""Every unit trap asks, offers the likely meaning, judges nothing, and lets the rest of the answer stand.

The traps are common practice at the counter; the converted values are from the definitions of the units.
"""

import pytest

from tests.fit.making import finding, reading, report, tank
from webapp.fit.asking import ask
from webapp.fit.tank import FlowSaid, LightSaid, Measured, PumpSaid

TRAPS = [
    # quantity, typed, unit, code, {offered unit: about what value in the canonical unit}
    ("alk", 150, "dkh", "other_unit", {"ppm_caco3": 8.41}),
    ("alk", 50, "dkh", "other_unit", {"ppm_caco3": 2.8}),
    ("alk", 350, "dkh", "other_unit", {"ppm_caco3": 19.6}),
    ("alk", 2.9, "dkh", "other_unit", {"meq_l": 8.13}),
    ("alk", 4.4, "dkh", "other_unit", {"meq_l": 12.34}),
    ("alk", 2300, "dkh", "other_unit", {"umol_kg": 6.6}),
    ("alk", 15, "dkh", "other_unit", {"fdh": 8.41}),
    ("alk", 8, "meq_l", "other_unit", {"dkh": 8}),
    ("alk", 8, "ppm_caco3", "other_unit", {"dkh": 8}),
    ("temp", 78, "c", "other_unit", {"f": 25.56}),
    ("temp", 59, "c", "other_unit", {"f": 15}),
    ("temp", 95, "c", "other_unit", {"f": 35}),
    ("temp", 26, "f", "other_unit", {"c": 26}),
    ("temp", 15, "f", "other_unit", {"c": 15}),
    ("temp", 45, "c", "impossible", {}),
    ("salinity", 1.025, "ppt", "other_unit", {"sg_25": 33.2}),
    ("salinity", 35, "sg_25", "other_unit", {"ppt": 35}),
    ("salinity", 1.25, "sg_25", "dropped_zero", {"sg_25": 33.2}),
    ("salinity", 1025, "sg_25", "sg_times_1000", {"sg_25": 33.2}),
    ("salinity", 1023.3, "ppt", "sg_times_1000", {"sg_25": 30.9, "sg_4": 34.9}),
    ("salinity", 53, "ppt", "other_unit", {"ms_cm_25": 35}),
    ("salinity", 44, "ppt", "other_unit", {"ms_cm_25": 28.4}),
    ("salinity", 5, "ppt", "impossible", {}),
    ("ca", 1050, "mg_l", "other_unit", {"mg_l_caco3": 420.5}),
    ("ca", 420, "mg_l_caco3", "other_unit", {"mg_l": 420}),
    ("mg", 5300, "mg_l", "other_unit", {"mg_l_caco3": 1287}),
    ("po4", 90, "mg_l", "other_unit", {"ppb_po4": 0.09, "ppb_p": 0.276}),
    ("po4", 2, "mg_l", "other_unit", {"ppb_po4": 0.002}),
    ("po4", 0.06, "ppb_p", "other_unit", {"mg_l": 0.06}),
    ("no3", 400, "mg_l", "other_unit", {"umol_l": 24.8}),
    ("no3", -2, "mg_l", "impossible", {}),
    ("ph", 83, "nbs", "impossible", {}),
    ("ph", 8.2, "percent", "not_a_number", {}),
    ("mg", float("nan"), "mg_l", "not_a_number", {}),
]


@pytest.mark.parametrize(("quantity", "typed", "unit", "code", "offers"), TRAPS)
def test_trap_asks_and_judges_nothing(quantity, typed, unit, code, offers):
    answer = report(reading(quantity, Measured(typed, unit)))
    (question,) = answer.questions
    assert (question.quantity, question.code) == (quantity, code)
    offered = {key: at for key, _, at in question.offers}
    for key, about in offers.items():
        assert offered[key] == pytest.approx(about, rel=0.01)
    found = finding(answer, quantity)
    assert found.verdict == "not_known" and found.estimate is None
    assert found.reasons[0].code == "question_open"
    others = {f.verdict for f in answer.findings if f.factor != quantity}
    assert others == {"suits"}


def test_the_offer_taken_is_judged():
    (question,) = report(reading("alk", Measured(150, "dkh"))).questions
    unit, value, at = question.offers[0]
    answer = report(reading("alk", Measured(value, unit)))
    assert answer.questions == () and finding(answer, "alk").estimate.mid == pytest.approx(at)


USUAL = [
    ("alk", 7.5, "dkh"), ("alk", 5.0, "dkh"), ("alk", 12.5, "dkh"), ("alk", 2.9, "meq_l"), ("alk", 150, "ppm_caco3"),
    ("alk", 2300, "umol_kg"), ("alk", 15, "fdh"), ("temp", 25, "c"), ("temp", 18, "c"), ("temp", 78, "f"),
    ("salinity", 35, "ppt"), ("salinity", 1.026, "sg_25"), ("salinity", 1.026, "sg_60f"), ("salinity", 53, "ms_cm_25"),
    ("salinity", 26.6, "ppt"), ("ca", 300, "mg_l"), ("ca", 550, "mg_l"), ("ca", 1050, "mg_l_caco3"),
    ("mg", 1800, "mg_l"), ("no3", 0, "mg_l"), ("no3", 80, "mg_l"), ("no3", 2, "mg_l_n"),
    ("po4", 0, "mg_l"), ("po4", 0.6, "mg_l"),
    ("po4", 30, "ppb_p"), ("ph", 7.6, "nbs"), ("ammonia", 0, "mg_l_n"), ("ammonia", 4, "mg_l_n"),
    ("nitrite", 5, "mg_l"),
]  # fmt: skip


@pytest.mark.parametrize(("quantity", "typed", "unit"), USUAL)
def test_usual_values_are_not_asked_about(quantity, typed, unit):
    assert ask(quantity, Measured(typed, unit)) is None


@pytest.mark.parametrize(
    ("quantity", "typed", "unit"),
    [("alk", 4.4, "dkh"), ("alk", 15, "dkh"), ("salinity", 42, "ppt"), ("po4", 2, "mg_l")],
)
def test_really_meant_is_judged(quantity, typed, unit):
    measured = Measured(typed, unit)
    (question,) = report(reading(quantity, measured)).questions
    answer = report(reading(quantity, measured, answers=frozenset({question.values["answer"]})))
    assert answer.questions == ()
    assert finding(answer, quantity).estimate.mid == pytest.approx(typed)
    other = report(reading(quantity, Measured(typed * 1.01, unit), answers=frozenset({question.values["answer"]})))
    assert other.questions  # the answer was for another value


def test_what_cannot_be_true_cannot_be_meant():
    measured = Measured(150, "dkh")
    (question,) = report(reading("alk", measured)).questions
    assert "answer" not in question.values
    assert report(reading("alk", measured, answers=frozenset({"alk:150:dkh"}))).questions


def test_plausible_both_ways_is_judged_and_said():
    answer = report(reading("alk", Measured(12.0, "dkh", "drop_kit")))
    assert answer.questions == ()
    codes = {note.code: note.values for note in finding(answer, "alk").reasons}
    assert codes["maybe_french_degrees"]["other_value"] == pytest.approx(12 / 1.7848, rel=1e-3)


def test_a_glass_hydrometer_asks_what_its_stem_says():
    """1.0233 on a 60 F stem in water of 25 C is 2.7 above the same reading on a 25 C one (TEOS-10)."""
    answer = report(reading("salinity", Measured(1.0233, "sg_25", "hydrometer_glass")))
    note = next(n for n in finding(answer, "salinity").reasons if n.code == "hydrometer_check_stem")
    assert note.values["other_value"] - note.values["value"] == pytest.approx(2.7, abs=0.15)


def test_an_unknown_form_is_judged_by_the_worse():
    answer = report(reading("no3", Measured(5, "mg_l_unsure", "colorimeter")))
    found = finding(answer, "no3")
    assert found.estimate.mid == pytest.approx(5 * 4.4266, rel=1e-3)
    assert "form_unknown" in {note.code for note in found.reasons}
    assert "readings_disagree" not in {note.code for note in found.reasons}


def test_two_readings_that_disagree():
    answer = report(reading("alk", Measured(8.5, "dkh", "drop_kit"), Measured(6.7, "dkh", "colorimeter")))
    found = finding(answer, "alk")
    assert found.estimate.mid == 6.7
    (note,) = [n for n in found.reasons if n.code == "readings_disagree"]
    assert note.values == {"used_value": 6.7, "other_value": 8.5}
    agreeing = report(reading("alk", Measured(8.5, "dkh", "drop_kit"), Measured(8.3, "dkh", "drop_kit")))
    assert "readings_disagree" not in {n.code for n in finding(agreeing, "alk").reasons}


VOLUME = [
    # typed, unit, code, offered unit and litres; the good tank's box is 100 x 45 x 45 cm = 202.5 l
    (53, "gal", "which_gallon", "gal_us", 200.6),
    (53, "l", "volume_against_size", "gal_us", 200.6),
    (44, "l", "volume_against_size", "gal_imp", 200.0),
    (230, "l", "volume_against_size", None, None),
    (178, "l", "volume_against_size", None, None),
]


@pytest.mark.parametrize(("typed", "unit", "code", "offered", "litres"), VOLUME)
def test_volume_traps(typed, unit, code, offered, litres):
    (question,) = report(tank(volume=Measured(typed, unit))).questions
    assert (question.quantity, question.code) == ("volume", code)
    if offered:
        assert {key: at for key, _, at in question.offers}[offered] == pytest.approx(litres, rel=0.005)


def test_a_volume_within_twelve_percent_is_not_asked_about():
    assert report(tank(volume=Measured(225, "l"))).questions == ()
    assert report(tank(volume=Measured(180, "l"))).questions == ()


def test_a_volume_confirmed_is_used():
    buyer = tank(volume=Measured(150, "l"))
    (question,) = report(buyer).questions
    confirmed = tank(volume=Measured(150, "l"), answers=frozenset({question.values["answer"]}))
    assert report(confirmed).questions == ()


def test_par_that_is_lux():
    answer = report(tank(light=LightSaid("meter", par=9000, depth_cm=10)))
    (question,) = answer.questions
    assert (question.quantity, question.code) == ("light", "par_may_be_lux")
    assert question.values["low_umol"] == pytest.approx(120) and question.values["high_umol"] == pytest.approx(750)
    assert finding(answer, "light").verdict == "not_known"


def test_flow_that_cannot_be():
    for said in (FlowSaid("meter", speed_cm_s=250), FlowSaid("pumps", (PumpSaid(90000),))):
        answer = report(tank(flow=said))
        assert [question.quantity for question in answer.questions] == ["flow"]
        assert finding(answer, "flow").verdict == "not_known"


def test_sides_in_inches_typed_as_centimetres():
    """39.4 x 17.7 x 17.7 inches are 100 x 45 x 45 cm, 202 litres."""
    inches = {side: Measured(value, "cm") for side, value in (("length", 39.4), ("width", 17.7), ("height", 17.7))}
    (question,) = report(tank(**inches)).questions
    assert question.code == "volume_against_size" and question.values["sides_may_be"] == "in"


@pytest.mark.parametrize(
    ("said", "name"),
    [
        (LightSaid("fixture", kind="t5", watts=39, hours=30), "hours"),
        (LightSaid("fixture", kind="t5", watts=9000), "watts_each"),
        (LightSaid("fixture", kind="t5", watts=39, height_cm=900), "height_cm"),
        (LightSaid("lux", lux=900000, colour="white", depth_cm=0), "lux"),
    ],
)
def test_a_light_that_cannot_be_is_asked_about_by_name(said, name):
    answer = report(tank(light=said))
    (question,) = answer.questions
    assert (question.quantity, question.code, question.unit) == ("light", "impossible", name)
    assert question.typed == (said.watts if name == "watts_each" else getattr(said, name))


@pytest.mark.parametrize("typed", [1.020, 1.021, 1.023, 1.025, 1.027, 1.029])
def test_a_gravity_in_the_wrong_box_is_offered_at_every_reference_and_never_only_at_the_kindest(typed):
    """1.021 is 27.9 against water of 25 C and 31.9 against water of 4 C (TEOS-10): which, only the buyer can say."""
    offers = {unit: at for unit, _typed, at in ask("salinity", Measured(typed, "ppt")).offers}
    assert set(offers) >= {"sg_25", "sg_20", "sg_60f", "sg_4"}
    assert offers["sg_4"] - offers["sg_25"] > 3.5
