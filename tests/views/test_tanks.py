"""The list of tanks: each reading in a line, in the order in which people ask for them."""

import re

from tests.shop_client import Visitor
from webapp.services import intake
from webapp.services.recording import new_deed


def test_the_last_readings_stand_in_one_order_however_they_were_logged(stage):
    staff = Visitor(stage).sign_in()
    for typed in ({"po4": "0.05"}, {"alk": "8.1", "temp": "25.5"}, {"salinity": "35", "ca": "420"}, {"temp": "26"}):
        staff.open(f"/tanks/{stage.tank}/readings").send("/readings", **typed)
    page = staff.open("/tanks").find(r'<dl class="latest">(.*?)</dl>')
    said = re.findall(r"<dt>(\w+) .*?<dd>([^<]*)</dd>", page.replace("\N{NO-BREAK SPACE}", " "))
    assert said == [
        ("Temperature", "26.0 °C"), ("Salinity", "35.0 ppt"), ("Alkalinity", "8.1 dKH"),
        ("Phosphate", "0.050 mg/L PO4"),
    ]  # fmt: skip


def test_a_reading_is_corrected_from_how_it_stands(stage):
    staff = Visitor(stage).sign_in().open(f"/tanks/{stage.tank}/readings")
    staff.send("/readings", temp="78", temp_unit="f", temp_method="digital_probe", meant="temp=78")
    staff.open(staff.find(r'href="(/readings/[^"]*)"').replace("&amp;", "&"))
    correction = staff.path
    assert 'name="value" value="78"' in staff.page
    assert '<option value="f" selected>' in staff.page and '<option value="digital_probe" selected>' in staff.page
    staff.send("/readings/", value="77")
    assert "77.0 °F" in staff.text
    assert '<option value="digital_probe" selected>' in staff.open(f"/tanks/{stage.tank}/readings").page
    assert staff.open(correction.replace("/temp", "/alk")).status == 404
    assert staff.open(correction.replace("/temp", "/nonsense")).status == 404
    assert staff.open(f"/readings/{'0' * 32}/temp").status == 404


def test_a_reading_stands_there_as_finely_as_it_was_read(stage):
    staff = Visitor(stage).sign_in().open(f"/tanks/{stage.tank}/readings")
    staff.send("/readings", ca="435", mg="1312.5", alk="8", po4="0.05")
    last = staff.open(f"/tanks/{stage.tank}/readings").text.replace("\N{NO-BREAK SPACE}", " ")
    for said in ("Last: 435 mg/L,", "Last: 1312.5 mg/L,", "Last: 8.0 dKH,", "Last: 0.050 mg/L PO4,"):
        assert said in last


def test_a_reading_in_another_unit_stands_beside_that_of_its_chart(stage):
    """77 °F are 25 °C, which the axis counts in."""
    staff = Visitor(stage).sign_in().open(f"/tanks/{stage.tank}/readings").send("/readings", temp="77", temp_unit="f")
    staff.open(f"/tanks/{stage.tank}")
    assert "77.0 °F 25 °C, just now" in staff.text.replace("\N{NO-BREAK SPACE}", " ")


def test_many_animals_and_deeds_of_a_tank_are_behind_a_tap(stage):
    plain = {"profile_key": "discosoma", "name": "Blue Disc", "origin": "own", "status": "for_sale",
             "tank_id": stage.other_tank}  # fmt: skip
    with stage.database.saving() as session:
        intake.take_in(session, stage.owner, new_deed(), plain, 7)
    staff = Visitor(stage).sign_in()
    for litres in range(1, 8):
        staff.open(f"/tanks/{stage.other_tank}").send("/tend/change", change__litres=str(litres))
    lives, done = staff.page.split('id="lives"')[1].split('id="done"')
    shown, more = lives.split("<summary>2 more</summary>")
    assert (shown.count("Blue Disc"), more.count("Blue Disc")) == (5, 2)
    last, earlier = done.split("<summary>2 earlier</summary>")
    assert "7 L of water changed" in last and "3 L of water changed" in last
    assert "2 L of water changed" in earlier and "1 L of water changed" in earlier
