"""The list of tanks: each reading in a line, in the order in which people ask for them."""

import re

from tests.shop_client import Visitor


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
