"""What must be chosen on a specimen's panel is chosen by a person."""

import io
import re

import pytest

from tests.shop_client import Visitor


@pytest.mark.parametrize(
    ("deed", "name", "words", "right"),
    [("lose", "cause", "Choose one: cause.", "pest"), ("dip", "dip", "Choose one: which dip.", "iodine")],
)
def test_neither_a_cause_of_death_nor_a_dip_stands_there_already(stage, deed, name, words, right):
    """A hurried tap would tell the losses a cause that nobody saw."""
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    options = staff.find(rf'<select class="input" id="{deed}-{name}"[^>]* required[^>]*>(.*?)</select>')
    assert options.index('value=""') < options.index(f'value="{right}"')
    staff.send(f"/{deed}")
    assert staff.status == 422 and words in staff.text
    staff.send(f"/{deed}", **{f"{deed}__{name}": right})
    assert staff.path == f"/s/{stage.mother}"


def test_a_refused_picture_leads_back_to_the_panel_by_an_address(stage):
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    staff.send("/photo", files={"photo-picture": (io.BytesIO(b"just text"), "a.jpg")})
    assert staff.path == f"/s/{stage.mother}" and staff.status == 200
    assert "not a picture" in staff.text
    assert "not a picture" not in staff.open(staff.path).text


def test_a_deed_says_what_was_done_with_and_without_the_outbox(stage):
    """A form that stands for an event carries the sentence of its deed; 'Done.' would not tell a slip of the thumb."""
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    said = dict(re.findall(rf'action="/s/{stage.mother}/(\w+)"[^>]*data-told="([^"]+)"', staff.page))
    assert said["lose"] == "Noted as lost." and said["well"] == "Noted: all is well." and said["price"] == (
        "Price noted.")  # fmt: skip
    assert "Done." not in said.values()
    assert "Noted as lost." in staff.send("/lose", lose__cause="unknown").text


def test_a_form_that_is_sent_as_it_stood_there_changes_nothing_and_says_so(stage):
    """'Moved.' would be untrue, and the slot would be gone."""
    staff = Visitor(stage).sign_in().open(f"/s/{stage.mother}")
    for deed, told in (("move", "It stands there already."), ("status", "It is that already."),
                       ("kind", "It is noted as that already.")):  # fmt: skip
        staff.open(f"/s/{stage.mother}").send(f"/{deed}")
        assert staff.status == 422 and told in staff.text
    staff.open(f"/s/{stage.mother}").send("/move", move__slot="A1")
    assert "It stands there already." in staff.text
    staff.send("/move", move__slot="A2")
    assert "Moved." in staff.text
    form = staff.open(f"/s/{stage.mother}").page
    staff.send("/move", move__slot="A3")
    staff.page = form  # the same deed once more: a double tap is no refusal
    assert staff.send("/move", move__slot="A3").status == 200
