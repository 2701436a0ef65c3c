"""A tank through a day: readings, an odd one asked about, feeding, who is out, a look, growth, a session by rule."""

import io

import pytest
from PIL import Image

from tests.shop_client import Visitor
from webapp.schemas.profiles import load_profiles


@pytest.fixture
def staff(stage):
    return Visitor(stage).sign_in()


def logged(staff, stage, **typed):
    return staff.open(f"/tanks/{stage.tank}/readings").send("/readings", **typed)


def test_an_odd_reading_is_asked_about_and_kept_when_it_is_meant(staff, stage):
    for alk in ("8.0", "8.1", "8.2", "8.1"):
        logged(staff, stage, alk=alk)
    logged(staff, stage, alk="9.4")
    assert staff.status == 422
    assert "Alkalinity 9.4 dKH: is that right?" in staff.text
    staff.send("/readings", meant="alk=9.4")
    assert staff.status == 200
    assert "9.4 dKH" in staff.text


def test_the_last_reading_stands_in_the_unit_that_is_asked_for(staff, stage):
    """77 °F are 25 °C; 140.1 ppm CaCO3 are 7.85 dKH at 17.848 to the degree (1 °dH = 10 mg/L CaO, 56.08 and 100.09)."""
    logged(staff, stage, temp="77", temp_unit="f", alk="140.1", alk_unit="ppm_caco3")
    text = staff.open(f"/tanks/{stage.tank}/readings").text.replace("\N{NO-BREAK SPACE}", " ")
    assert "Last: 77.0 °F (25.0 °C), just now" in text
    assert "ppm CaCO3 (7.8 dKH), just now" in text


def test_saying_it_of_one_value_does_not_hold_for_another(staff, stage):
    logged(staff, stage, temp="25")
    logged(staff, stage, temp="31", meant="temp=32")
    assert staff.status == 422


def test_an_ordinary_change_is_not_asked_about(staff, stage):
    for temp in ("25.0", "25.1", "25.2", "25.0"):
        logged(staff, stage, temp=temp)
    logged(staff, stage, temp="25.5")
    assert staff.status == 200


def test_the_method_of_last_time_is_offered(staff, stage):
    logged(staff, stage, alk="8", alk_method="fine_titration")
    staff.open(f"/tanks/{stage.tank}/readings")
    assert 'value="fine_titration" selected' in staff.page


def test_who_is_out_of_range_and_the_alarms(staff, stage):
    logged(staff, stage, temp="25", salinity="35")
    logged(staff, stage, temp="29.5", meant="temp=29.5")
    assert "29.5 °C: act from 29 °C" in staff.text
    kind = load_profiles()["zoanthus"]
    band = kind.bands["temp"]
    assert f"{kind.trade_name}: outside {band.limit_low:g} to {band.limit_high:g} since" in staff.text
    assert "1 outside the limits of what lives here" in staff.page


@pytest.mark.parametrize(
    ("name", "typed", "told"),
    [
        ("feed", {"feed__food": "meaty"}, "Fed: small meaty bits."),
        ("dose", {"dose__what": "alkalinity", "dose__amount": "20", "dose__unit": "ml"}, "Dosed: alkalinity, 20 ml."),
        ("change", {"change__litres": "40"}, "40 L of water changed."),
        ("service", {"service__what": "pump cleaned"}, "Equipment: pump cleaned."),
        ("note", {"note__text": "Cloudy this morning."}, "Cloudy this morning."),
    ],
)
def test_what_is_done_to_a_tank_is_told_and_can_be_undone(staff, stage, name, typed, told):
    staff.open(f"/tanks/{stage.tank}").send(f"/tend/{name}", **typed)
    assert told in staff.text
    staff.send("/undo/")
    assert told not in staff.text


def test_a_form_that_lacks_something_comes_back_open(staff, stage):
    staff.open(f"/tanks/{stage.tank}").send("/tend/change", change__litres="")
    assert staff.status == 422
    assert "Give a number: water changed." in staff.text


def test_one_tap_says_all_is_well_and_the_rule_moves_on(staff, stage):
    staff.open(f"/s/{stage.mother}/frag").send("/frag", method="scalpel", pieces=1, rack=stage.rack, heads=3)
    staff.open("/stock?state=healing")
    staff.open(staff.find(r'href="(/s/[0-9a-f]{32})"'))
    assert "Ready for sale: not yet, 5 of 7 open" in staff.text
    staff.send("/well")
    assert "Ready for sale: not yet, 3 of 7 open" in staff.text
    assert "Looked at: holds on, edges closed, fully open" in staff.text


def test_a_size_ten_times_too_large_is_asked_about(staff, stage):
    staff.open(f"/s/{stage.mother}").send("/measure", measure__size_mm="35")
    staff.send("/measure", measure__size_mm="350")
    assert staff.status == 422
    assert "would be likely. Correct it, or tick that you mean it." in staff.text
    staff.send("/measure", measure__size_mm="350", measure__meant="y")
    assert staff.status == 200
    assert "350 mm" in staff.text


def test_the_form_says_whether_she_may_be_cut(staff, stage):
    staff.open(f"/s/{stage.mother}/frag")
    assert "Not yet by the rule" in staff.text
    assert "28 needed" in staff.text
    assert "Take at most 33 % at once" in staff.text
    staff.send("/frag", method="scalpel", pieces=4, rack=stage.rack)
    staff.open(f"/s/{stage.mother}")
    assert "4 pieces 100 % did not die: 0 sold, 4 healing, 0 died" in staff.text


def test_taking_too_much_of_her_is_asked_about(staff, stage):
    staff.open(f"/s/{stage.mother}").send("/measure", measure__heads="9")
    staff.open(f"/s/{stage.mother}/frag").send("/frag", method="scalpel", pieces=4, heads=2, rack=stage.rack)
    assert staff.status == 422
    assert "more of her than should go at once" in staff.text
    staff.send("/frag", meant="y")
    assert staff.status == 200
    staff.open("/stock?state=healing")
    assert "4 specimens" in staff.text


def test_the_picture_of_a_look_is_kept_for_the_shop_only(staff, stage):
    out = io.BytesIO()
    Image.effect_mandelbrot((320, 240), (-2, -1.5, 1, 1.5), 40).convert("RGB").save(out, "JPEG")
    code = staff.open(f"/s/{stage.mother}").find(r"data-code>([0-9A-Z]{7})<")
    picture = {"look-picture": (io.BytesIO(out.getvalue()), "edge.jpg")}
    staff.send("/look", look__edge_closed="n", files=picture)
    assert staff.status == 200, staff.text[:500]
    photo = staff.find(r"(/photo/[0-9a-f]{32}\.webp)")
    assert photo not in Visitor(stage, "public").open(f"/{code}").page


def test_looks_are_not_told_to_walk_ins(staff, stage):
    code = staff.open(f"/s/{stage.mother}").find(r"data-code>([0-9A-Z]{7})<")
    staff.send("/look", look__slime="y")
    assert "brown slime" in staff.text
    card = Visitor(stage, "public").open(f"/{code}").text
    assert "brown slime" not in card
    assert "Looked at" not in card
