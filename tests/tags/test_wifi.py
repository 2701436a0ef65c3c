"""Wi-Fi join texts for the door poster."""

import pytest

from webapp.errors import BadInput
from webapp.tags.wifi import wifi_text


def test_fields():
    assert wifi_text("Reef guests", "coral reef 9", hidden=True) == "WIFI:T:WPA;S:Reef guests;P:coral reef 9;H:true;;"
    assert wifi_text("Reef", "0f" * 32).endswith(f"P:{'0f' * 32};;")
    assert wifi_text("Open reef") == "WIFI:T:nopass;S:Open reef;;"


@pytest.mark.parametrize("name", ["", "x" * 33, "珊" * 11])
def test_a_name_of_the_wrong_length_is_refused(name):
    with pytest.raises(BadInput, match="1 to 32") as caught:
        wifi_text(name, "12345678")
    assert caught.value.field == "name"


@pytest.mark.parametrize("password", ["1234567", "x" * 64, "pässword", "line\nbreak"])
def test_a_password_that_cannot_be_one_is_refused(password):
    with pytest.raises(BadInput, match="8 to 63") as caught:
        wifi_text("Reef", password)
    assert caught.value.field == "password"
